import { backend } from '../backend';
import type { Rig, RigsAnswer, RigWishes } from '../backend/model';
import { app } from './app.svelte';
import { LooseDoc } from './loose.svelte';
import { jobAt, within, withValue } from './pointer';
import { why } from './why';

/** Masts that reach a height, from tubes that can be bought. */
class RigsState {
  /** What is wished; no part of the job until a mast is taken over. */
  readonly doc = new LooseDoc();
  answer = $state.raw<RigsAnswer | null>(null);
  looking = $state(false);
  problem = $state('');
  #of = $state.raw<unknown>(null);

  /** Whether what the answer hangs on has changed since. */
  get stale(): boolean {
    return this.answer !== null && this.#of !== app.job;
  }

  async look(): Promise<void> {
    const { job } = app;
    const { doc } = this;
    const { root } = doc;
    const light_height_m = doc.number(within(root, '/light_height_m'));
    const longest_piece_m = doc.number(within(root, '/longest_piece_m'));
    if (!job || this.looking) return;
    if (light_height_m === null || longest_piece_m === null) {
      this.problem = 'Enter how high the lights begin and the longest piece first.';
      return;
    }
    const strand_count = doc.number(within(root, '/strand_count'));
    const wishes: RigWishes = {
      light_height_m,
      longest_piece_m,
      strand_count: strand_count === null ? null : Math.round(strand_count),
      strand_length_m: doc.number(within(root, '/strand_length_m')),
      tables: [],
    };
    this.problem = '';
    this.looking = true;
    try {
      this.answer = await backend.call('rigs', { job: { ...job, log: [] }, wishes });
      this.#of = job;
    } catch (error) {
      this.answer = null;
      this.problem = why(error);
    } finally {
      this.looking = false;
    }
  }

  /** Makes a mast that of the job: one change, which undo takes back. */
  take(rig: Rig): void {
    if (app.job) app.commit(withValue(app.job, jobAt('/rig'), rig));
  }
}

export const rigs = new RigsState();
