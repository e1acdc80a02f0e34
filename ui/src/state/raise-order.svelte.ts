import { backend } from '../backend';
import type { RaiseMoveText, RaiseOrderReport } from '../backend/model';
import { FollowedJob } from './followed-job.svelte';
import { jobDoc } from './job-doc';
import { jobAt } from './pointer';

/** The order in which the job's mast goes up. */
class RaiseOrderState extends FollowedJob<RaiseOrderReport> {
  constructor() {
    super(
      async (job) => (await backend.call('raise_order', { job })).report,
      ({ yard, rig, placement, raising, as_built, units }) => [
        yard,
        rig,
        placement,
        raising,
        as_built,
        units,
      ],
    );
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
