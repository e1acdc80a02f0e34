import { backend } from '../backend';
import type { Job, StandpointPlace } from '../backend/model';
import { app } from './app.svelte';
import { Followed } from './followed.svelte';

/** Left alone for so long, the job is asked about again. */
const REST_MS = 120;

/** Where the job's standpoints are on the map. */
class StandpointsState {
  readonly #followed = new Followed<Job, StandpointPlace[]>(
    async (job) => (await backend.call('standpoints', { job: { ...job, log: [], photos: [] } })).places,
    REST_MS,
  );
  #of: string | null = null;

  /** None while the job is another than was asked about: their numbers are those of its list. */
  get places(): StandpointPlace[] {
    const { job } = app;
    if (!job || job.standpoints.length === 0 || this.#followed.stale) return [];
    return this.#followed.answer ?? [];
  }

  /** Call it from an effect. Nothing is asked before the whole engine is there: the map comes first. */
  follow(): void {
    const { job, id, engineThere } = app;
    if (!job || !engineThere || job.standpoints.length === 0) return;
    if (this.#of !== id) this.#followed.clear();
    this.#of = id;
    this.#followed.want([job.yard, job.rig, job.placement, job.standpoints], job);
  }
}

export const standpoints = new StandpointsState();
