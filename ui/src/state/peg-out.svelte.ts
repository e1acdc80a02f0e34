import { backend } from '../backend';
import type { Job, PegDone, Pegging, PegOutAnswer, PegStepText } from '../backend/model';
import { app } from './app.svelte';
import { FollowedJob } from './followed-job.svelte';

/** The way from peg to peg, as the job stands. */
class PegOutState extends FollowedJob<PegOutAnswer> {
  constructor() {
    super(
      (job) => backend.call('peg_out', { job }),
      ({ yard, rig, placement, raising, as_built, pegging, units }) => [
        yard,
        rig,
        placement,
        raising,
        as_built,
        pegging,
        units,
      ],
    );
  }

  get steps(): PegStepText[] {
    return this.answer?.report.steps ?? [];
  }

  /** Whether a peg is set, as the job says now. */
  isSet(key: string): boolean {
    return pegging(app.job).done.some((done) => done.peg === key);
  }

  /** The first peg that is not set yet. */
  get next(): PegStepText | undefined {
    return this.steps.find((step) => !this.isSet(step.key));
  }

  /** Ticks a peg off, or takes that back. */
  tick(key: string, on: boolean): void {
    const { job } = app;
    if (!job) return;
    const before = pegging(job);
    const rest = before.done.filter((done) => done.peg !== key);
    const done: PegDone[] = on ? [...rest, { peg: key }] : rest;
    app.commit({ ...job, pegging: { ...before, done } });
  }
}

/** What was done and read; nothing in a job from before there was such a thing. */
export function pegging(job: Job | null): Pegging {
  return (job?.pegging as Pegging | undefined) ?? { done: [], tapes: [] };
}

/** Where what stands of a peg is measured; null where there is no such page. */
export function asBuiltPage(key: string): string | null {
  if (key === 'mast' || key.startsWith('guy:')) return `build/as-built/${key}`;
  return key === 'leg:front' ? 'build/as-built/front' : null;
}

export const pegOut = new PegOutState();
