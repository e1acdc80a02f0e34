import { backend } from '../backend';
import type { Job, SpreadAnswer } from '../backend/model';
import { app } from './app.svelte';
import { whyNot } from './why';

/** The plan's numbers tried on many yards drawn by chance: what was found, and the drawing under way. It goes on
 * while other pages are looked at. */
class SpreadState {
  answer = $state.raw<SpreadAnswer | null>(null);
  progress = $state.raw<{ done: number; of: number } | null>(null);
  problem = $state('');
  #of = $state.raw<Job | null>(null);
  #stop: AbortController | null = null;

  /** Whether the job has changed since the answer. */
  get stale(): boolean {
    return this.answer !== null && this.#of !== app.job;
  }

  get running(): boolean {
    return this.progress !== null;
  }

  /** Draws yards from this seed; without one, from a new seed. */
  async draw(seed = newSeed()): Promise<void> {
    const job = app.job;
    if (!job || this.running) return;
    this.problem = '';
    this.progress = { done: 0, of: 1 };
    this.#stop = new AbortController();
    try {
      const told = (progress: { done: number; of: number }) => (this.progress = progress);
      this.answer = await backend.watch('spread', { job, seed }, told, this.#stop.signal);
      this.#of = job;
    } catch (error) {
      if (!(error instanceof DOMException && error.name === 'AbortError')) this.problem = whyNot(error);
    } finally {
      this.progress = null;
    }
  }

  cancel(): void {
    this.#stop?.abort();
  }
}

function newSeed(): number {
  return crypto.getRandomValues(new Uint32Array(1))[0]! % 1_000_000;
}

export const spread = new SpreadState();
