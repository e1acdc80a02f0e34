import { backend } from '../backend';
import type { WindCapacityAnswer, Job, MastHeight, WindChangesAnswer } from '../backend/model';
import { Followed } from './followed.svelte';
import { keep, kept } from './kept';

/** A job that was left alone for so long is asked about; a drag of the mast waits for nothing. */
const REST_MS = 300;

/** What wind the job's mast can take, as far as it is known, and what of it is looked at. */
class WindState {
  readonly limit = new Followed<Job, WindCapacityAnswer>(
    (job, told, signal) => backend.watch('wind_capacity', { job }, told, signal),
    REST_MS,
  );
  readonly changes = new Followed<Job, WindChangesAnswer>(
    (job, told, signal) => backend.watch('wind_changes', { job }, told, signal),
    REST_MS,
  );
  height = $state<MastHeight>('raised');
  /** Bearing that the wind comes from; null for the worst. */
  fromDeg = $state<number | null>(null);
  /** Whether the rose lies on the map. */
  onMap = $state(kept<boolean>('rose-on-map') ?? false);
  /** The job once it rests: what a table is asked of. */
  job = $state.raw<Job | null>(null);
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** Call it from an effect of whatever shows the limit. */
  follow(job: Job | null): void {
    if (!job) return;
    this.limit.want([...partsOf(job), job.wind], job);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => (this.job = job), REST_MS);
  }

  /** What to change first does not hang on the gust that is asked for. */
  followChanges(job: Job | null): void {
    if (!job) return;
    const air = JSON.stringify({ ...job.wind, asked_gust_m_per_s: 0 });
    this.changes.want([...partsOf(job), air], job);
  }

  showOnMap(on: boolean): void {
    this.onMap = on;
    keep('rose-on-map', on || null);
  }
}

const partsOf = (job: Job) => [job.yard, job.rig, job.placement, job.units];

export const wind = new WindState();
