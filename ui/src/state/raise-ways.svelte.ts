import { backend } from '../backend';
import type { RaiseWaysAnswer } from '../backend/model';
import { WatchedWork } from './watched-work.svelte';

/** Which ways the mast goes up. */
class RaiseWaysState extends WatchedWork<RaiseWaysAnswer> {
  /** Whether the bearings and the lying mast are on the map. */
  onMap = $state(false);

  /** All of it hangs on where the mast stands, on what stands round it and on how it turns. */
  get stale(): boolean {
    return this.changed('yard', 'rig', 'placement', 'raising', 'as_built');
  }

  look(): Promise<void> {
    return this.watch((job, told, signal) => backend.watch('raise_ways', { job }, told, signal));
  }
}

export const raiseWays = new RaiseWaysState();
