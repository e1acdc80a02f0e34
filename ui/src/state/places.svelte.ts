import { backend } from '../backend';
import type { Rig, SitingAnswer, SitingMerit, SitingPlaceText, SitingWishes } from '../backend/model';
import { app } from './app.svelte';
import { jobAt, withValue } from './pointer';
import { WatchedWork } from './watched-work.svelte';

/** What a place is marked for, with how much it counts where nobody has said (`SitingWeights`). */
export const MERITS: readonly { merit: SitingMerit; name: string; usual: number }[] = [
  { merit: 'clearance', name: 'Room to the nearest thing', usual: 2 },
  { merit: 'low_foot', name: 'A low foot', usual: 1 },
  { merit: 'guy_angles', name: 'Guys near 45°', usual: 1 },
  { merit: 'fall', name: 'Nothing within its fall', usual: 1 },
  { merit: 'ties', name: 'Two tapes that cross well', usual: 1 },
  { merit: 'wind', name: 'A high gust limit', usual: 2 },
  { merit: 'view', name: 'Lights seen from your standpoints', usual: 1 },
  { merit: 'walking', name: 'A short walk when pegging out', usual: 0.5 },
];

const usualWeights = () =>
  Object.fromEntries(MERITS.map(({ merit, usual }) => [merit, usual])) as Record<SitingMerit, number>;

/** Where the mast can stand. */
class PlacesState extends WatchedWork<SitingAnswer> {
  /** Only places from which the falling mast reaches nothing. */
  clearOfFall = $state(false);
  /** Whether the base is turned as well, or only the guys. */
  turnBase = $state(false);
  /** How much each mark counts. */
  weights = $state(usualWeights());
  /** Whether what was found lies on the map. */
  onMap = $state(false);

  /** Another place of the mast changes nothing of it. */
  get stale(): boolean {
    return this.changed('yard', 'rig');
  }

  look(): Promise<void> {
    const wishes = {
      clear_of_fall: this.clearOfFall,
      weights: $state.snapshot(this.weights),
      ...(this.turnBase ? { base_turns: 4 } : {}),
    };
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
