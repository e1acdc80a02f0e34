import { expect, test } from 'vitest';
import { sectorsOf } from './raise-sectors';

test('runs become sectors, and one goes on over north', () => {
  const run = (from_deg: number, to_deg: number, refused_by: number | null) => ({
    from_deg,
    to_deg,
    refused_by,
  });
  // Two reasons in a row are one closed sector.
  expect(sectorsOf([run(0, 10, null), run(11, 20, 0), run(21, 30, 1), run(31, 359, null)])).toEqual([
    { from: 10.5, to: 30.5, clear: false },
    { from: 30.5, to: 370.5, clear: true },
  ]);
  expect(sectorsOf([run(0, 359, null)])).toEqual([{ from: -0.5, to: 359.5, clear: true }]);
  expect(sectorsOf([])).toEqual([]);
});
