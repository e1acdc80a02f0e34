import { SvelteMap } from 'svelte/reactivity';
import { app } from './app.svelte';
import type { Doc, Typed } from './doc';
import { rootOf, type Pointer } from './pointer';

/** The numbers that such sheets ask for. */
export interface LooseNumbers {
  top_deg: number;
  foot_deg: number;
  far_top_deg: number;
  slope_deg: number;
  bearing_deg: number;
  tape_m: number;
  eye_m: number;
  known_m: number;
  new_m: number;
  length_m: number;
  light_height_m: number;
  longest_piece_m: number;
  strand_length_m: number;
  strand_count: number;
  phone_at_m: number;
  swing_count: number;
  swing_time: number;
  pull_n: number;
  aside_m: number;
  to_front_slope_deg: number;
  to_right_slope_deg: number;
}

/** Numbers of a sheet that are no part of the job, such as the angles from which a height follows. */
export class LooseDoc implements Doc {
  readonly root = rootOf<LooseNumbers>();
  #values = new SvelteMap<string, unknown>();
  #shown = new SvelteMap<string, string>();
  /** Of captured numbers; a number typed in its place has its instrument's usual one. */
  #sigmas = new SvelteMap<string, number>();
  #typed = new SvelteMap<string, Typed>();

  get units() {
    return app.units;
  }

  readonly mayMiss = true;

  get<V>(pointer: Pointer<V>): V | undefined {
    return this.#values.get(pointer) as V | undefined;
  }

  /** A number that was entered; null until then. */
  number(pointer: Pointer<number>): number | null {
    const value = this.#values.get(pointer);
    return typeof value === 'number' ? value : null;
  }

  sigma(pointer: Pointer<number>): number | null {
    return this.#sigmas.get(pointer) ?? null;
  }

  capture(pointer: Pointer<number>, value: number, text: string, sigma: number): void {
    this.accept(pointer, value, text);
    this.#sigmas.set(pointer, sigma);
  }

  set<V>(pointer: Pointer<V>, value: NoInfer<V>): void {
    this.#values.set(pointer, value);
    if (value === null) this.#shown.delete(pointer);
  }

  clear(pointer: Pointer<number | null>): void {
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

  accept(pointer: Pointer<number | null>, value: number, text: string): void {
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
