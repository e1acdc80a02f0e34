import type { PointFix, Job } from '../backend/model';
import { MISSING, type Begun, type Doc } from './doc';
import { jobAt, within, type Pointer } from './pointer';

export type FixKind = PointFix['by'];

export const FIX_NAMES: Record<FixKind, string> = {
  origin: 'The first mark',
  bearing_tape: 'Bearing + tape',
  two_tapes: 'Two tapes',
  three_tapes: 'Three tapes',
  offset: 'Off a line',
  slope_tape: 'Tape at an angle',
  next_corner: 'Along the wall',
  coordinates: 'On the map',
};

const ALWAYS: readonly FixKind[] = ['bearing_tape', 'two_tapes', 'three_tapes', 'offset', 'slope_tape'];

/** The ways to find the point at this place of the job. */
export function fixKinds(field: string): FixKind[] {
  const corner = /^\/yard\/.*\/(?:outline|line)\/(\d+)$/.exec(field);
  const follows = corner !== null && Number(corner[1]) >= 2;
  return [...(follows ? (['next_corner'] as const) : []), ...ALWAYS, 'coordinates'];
}

/** A fix of a kind with its numbers still to be entered. A point of the yard may wait for its side; the work may not:
 * nothing could be planned without it. */
export function emptyFix(kind: FixKind, job: Job, field: string = jobAt('/yard')): Begun<PointFix> {
  const [first, second, third] = job.yard.marks;
  // Anchors that stand are most easily measured from the mast, which is as good as a mark there.
  const from = { from: field.startsWith(jobAt('/as_built/anchors')) ? 'mast' : (first?.id ?? MISSING) };
  switch (kind) {
    case 'origin':
      return { by: 'origin' };
    case 'coordinates':
      return { by: 'coordinates', east_m: MISSING, north_m: MISSING };
    case 'bearing_tape':
      return { by: kind, ...from, bearing_deg: MISSING, tape_m: MISSING };
    case 'slope_tape':
      return { by: kind, ...from, bearing_deg: MISSING, tape_m: MISSING, vertical_deg: MISSING };
    case 'offset':
      return {
        by: kind,
        ...from,
        toward: second?.id ?? MISSING,
        along_m: MISSING,
        off_m: MISSING,
        side: MISSING,
      };
    case 'next_corner':
      return { by: kind, turn: MISSING, turn_deg: 90, tape_m: MISSING };
    case 'three_tapes':
      return {
        by: kind,
        from_a: first?.id ?? MISSING,
        tape_a_m: MISSING,
        from_b: second?.id ?? MISSING,
        tape_b_m: MISSING,
        from_c: third?.id ?? MISSING,
        tape_c_m: MISSING,
      };
    case 'two_tapes':
      return {
        by: kind,
        from_a: first?.id ?? MISSING,
        tape_a_m: MISSING,
        from_b: second?.id ?? MISSING,
        tape_b_m: MISSING,
        side: field.startsWith(jobAt('/yard')) ? null : MISSING,
      };
  }
}

type NumberOfFix = (PointFix extends infer One ? (One extends unknown ? keyof One : never) : never) &
  `${string}_${'m' | 'deg'}`;

/** A fix in a few words; the numbers are as the engine wrote them. */
export function fixSays(doc: Doc, pointer: Pointer<PointFix>): string {
  const fix = doc.get(pointer);
  const n = (name: NumberOfFix) => doc.shown(within(pointer, `/${name}`)) || '…';
  switch (fix?.by) {
    case 'origin':
      return 'Where everything is measured from';
    case 'coordinates':
      return `${n('east_m')} east, ${n('north_m')} north`;
    case 'bearing_tape':
      return `From ${fix.from}: ${n('bearing_deg')}, ${n('tape_m')}`;
    case 'two_tapes':
      return fix.side
        ? `From ${fix.from_a}: ${n('tape_a_m')}; from ${fix.from_b}: ${n('tape_b_m')}`
        : `Left or right? From ${fix.from_a}: ${n('tape_a_m')}; from ${fix.from_b}: ${n('tape_b_m')}`;
    case 'three_tapes':
      return `From ${fix.from_a}: ${n('tape_a_m')}; ${fix.from_b}: ${n('tape_b_m')}; ${fix.from_c}: ${n('tape_c_m')}`;
    case 'offset':
      return `From ${fix.from} towards ${fix.toward}: ${n('along_m')}, then ${fix.side} ${n('off_m')}`;
    case 'slope_tape':
      return `From ${fix.from}: ${n('bearing_deg')}, ${n('tape_m')} at ${n('vertical_deg')}`;
    case 'next_corner':
      return `Turn ${fix.turn} by ${n('turn_deg')}, then ${n('tape_m')}`;
    default:
      return '';
  }
}

/** What a bearing is read from, for the label of a bearing field. */
export function bearingLabel(job: Job | null): string {
  switch (job?.yard.bearings.kind) {
    case 'magnetic':
      return 'Compass bearing';
    case 'baseline':
      return `Bearing, clockwise from ${job.yard.bearings.from} to ${job.yard.bearings.to}`;
    default:
      return 'Bearing from true north';
  }
}
