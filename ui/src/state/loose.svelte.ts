import { SvelteMap } from 'svelte/reactivity';
import { app } from './app.svelte';
import type { Doc, Typed } from './doc';

/** Numbers of a sheet that are no part of the job, such as the angles from which a height follows. */
export class LooseDoc implements Doc {
  #values = new SvelteMap<string, unknown>();
  #shown = new SvelteMap<string, string>();
  /** Of captured numbers; a number typed in its place has its instrument's usual one. */
  #sigmas = new SvelteMap<string, number>();
  #typed = new SvelteMap<string, Typed>();

  get units() {
    return app.units;
  }

  readonly mayMiss = true;

  get(pointer: string): unknown {
    return this.#values.get(pointer);
  }

  /** A number that was entered; null until then. */
  number(pointer: string): number | null {
    const value = this.#values.get(pointer);
    return typeof value === 'number' ? value : null;
  }

  sigma(pointer: string): number | null {
    return this.#sigmas.get(pointer) ?? null;
  }

  capture(pointer: string, value: number, text: string, sigma: number): void {
    this.accept(pointer, value, text);
    this.#sigmas.set(pointer, sigma);
  }

  set(pointer: string, value: unknown): void {
    this.#values.set(pointer, value);
    if (value === null) this.#shown.delete(pointer);
  }

  clear(pointer: string): void {
    this.set(pointer, null);
  }

  shown(pointer: string): string {
    return this.#shown.get(pointer) ?? '';
  }

  typed(pointer: string): Typed | undefined {
    return this.#typed.get(pointer);
  }

  keepTyped(pointer: string, typed: Typed | null): void {
    if (typed) this.#typed.set(pointer, typed);
    else this.#typed.delete(pointer);
  }

  accept(pointer: string, value: number, text: string): void {
    this.#values.set(pointer, value);
    this.#shown.set(pointer, text);
    this.#typed.delete(pointer);
    this.#sigmas.delete(pointer);
  }

  /** Nothing of the job changes; what the numbers may be, the operation says that uses them. */
  trial(): unknown {
    return app.job;
  }

  noteText(pointer: string, text: string): void {
    this.#shown.set(pointer, text);
  }

  removeFrom(): void {}

  field(pointer: string): string {
    return pointer;
  }
}
