import { backend } from '../backend';
import type { Rig, SitingAnswer, SitingPlaceText, SitingWishes } from '../backend/model';
import { app } from './app.svelte';
import { jobAt, withValue } from './pointer';
import { WatchedWork } from './watched-work.svelte';

/** Where the mast can stand. */
class PlacesState extends WatchedWork<SitingAnswer> {
  /** Only places from which the falling mast reaches nothing. */
  clearOfFall = $state(false);
  /** Whether the base is turned as well, or only the guys. */
  turnBase = $state(false);
  /** Whether what was found lies on the map. */
  onMap = $state(false);

  /** Another place of the mast changes nothing of it. */
  get stale(): boolean {
    return this.changed('yard', 'rig');
  }

  look(): Promise<void> {
    const wishes = { clear_of_fall: this.clearOfFall, ...(this.turnBase ? { base_turns: 4 } : {}) };
    return this.watch((job, told, signal) =>
      backend.watch('siting', { job, wishes: wishes as SitingWishes }, told, signal),
    );
  }

  /** Puts the mast with its turns where a place has it, with the parts as they have to be there. */
  take(place: SitingPlaceText, rig?: Rig): void {
    if (!app.job) return;
    const placed = withValue(app.job, jobAt('/placement'), place.placement);
    app.commit(rig ? withValue(placed, jobAt('/rig'), rig) : placed);
  }
}

export const places = new PlacesState();
