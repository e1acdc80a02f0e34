import { backend } from '../backend';
import type { StandpointPlace } from '../backend/model';
import { app } from './app.svelte';
import { FollowedJob } from './followed-job.svelte';

/** Left alone for so long, the job is asked about again: longer than elsewhere, for the map is dragged. */
const REST_MS = 120;

/** Where the job's standpoints are on the map. */
class StandpointsState extends FollowedJob<StandpointPlace[]> {
  constructor() {
    super(
      async (job) => (await backend.call('standpoints', { job: { ...job, photos: [] } })).places,
      ({ yard, rig, placement, standpoints }) => [yard, rig, placement, standpoints],
      REST_MS,
    );
  }

  /** None while the job is another than was asked about: their numbers are those of its list. */
  get places(): StandpointPlace[] {
    if (!app.job || app.job.standpoints.length === 0 || this.stale) return [];
    return this.answer ?? [];
  }

  /** Nothing is asked before the whole engine is there: the map comes first. */
  override follow(): void {
    if (app.engineThere && app.job && app.job.standpoints.length > 0) super.follow();
  }
}

export const standpoints = new StandpointsState();
