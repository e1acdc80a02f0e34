import { expect, it } from 'vitest';
import { pathData } from './path';

it('writes lines open and areas closed', () => {
  const points: [number, number][] = [
    [0, 0],
    [1.23456, 2],
  ];
  expect(pathData({ kind: 'line', points })).toBe('M0 0L1.235 2');
  expect(pathData({ kind: 'area', points })).toBe('M0 0L1.235 2Z');
});

it('lays an ellipse along its bearing', () => {
  // Bearing 0: the major axis lies north and south, so the path starts due north of the centre.
  const data = pathData({
    kind: 'ellipse',
    centre: [1, 1],
    semi_major_m: 2,
    semi_minor_m: 1,
    bearing_deg: 0,
  });
  expect(data).toBe('M1 3A2 1 90 1 0 1 -1A2 1 90 1 0 1 3Z');
});

it('leaves signs and words to the overlay', () => {
  expect(pathData({ kind: 'sign', at: [0, 0], turn_deg: 0 })).toBe('');
});
