import type { PointFix } from '../backend/model';

/** A point that is being put on the map. */
export interface Picking {
  /** What the point is called, such as `corner 2`. */
  label: string;
  /** Page to go back to. */
  back: string;
  /** Pointer of the fix in the job, where it has a place already. */
  path: string | null;
  /** Page to go on to once a point was put, in place of going back. */
  then?: string;
  /** Takes the point; names the next one of the same list, or null when that was all. */
  put: (fix: PointFix) => string | null;
}

class PickingState {
  now = $state.raw<Picking | null>(null);
}

export const picking = new PickingState();
