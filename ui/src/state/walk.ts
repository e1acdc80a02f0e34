import type { Job, Rise, Walk } from '../backend/model';
import { MISSING } from './doc';
import { rootOf } from './pointer';
import { draftOf, type Draft } from './drafts.svelte';

/** A walk on its way into the job: the steps done, and the one being read. */
export interface WalkDraft {
  walk: Walk;
  next: { tape_m: number; rise: Rise };
}

export const WALK = 'walk';

/** A rise of a kind with its numbers still to be read. */
export function emptyRise(by: Rise['by']): Rise {
  const missing = MISSING as unknown as number;
  switch (by) {
    case 'height':
      return { by, rise_m: missing };
    case 'rod':
      return { by, before_m: missing, here_m: missing };
    case 'slope':
      return { by, slope_deg: missing, sigma_deg: null };
  }
}

/** A step of a kind with its numbers still to be read. */
export const emptyNext = (by: Rise['by']): WalkDraft['next'] => ({
  tape_m: MISSING as unknown as number,
  rise: emptyRise(by),
});

/** The walk begun earlier, or a fresh one. */
export function walkDraft(job: Job): Draft<WalkDraft> {
  // It stands nowhere in the job: its points do, once it is kept.
  return draftOf(WALK, rootOf<WalkDraft>(), () => ({
    walk: {
      from: job.yard.marks[0]?.id ?? '',
      along: { by: 'bearing', bearing_deg: MISSING },
      steps: [],
    },
    next: emptyNext('height'),
  }));
}
