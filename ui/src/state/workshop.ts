import type { Job, Lift, Workshop } from '../backend/model';
import { app } from './app.svelte';

/** A lift of which nothing is said. */
const EMPTY: Lift = {
  pin_mm: null,
  rod_outside_mm: null,
  rod_bore_mm: 0,
  rod_length_m: null,
  winch_height_m: null,
  drum_mm: null,
  crank_mm: null,
  gear: null,
  strap_thickness_mm: null,
  strap_working_n: null,
  hook_working_n: null,
  rubbing: 'unsaid',
};

/** What was made; nothing in a job from before there was such a thing. */
export function workshop(job: Job | null): Workshop {
  const none: Workshop = {
    done: [],
    made: [],
    lift: EMPTY,
    base: { foot_outside_mm: null, stake_slant_deg: null },
    stocks: [],
    saw_cut_mm: null,
    ring: null,
    strand: null,
    topper_hole_mm: null,
    topper: null,
    winch_plate: null,
  };
  return { ...none, ...(job?.workshop as Partial<Workshop> | undefined) };
}

/** What the work in the shop follows from. */
export const worksFrom = ({ yard, rig, placement, as_built, workshop, units }: Job) => [
  yard,
  rig,
  placement,
  as_built,
  workshop,
  units,
];

/** Whether a part is ticked off. */
export function isMade(part: string): boolean {
  return workshop(app.job).done.some((done) => done.part === part);
}

/** Ticks a part off, or takes that back. */
export function tick(part: string, on: boolean): void {
  const { job } = app;
  if (!job) return;
  const before = workshop(job);
  const rest = before.done.filter((done) => done.part !== part);
  app.commit({ ...job, workshop: { ...before, done: on ? [...rest, { part }] : rest } });
}
