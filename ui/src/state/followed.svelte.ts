import { untrack } from 'svelte';
import { whyNot } from './why';

export interface Told<A> {
  done: number;
  of: number;
  partial: A | null;
}

type Ask<Q, A> = (question: Q, told: (progress: Told<A>) => void, signal: AbortSignal) => Promise<A>;

/** Things that a question depends on; the same things are the same question. */
type Key = readonly unknown[];

/** The answer to a question that takes long and changes with the job: asked again once the job rests, the one under
 * way stopped as soon as it changes. The last whole answer stays until the next one stands; `stale` says so. */
export class Followed<Q, A> {
  answer = $state.raw<A | null>(null);
  /** What is found so far of the answer under way. */
  partial = $state.raw<A | null>(null);
  progress = $state.raw<{ done: number; of: number } | null>(null);
  problem = $state('');
  stale = $state(false);
  #of: Key = [];
  #wanted: Key = [];
  #stop: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** `restMs`: how long the job must be left alone first. */
  constructor(
    private readonly ask: Ask<Q, A>,
    private readonly restMs: number,
  ) {}

  /** Call it from an effect, as often as the job changes. */
  want(key: Key, question: Q): void {
    untrack(() => {
      if (same(key, this.#wanted)) return;
      this.#wanted = key;
      this.#drop();
      this.stale = this.answer !== null && !same(key, this.#of);
      if (this.answer !== null && !this.stale) return;
      this.#timer = setTimeout(() => void this.#run(key, question), this.restMs);
    });
  }

  /** Forgets everything, as when another job is opened. */
  clear(): void {
    this.#drop();
    this.#wanted = this.#of = [];
    this.answer = null;
    this.problem = '';
    this.stale = false;
  }

  #drop(): void {
    clearTimeout(this.#timer);
    this.#stop?.abort();
    this.#stop = null;
    this.partial = this.progress = null;
  }

  async #run(key: Key, question: Q): Promise<void> {
    const stop = new AbortController();
    this.#stop = stop;
    this.problem = '';
    this.progress = { done: 0, of: 1 };
    try {
      const answer = await this.ask(question, (told) => this.#hear(told, stop), stop.signal);
      if (stop.signal.aborted) return;
      this.answer = answer;
      this.#of = key;
      this.stale = false;
    } catch (error) {
      if (!stop.signal.aborted) this.problem = whyNot(error);
    } finally {
      if (this.#stop === stop) this.#drop();
    }
  }

  #hear({ done, of, partial }: Told<A>, stop: AbortController): void {
    if (this.#stop !== stop) return;
    this.progress = { done, of };
    if (partial !== null) this.partial = partial;
  }
}

function same(a: Key, b: Key): boolean {
  return a.length === b.length && a.every((one, i) => one === b[i]);
}
