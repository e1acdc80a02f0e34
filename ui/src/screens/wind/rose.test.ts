import { expect, it } from 'vitest';
import { fromOf, nearest, pointed } from './rose';

it.each([
  [[10, 20], [10, 25], 0],
  [[10, 20], [15, 20], 90],
  [[10, 20], [10, 12], 180],
  [[10, 20], [9.9, 27], 0],
  [[0, 0], [-3, 3.1], 315],
] as const)('a tap from %s at %s is wind from %s°', (middle, at, from) => {
  expect(fromOf(middle, at)).toBe(from);
});

it('points where the wind comes from', () => {
  const [east, north] = pointed([1, 2], 90, 3);
  expect(east).toBeCloseTo(4);
  expect(north).toBeCloseTo(2);
});

it('finds the direction across north', () => {
  const directions = [0, 5, 355].map((from_deg) => ({ from_deg, gust_m_per_s: 1, weakest: null }));
  expect([nearest(directions, 357), nearest(directions, 358), nearest(directions, 90)]).toEqual([2, 0, -1]);
});
