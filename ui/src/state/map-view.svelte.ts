import type { Subject } from '../backend/model';
import type { View } from './view';

/** What the map is doing beside showing: whose points are being dragged, and where it should look. */
class MapState {
  /** Kept here, so that the map comes back as it was left. */
  view = $state.raw<View | null>(null);
  /** Pointer of the thing whose points have handles. */
  editing = $state<string | null>(null);
  /** Counts up when the whole map should be fitted again. */
  fitAsked = $state(0);
  fittedFor = -1;
  whole = $state(false);
  /** Something to bring into the middle. */
  lookAt = $state.raw<Subject | null>(null);
  legendOpen = $state(false);

  /** Another job: look afresh. */
  reset(): void {
    this.view = null;
    this.whole = false;
    this.editing = null;
    this.lookAt = null;
  }

  /** The work at its place, and by turns everything. */
  fit(): void {
    this.whole = !this.whole;
    this.fitAsked += 1;
  }
}

export const mapState = new MapState();
