import type { PointFix, Job, Plan, Units } from '../backend/model';
import { ROUND_FIGURES } from '../backend/round-figures';
import { jobAt, withValue } from './pointer';

/** A place on the map is kept to the centimetre: a finger is not finer. */
const toCentimetre = (metres: number) => Math.round(metres * 100) / 100;

export function pointFix(east: number, north: number): PointFix {
  return { by: 'coordinates', east_m: toCentimetre(east), north_m: toCentimetre(north) };
}

export function withMastAt(job: Job, east: number, north: number): Job {
  return withValue(job, jobAt('/placement/mast'), pointFix(east, north));
}

/** One push of a nudge button. */
export function nudgeStep(units: Units): { value: number; said: string } {
  return ROUND_FIGURES.nudge[units.system];
}

export function nudged(job: Job, plan: Plan, eastSteps: number, northSteps: number): Job {
  const { value: metres } = nudgeStep(job.units);
  const { mast } = job.placement;
  // From the job's own point where it has one: the plan may be a push behind.
  const [east, north] =
    mast.by === 'coordinates' ? [mast.east_m, mast.north_m] : [plan.mast.east_m, plan.mast.north_m];
  const fix: PointFix = {
    by: 'coordinates',
    east_m: toTenthOfMillimetre(east + eastSteps * metres),
    north_m: toTenthOfMillimetre(north + northSteps * metres),
  };
  return withValue(job, jobAt('/placement/mast'), fix);
}

const toTenthOfMillimetre = (metres: number) => Math.round(metres * 10000) / 10000;

/** A bearing in [0, 360), to a tenth of a degree. */
export function wholeTurn(degrees: number): number {
  const tenths = Math.round(degrees * 10) / 10;
  return ((tenths % 360) + 360) % 360;
}

/** Turns the base with everything that is set out from it. */
export function withFront(job: Job, bearing: number): Job {
  return withValue(job, jobAt('/placement/front_bearing_deg'), wholeTurn(bearing));
}

/** Turns the guys only. */
export function withGuyTurn(job: Job, turn: number): Job {
  return withValue(job, jobAt('/placement/guy_turn_deg'), wholeTurn(turn));
}

/** Bearing of a point from another, degrees clockwise from north. */
export function bearingTo(from: readonly [number, number], to: readonly [number, number]): number {
  return (Math.atan2(to[0] - from[0], to[1] - from[1]) * 180) / Math.PI;
}
