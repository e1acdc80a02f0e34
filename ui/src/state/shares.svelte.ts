import { backend } from '../backend';
import type { SharesAnswer } from '../backend/model';
import { app } from './app.svelte';
import { WatchedWork } from './watched-work.svelte';

/** What each reading is worth: how much of every ± comes from it, and what to read again. */
class SharesState extends WatchedWork<SharesAnswer> {
  get stale(): boolean {
    return this.answer !== null && this.of !== app.job;
  }

  look(): Promise<void> {
    return this.watch((job, told, signal) => backend.watch('shares', { job }, told, signal));
  }
}

export const shares = new SharesState();
