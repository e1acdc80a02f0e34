import { expect, it } from 'vitest';
import type { PointFix, Job } from '../backend/model';
import { JOB, jobAt, valueAt, within, withValue, type Pointer } from './pointer';

/** Whether two types are the same; the compiler answers. */
type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
const same = <A, B>(yes: Same<A, B>) => expect(yes).toBe(true);

// `npm run check` is the test: each line below that must not compile fails it as soon as it does.
it('knows what stands at a place of the job', () => {
  const height = jobAt('/rig/guy_levels/0/attach_height_m');
  same<typeof height, Pointer<number>>(true);
  expect(height).toBe('/rig/guy_levels/0/attach_height_m');
  const i: number = 3;
  const tree = jobAt(`/yard/obstacles/${i}/shape/at`);
  same<typeof tree, Pointer<PointFix>>(true);
  expect(within(tree, '/tape_m')).toBe('/yard/obstacles/3/shape/at/tape_m');
  const place = jobAt('/yard/place');
  expect(within(place, '/name')).toBe('/yard/place/name');
  same<ReturnType<typeof valueAt<number>>, number | undefined>(true);
});

it('does not compile where a name is mistyped', () => {
  // @ts-expect-error no such field
  expect(jobAt('/rig/guy_levels/0/atach_height_m')).toBeTruthy();
  // @ts-expect-error no such list
  expect(jobAt('/yard/obstacle')).toBeTruthy();
  // @ts-expect-error a list has numbers, no names
  expect(jobAt('/rig/tubes/first/name')).toBeTruthy();
  // @ts-expect-error nothing lies below a number
  expect(jobAt('/wind/ice_mm/value')).toBeTruthy();
  // @ts-expect-error no slash
  expect(jobAt('wind')).toBeTruthy();
  // @ts-expect-error a fix has no `tape`
  expect(within(jobAt('/placement/mast'), '/tape')).toBeTruthy();
  // @ts-expect-error any text is no pointer
  expect(valueAt({}, '/name')).toBeUndefined();
});

it('does not compile where the value does not suit', () => {
  const job = { name: '', notes: '' } as Job;
  expect(withValue(job, jobAt('/notes'), 'dry').notes).toBe('dry');
  // @ts-expect-error a name is a text
  expect(withValue(job, jobAt('/name'), 7)).toBeTruthy();
  // @ts-expect-error not one of the terrains
  expect(withValue(job, jobAt('/wind/terrain'), 'swamp')).toBeTruthy();
  // @ts-expect-error a fix lacks its mark
  expect(withValue(job, jobAt('/placement/mast'), { by: 'bearing_tape', tape_m: 3 })).toBeTruthy();
  // @ts-expect-error a number is no text
  const text: Pointer<string> = jobAt('/wind/ice_mm');
  expect(text).toBe('/wind/ice_mm');
  expect(valueAt(job, JOB)).toBe(job);
});
