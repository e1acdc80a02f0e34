import type { AsBuilt, AsBuiltAnchor, AsBuiltLeg, PointFix, Job, Plan, Subject } from '../backend/model';
import { MISSING, type Begun } from './doc';
import { emptyFix } from './fix';
import { jobAt, withValue, type Pointer } from './pointer';
import { withZone } from './survey-log';

/** By this id anchors are measured from the mast itself, where no mark has it. */
export const MAST_MARK = 'mast';

/** What is measured of a thing that stands: a place, a bearing, an anchor, a gap. */
export type Measured = PointFix | number | AsBuiltAnchor | AsBuiltLeg | null;

/** Something that can be measured once it stands. */
export interface Standing {
  /** Its part of the address, such as `guy:upper-1`. */
  key: string;
  kind: 'mast' | 'front' | 'anchor' | 'leg';
  subject: Subject;
  name: string;
  /** Pointer of its measurement in the job, where there is one already. */
  place: Pointer<Measured> | null;
}

/** The job with room for measurements. */
export function prepared(job: Job): Job {
  const empty: AsBuilt = { taken_at: null, mast: null, front_bearing_deg: null, anchors: [], legs: [] };
  return { ...job, as_built: { ...empty, ...job.as_built } };
}

/** What can be measured, in the order of pegging out. */
export function standings(job: Job, plan: Plan): Standing[] {
  const { as_built: built } = prepared(job);
  const at = (list: 'anchors' | 'legs', index: number) =>
    index < 0 ? null : jobAt(`/as_built/${list}/${index}`);
  // An anchor that several guys share is one thing to measure, told of at the first of them.
  const sharing = (id: string) => plan.guys.filter((guy) => guy.id === id || guy.shared_with.includes(id));
  const told = plan.guys.filter((guy) => sharing(guy.id)[0]?.id === guy.id);
  const anchors = told.map((guy): Standing => {
    const guys = sharing(guy.id);
    const isOne = (id: string) => guys.some((one) => one.id === id);
    return {
      key: `guy:${guy.id}`,
      kind: 'anchor',
      subject: { kind: 'guy', id: guy.id },
      name: `Anchor of ${guys.map((one) => one.name).join(' + ')}`,
      place: at('anchors', built?.anchors.findIndex((one) => isOne(one.guy)) ?? -1),
    };
  });
  const legs = plan.base.legs.map((leg): Standing => ({
    key: `leg:${leg.id}`,
    kind: 'leg',
    subject: { kind: 'leg', id: leg.id },
    name: `Gap under the ${leg.id} leg`,
    place: at('legs', built?.legs.findIndex((one) => one.leg === leg.id) ?? -1),
  }));
  const mast: Standing = {
    key: 'mast',
    kind: 'mast',
    subject: { kind: 'mast' },
    name: 'Mast',
    place: built?.mast ? jobAt('/as_built/mast') : null,
  };
  const front: Standing = {
    key: 'front',
    kind: 'front',
    subject: { kind: 'base' },
    name: 'Front leg’s bearing',
    place: built?.front_bearing_deg === null ? null : jobAt('/as_built/front_bearing_deg'),
  };
  return [mast, front, ...anchors, ...legs];
}

/** Where a measurement will stand that is still to be entered. */
export function placeFor(job: Job, { kind }: Standing): Pointer<Measured> {
  const { as_built: built } = prepared(job);
  switch (kind) {
    case 'mast':
      return jobAt('/as_built/mast');
    case 'front':
      return jobAt('/as_built/front_bearing_deg');
    case 'anchor':
      return jobAt(`/as_built/anchors/${built?.anchors.length ?? 0}`);
    case 'leg':
      return jobAt(`/as_built/legs/${built?.legs.length ?? 0}`);
  }
}

/** A measurement with its numbers still to be entered. */
export function freshFor(job: Job, { kind, subject }: Standing): Begun<Measured> {
  const id = 'id' in subject ? subject.id : '';
  switch (kind) {
    case 'mast':
      return emptyFix('two_tapes', job, jobAt('/as_built/mast'));
    case 'front':
      return MISSING;
    case 'anchor':
      return { guy: id, at: emptyFix('bearing_tape', job, jobAt('/as_built/anchors')), eye_height_m: null };
    case 'leg':
      return { leg: id, gap_m: MISSING };
  }
}

/** The job with a measurement put in. */
export function withMeasured(job: Job, place: Pointer<Measured>, value: Measured): Job {
  const measured = withValue(prepared(job), place, value);
  return withValue(measured, jobAt('/as_built/taken_at'), withZone(new Date()));
}

/** The job without one measurement; without the last one nothing is measured any more. */
export function withoutMeasured(job: Job, place: Pointer<Measured>): Job {
  const [, , list, index] = place.split('/');
  const built = prepared(job).as_built as AsBuilt;
  const rest: AsBuilt = {
    ...built,
    ...(list === 'mast' ? { mast: null } : {}),
    ...(list === 'front_bearing_deg' ? { front_bearing_deg: null } : {}),
    ...(list === 'anchors' ? { anchors: built.anchors.filter((_, i) => i !== Number(index)) } : {}),
    ...(list === 'legs' ? { legs: built.legs.filter((_, i) => i !== Number(index)) } : {}),
  };
  const nothing =
    rest.mast === null && rest.front_bearing_deg === null && rest.anchors.length + rest.legs.length === 0;
  return { ...job, as_built: nothing ? null : rest };
}
