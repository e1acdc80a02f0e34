import { backend } from '../backend';
import type { SpreadAnswer } from '../backend/model';
import { app } from './app.svelte';
import { WatchedWork } from './watched-work.svelte';

/** The plan's numbers tried on many yards drawn by chance. */
class SpreadState extends WatchedWork<SpreadAnswer> {
  get stale(): boolean {
    return this.answer !== null && this.of !== app.job;
  }

  /** Draws yards from this seed; without one, from a new seed. */
  draw(seed = newSeed()): Promise<void> {
    return this.watch((job, told, signal) => backend.watch('spread', { job, seed }, told, signal));
  }
}

function newSeed(): number {
  return crypto.getRandomValues(new Uint32Array(1))[0]! % 1_000_000;
}

export const spread = new SpreadState();
