import type { Job } from '../backend/model';
import { app } from './app.svelte';
import type { Told } from './followed.svelte';
import { whyNot } from './why';

/** Long work on the job that somebody begins by a tap, watches and may stop: what was found, and the work under way. It
 * goes on while other pages are looked at. */
export abstract class WatchedWork<A> {
  answer = $state.raw<A | null>(null);
  progress = $state.raw<{ done: number; of: number } | null>(null);
  problem = $state('');
  /** The job that the answer is of. */
  protected of = $state.raw<Job | null>(null);
  #stop: AbortController | null = null;

  /** Whether what the answer hangs on has changed since. */
  abstract get stale(): boolean;

  /** Whether one of these parts of the job is another now than when this was found. */
  protected changed(...parts: (keyof Job)[]): boolean {
    const { of } = this;
    const { job } = app;
    return of !== null && job !== null && parts.some((part) => of[part] !== job[part]);
  }

  get running(): boolean {
    return this.progress !== null;
  }

  cancel(): void {
    this.#stop?.abort();
  }

  /** An answer so far counts until the whole one stands, and stays where the work is stopped. */
  protected async watch(
    ask: (job: Job, told: (progress: Told<A>) => void, signal: AbortSignal) => Promise<A>,
  ): Promise<void> {
    const { job } = app;
    if (!job || this.running) return;
    this.problem = '';
    this.progress = { done: 0, of: 1 };
    this.#stop = new AbortController();
    const found = (answer: A) => {
      this.answer = answer;
      this.of = job;
    };
    try {
      const told = (progress: Told<A>) => {
        this.progress = progress;
        if (progress.partial) found(progress.partial);
      };
      found(await ask(job, told, this.#stop.signal));
    } catch (error) {
      if (!(error instanceof DOMException && error.name === 'AbortError')) this.problem = whyNot(error);
    } finally {
      this.progress = null;
    }
  }
}
