import { backend } from '../backend';
import type { RaiseWaysAnswer } from '../backend/model';
import { app } from './app.svelte';
import { WatchedWork } from './watched-work.svelte';

/** Which ways the mast goes up. */
class RaiseWaysState extends WatchedWork<RaiseWaysAnswer> {
  /** Whether the bearings and the lying mast are on the map. */
  onMap = $state(false);

  /** All of it hangs on where the mast stands, on what stands round it and on how it turns. */
  get stale(): boolean {
    const { of } = this;
    const { job } = app;
    if (of === null || job === null) return false;
    const parts = ['yard', 'rig', 'placement', 'raising', 'as_built'] as const;
    return parts.some((part) => of[part] !== job[part]);
  }

  look(): Promise<void> {
    return this.watch((job, told, signal) => backend.watch('raise_ways', { job }, told, signal));
  }
}

export const raiseWays = new RaiseWaysState();
