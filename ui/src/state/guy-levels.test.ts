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
  const below = anotherLevel([level('upper', 4)], 'below', 5.4);
  expect(below).toMatchObject({ name: 'Lower guy', attach_height_m: 2, proof_pull_n: null });
  const above = anotherLevel([level('upper', 4)], 'above', 5.4);
  expect(above).toMatchObject({ name: 'Top guy', attach_height_m: 5.4 });
  expect([below?.id, above?.id]).not.toContain('upper');
});

it('where there is no room there is no level', () => {
  expect(anotherLevel([level('upper', 5.4)], 'above', 5.4)).toBeNull();
  expect(anotherLevel([level('upper', 0.4)], 'below', 5.4)).toBeNull();
});
