import { expect, it } from 'vitest';
import type { Scene, SceneShape, Subject } from '../../backend/model';
import { subjectAt } from './hit';

// Ten pixels a metre, the origin in the middle of 200 × 200 pixels.
const view = { east: 0, north: 0, scale: 10, width: 200, height: 200 };
const pavilion: Subject = { kind: 'obstacle', id: 'pavilion' };
const guy: Subject = { kind: 'guy', id: 'upper-1' };
const mark: Subject = { kind: 'mark', id: 'A' };

function scene(...shapes: SceneShape[]): Scene {
  return { title: '', description: '', bounds: { min: [-10, -10], max: [10, 10] }, static_count: 0, shapes };
}

const house: SceneShape = {
  role: 'building_area',
  subject: pavilion,
  geometry: {
    kind: 'area',
    points: [
      [0, 0],
      [6, 0],
      [6, 6],
      [0, 6],
    ],
  },
};
const rope: SceneShape = {
  role: 'guy',
  subject: guy,
  geometry: {
    kind: 'line',
    points: [
      [-8, 2],
      [8, 2],
    ],
  },
};
const nail: SceneShape = {
  role: 'mark',
  subject: mark,
  geometry: { kind: 'sign', at: [2, 2.8], turn_deg: 0 },
};

it('finds the area under the finger', () => {
  expect(subjectAt(scene(house), view, [130, 60])).toEqual(pavilion);
});

it('takes a line before the area it crosses, and a point before the line', () => {
  expect(subjectAt(scene(house, rope), view, [140, 75])).toEqual(guy);
  expect(subjectAt(scene(house, rope, nail), view, [122, 74])).toEqual(mark);
});

it('finds nothing far from everything', () => {
  expect(subjectAt(scene(house, rope), view, [20, 190])).toBeNull();
});

it('takes whatever stands there before the ground', () => {
  const contour: SceneShape = { ...rope, role: 'contour', subject: { kind: 'ground' } };
  expect(subjectAt(scene(house, contour), view, [140, 76])).toEqual(pavilion);
  expect(subjectAt(scene(house, contour), view, [40, 78])).toEqual({ kind: 'ground' });
});
