import { backend } from '../backend';
import type { Job, WorkPage, WorkshopAnswer } from '../backend/model';
import { app } from './app.svelte';
import { Followed } from './followed.svelte';

/** Left alone for so long, the job is asked about again. */
const REST_MS = 60;

/** What is made in the workshop, as the job stands. */
class WorkshopState {
  readonly #followed = new Followed<Job, WorkshopAnswer>(
    (job) => backend.call('workshop', { job: { ...job, log: [] } }),
    REST_MS,
  );
  #of: string | null = null;

  get answer(): WorkshopAnswer | null {
    return this.#followed.answer;
  }

  get problem(): string {
    return this.#followed.problem;
  }

  /** Call it from an effect. */
  follow(): void {
    const { job, id } = app;
    if (!job) return;
    if (this.#of !== id) this.#followed.clear();
    this.#of = id;
    const { yard, rig, placement, as_built, workshop, units } = job;
    this.#followed.want([yard, rig, placement, as_built, workshop, units], job);
  }

  page(of: 'fit' | 'stages' | 'lift'): WorkPage | undefined {
    return this.answer?.report[of];
  }
}

export const workshopState = new WorkshopState();
