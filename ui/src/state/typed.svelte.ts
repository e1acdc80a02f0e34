import { SvelteMap } from 'svelte/reactivity';
import type { Typed } from './doc';
import { keep, kept } from './kept';
import { afterRemoval } from './pointer';
import { renamed } from './renamed';

/** What stands in the job's number fields but is not in the job: texts being typed or refused. They are kept
 * until they are put right, also over a restart. */
class TypedTexts {
  #waiting = new SvelteMap<string, Typed>();
  /** Accepted texts, shown until the engine's own wording of the number arrives. */
  #accepted = new SvelteMap<string, string>();

  get(pointer: string): Typed | undefined {
    return this.#waiting.get(pointer);
  }

  all(): [string, Typed][] {
    return [...this.#waiting];
  }

  acceptedText(pointer: string): string | undefined {
    return this.#accepted.get(pointer);
  }

  put(pointer: string, typed: Typed | null): void {
    if (typed) this.#waiting.set(pointer, typed);
    else this.#waiting.delete(pointer);
    this.#keep();
  }

  accepted(pointer: string, text: string): void {
    this.#accepted.set(pointer, text);
    this.put(pointer, null);
  }

  forgetAccepted(): void {
    if (this.#accepted.size > 0) this.#accepted.clear();
  }

  itemRemoved(list: string, index: number): void {
    const moved = [...this.#waiting].map(([at, typed]) => [afterRemoval(at, list, index), typed] as const);
    this.#waiting.clear();
    for (const [at, typed] of moved) if (at !== null) this.#waiting.set(at, typed);
    this.#keep();
  }

  /** Something came into the job from elsewhere: the texts go on where their fields now are. */
  carry(to: (pointer: string) => string | null): void {
    const moved = [...this.#waiting].map(([at, typed]) => [to(at), typed] as const);
    this.#waiting.clear();
    this.#accepted.clear();
    for (const [at, typed] of moved) if (at !== null) this.#waiting.set(at, typed);
    this.#keep();
  }

  /** Whether a text is being typed or read: it is on its way into the job. */
  get areOnTheirWay(): boolean {
    return [...this.#waiting.values()].some(({ problem }) => problem === '');
  }

  /** Pointers of refused texts below a place. */
  problemsBelow(pointer: string): number {
    let count = 0;
    for (const [at, typed] of this.#waiting) if (at.startsWith(pointer) && typed.problem !== '') count += 1;
    return count;
  }

  /** Turns to what was being typed into the job that is opened. */
  turn(): void {
    this.#waiting.clear();
    this.#accepted.clear();
    const waiting = kept<Record<string, Typed>>('typed') ?? {};
    for (const [at, typed] of Object.entries(waiting)) this.#waiting.set(renamed(at), typed);
  }

  #keep(): void {
    keep('typed', this.#waiting.size > 0 ? Object.fromEntries(this.#waiting) : null);
  }
}

export const typedTexts = new TypedTexts();

/** Whether somebody is in the middle of typing: what joins the job by itself when it is whole waits for that. */
class Typing {
  now = $state(false);
}

export const typing = new Typing();
