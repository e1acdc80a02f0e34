import { backend } from '../backend';
import type { Job, RaiseMoveText, RaiseOrderReport } from '../backend/model';
import { app } from './app.svelte';
import { Followed } from './followed.svelte';
import { jobDoc } from './job-doc';
import { jobAt } from './pointer';

/** Left alone for so long, the job is asked about again. */
const REST_MS = 60;

/** The order in which the job's mast goes up. */
class RaiseOrderState {
  readonly #followed = new Followed<Job, RaiseOrderReport>(
    async (job) => (await backend.call('raise_order', { job: { ...job, log: [] } })).report,
    REST_MS,
  );
  #of: string | null = null;

  get report(): RaiseOrderReport | null {
    return this.#followed.answer;
  }

  get stale(): boolean {
    return this.#followed.stale;
  }

  /** Call it from an effect. */
  follow(): void {
    const { job, id } = app;
    if (!job) return;
    if (this.#of !== id) this.#followed.clear();
    this.#of = id;
    const { yard, rig, placement, raising, as_built, units } = job;
    this.#followed.want([yard, rig, placement, raising, as_built, units], job);
  }

  /** Takes an order that the engine allows; says why where it does not. */
  take(to: RaiseMoveText): string {
    if (to.refused === '') jobDoc.set(jobAt('/raising/order'), to.order);
    return to.refused;
  }

  /** Back to the order that the plan gives. */
  asUsual(): void {
    jobDoc.set(jobAt('/raising/order'), []);
  }
}

export const raiseOrder = new RaiseOrderState();
