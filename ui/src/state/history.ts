/** How far undo reaches back. Snapshots share everything that did not change, so they cost little. */
const DEPTH = 300;

/** The versions of a document, one for each committed change. */
export class History<T> {
  #past: T[] = [];
  #future: T[] = [];
  #present: T;

  constructor(present: T) {
    this.#present = present;
  }

  get present(): T {
    return this.#present;
  }

  get canUndo(): boolean {
    return this.#past.length > 0;
  }

  get canRedo(): boolean {
    return this.#future.length > 0;
  }

  /** What redo would lead to. */
  get next(): T | undefined {
    return this.#future.at(-1);
  }

  commit(next: T): void {
    if (next === this.#present) return;
    this.#past.push(this.#present);
    if (this.#past.length > DEPTH) this.#past.shift();
    this.#present = next;
    this.#future = [];
  }

  /** Replaces the present without a step of its own. */
  amend(present: T): void {
    this.#present = present;
  }

  /** The present became another without being changed here. Every other state becomes what `also` makes of it; one that is
   * then as the state beside it is no step any more. */
  turn(present: T, also: (state: T) => T, same: (a: T, b: T) => boolean): void {
    const without = (states: T[]) => {
      const left: T[] = [];
      // From the present outwards.
      for (const state of [...states].reverse()) if (!same(state, left[0] ?? present)) left.unshift(state);
      return left;
    };
    this.#past = without(this.#past.map(also));
    this.#future = without(this.#future.map(also));
    this.#present = present;
  }

  undo(): T {
    const before = this.#past.pop();
    if (before === undefined) return this.#present;
    this.#future.push(this.#present);
    return (this.#present = before);
  }

  redo(): T {
    const after = this.#future.pop();
    if (after === undefined) return this.#present;
    this.#past.push(this.#present);
    return (this.#present = after);
  }
}
