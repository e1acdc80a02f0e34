import type { Fix, Job } from '../backend/model';
import { MISSING, type Doc } from './doc';

export type FixKind = Fix['by'];

export const FIX_NAMES: Record<FixKind, string> = {
  origin: 'The first mark',
  bearing_tape: 'Bearing + tape',
  two_tapes: 'Two tapes',
  coordinates: 'On the map',
};

/** A fix of a kind with its numbers still to be entered. */
export function emptyFix(kind: FixKind, job: Job): unknown {
  const [first, second] = job.yard.marks;
  switch (kind) {
    case 'origin':
      return { by: 'origin' };
    case 'coordinates':
      return { by: 'coordinates', east_m: MISSING, north_m: MISSING };
    case 'bearing_tape':
      return { by: kind, from: first?.id ?? MISSING, bearing_deg: MISSING, tape_m: MISSING };
    case 'two_tapes':
      return {
        by: kind,
        from_a: first?.id ?? MISSING,
        tape_a_m: MISSING,
        from_b: second?.id ?? MISSING,
        tape_b_m: MISSING,
        side: MISSING,
      };
  }
}

/** A fix in a few words; the numbers are as the engine wrote them. */
export function fixSays(doc: Doc, pointer: string): string {
  const fix = doc.get(pointer) as Fix | undefined;
  const n = (name: string) => doc.shown(`${pointer}/${name}`) || '…';
  switch (fix?.by) {
    case 'origin':
      return 'Where everything is measured from';
    case 'coordinates':
      return `${n('east_m')} east, ${n('north_m')} north`;
    case 'bearing_tape':
      return `From ${fix.from}: ${n('bearing_deg')}, ${n('tape_m')}`;
    case 'two_tapes':
      return `From ${fix.from_a}: ${n('tape_a_m')}; from ${fix.from_b}: ${n('tape_b_m')}`;
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
