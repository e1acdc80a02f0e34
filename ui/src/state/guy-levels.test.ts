import { expect, it } from 'vitest';
import type { GuyLevel } from '../backend/model';
import { anotherLevel, topDown } from './guy-levels';

const level = (id: string, attach_height_m: number, name = 'Upper guy') =>
  ({ id, name, attach_height_m, anchor_eye_height_m: 0.05, proof_pull_n: 900 }) as GuyLevel;

it('levels are shown as they sit on the mast, whatever the order of entry', () => {
  const low = level('a', 2);
  const high = level('b', 4);
  for (const list of [
    [low, high],
    [high, low],
  ]) {
    expect(topDown(list).map((one) => one.level.id)).toEqual(['b', 'a']);
    expect(topDown(list).map((one) => list[one.index])).toEqual([high, low]);
  }
});

it('another level goes below or above, with a name and an id of its own', () => {
  const below = anotherLevel([level('upper', 4)], 'below', 5.4, 'metric');
  expect(below).toMatchObject({ name: 'Lower guy', attach_height_m: 2, proof_pull_n: null });
  const above = anotherLevel([level('upper', 4)], 'above', 5.4, 'metric');
  expect(above).toMatchObject({ name: 'Top guy', attach_height_m: 5.4 });
  expect([below?.id, above?.id]).not.toContain('upper');
});

it('where there is no room there is no level', () => {
  expect(anotherLevel([level('upper', 5.4)], 'above', 5.4, 'metric')).toBeNull();
  expect(anotherLevel([level('upper', 0.4)], 'below', 5.4, 'metric')).toBeNull();
});

it('another level begins at a length that is round on the user’s own tape', () => {
  // Half of 13' is 6' 6", 1.9812 m by hand; the top of 18' 0 1/4" is rounded down to 18', 5.4864 m.
  const foot = 0.3048;
  const only = [level('upper', 13 * foot)];
  expect(anotherLevel(only, 'below', 18 * foot, 'imperial')?.attach_height_m).toBeCloseTo(6.5 * foot, 6);
  expect(anotherLevel(only, 'above', 18 * foot + 0.00635, 'imperial')?.attach_height_m).toBeCloseTo(
    18 * foot,
    6,
  );
  expect(anotherLevel(only, 'below', 18 * foot, 'metric')?.attach_height_m).toBe(1.98);
});
