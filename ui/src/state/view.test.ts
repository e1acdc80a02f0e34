import { expect, it } from 'vitest';
import { clearOfTop, fitted, panned, toGround, toScreen, zoomed } from './view';

const view = fitted({ min: [-10, -5], max: [10, 15] }, 400, 300, 0);

it('shows the whole of the bounds, north up', () => {
  expect(view.scale).toBe(15); // 300 px over 20 m
  expect(toScreen(view, [0, 15])).toEqual([200, 0]);
  expect(toScreen(view, [0, -5])).toEqual([200, 300]);
});

it('goes from ground to screen and back', () => {
  const [east, north] = toGround(view, toScreen(view, [3.2, -1.7]));
  expect(east).toBeCloseTo(3.2, 12);
  expect(north).toBeCloseTo(-1.7, 12);
});

it('keeps the ground under the fingers while zooming', () => {
  const finger = [90, 210] as const;
  const before = toGround(view, finger);
  const after = toGround(zoomed(view, 2.5, finger), finger);
  expect(after[0]).toBeCloseTo(before[0], 12);
  expect(after[1]).toBeCloseTo(before[1], 12);
});

it('moves the ground with the finger', () => {
  const [x, y] = toScreen(panned(view, 30, -12), [1, 1]);
  const [x0, y0] = toScreen(view, [1, 1]);
  expect([x - x0, y - y0].map(Math.round)).toEqual([30, -12]);
});

it('moves what was fitted clear of the buttons over its top, as far as there is room below', () => {
  const bounds: { min: [number, number]; max: [number, number] } = { min: [0, 0], max: [10, 10] };
  const whole = fitted(bounds, 360, 430, 30);
  const top = (view: typeof whole) => toScreen(view, bounds.max)[1];
  const bottom = (view: typeof whole) => 430 - toScreen(view, bounds.min)[1];
  expect(top(whole)).toBeCloseTo(65);
  expect(top(clearOfTop(whole, bounds, 100))).toBeCloseTo(100);
  expect(bottom(clearOfTop(whole, bounds, 200))).toBeCloseTo(12);
  expect(clearOfTop(whole, bounds, 20)).toEqual(whole);
});
