import { expect, it } from 'vitest';
import type { Job, Plan } from '../backend/model';
import { placeFor, standings, withMeasured, withoutMeasured } from './as-built';
import { jobAt } from './pointer';

const job = { yard: { marks: [{ id: 'A' }, { id: 'B' }] }, as_built: null, log: [] } as unknown as Job;
const plan = {
  guys: [
    { id: 'upper-1', name: 'Upper guy 1', shared_with: [] },
    { id: 'upper-2', name: 'Upper guy 2', shared_with: [] },
  ],
  base: { legs: [{ id: 'front' }] },
} as unknown as Plan;

const named = (of: Job, key: string) => {
  const found = standings(of, plan).find((one) => one.key === key);
  if (!found) throw new Error(`no ${key}`);
  return found;
};

it('lists what can be measured in the order of pegging out', () => {
  expect(standings(job, plan).map((one) => one.key)).toEqual([
    'mast',
    'front',
    'guy:upper-1',
    'guy:upper-2',
    'leg:front',
  ]);
  expect(standings(job, plan).every((one) => one.place === null)).toBe(true);
});

it('puts measurements in one by one and takes them out again', () => {
  const second = named(job, 'guy:upper-2');
  expect(placeFor(job, second)).toBe('/as_built/anchors/0');
  const at = { by: 'coordinates', east_m: 1, north_m: 2 } as const;
  const one = withMeasured(job, placeFor(job, second), { guy: 'upper-2', at, eye_height_m: null });
  expect(named(one, 'guy:upper-2').place).toBe('/as_built/anchors/0');
  const two = withMeasured(one, placeFor(one, named(one, 'mast')), at);
  expect(two.as_built?.mast).toEqual(at);
  expect(two.as_built?.taken_at).toMatch(/T.*[+-]\d\d:\d\d$/);
  const less = withoutMeasured(two, jobAt('/as_built/anchors/0'));
  expect(less.as_built?.anchors).toEqual([]);
  expect(withoutMeasured(less, jobAt('/as_built/mast')).as_built).toBeNull();
});

it('lists an anchor that two guys share once, and finds its measurement at either', () => {
  const guys = [
    { id: 'lower-1', name: 'Lower guy 1', shared_with: ['upper-1'] },
    { id: 'upper-1', name: 'Upper guy 1', shared_with: ['lower-1'] },
  ];
  const shared = { ...plan, guys } as unknown as Plan;
  const measured = withMeasured(job, jobAt('/as_built/anchors/0'), {
    guy: 'upper-1',
    at: null,
    eye_height_m: 0.1,
  });
  const anchors = standings(measured, shared).filter((one) => one.kind === 'anchor');
  expect(anchors.map((one) => [one.name, one.place])).toEqual([
    ['Anchor of Lower guy 1 + Upper guy 1', '/as_built/anchors/0'],
  ]);
});
