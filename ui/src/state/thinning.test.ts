import { expect, it } from 'vitest';
import type { Version } from '../backend/store';
import { letGo } from './thinning';

const MINUTE = 60_000;

/** A version every so often, each time thinned, as a job being worked on. */
function worked(hours: number, everyMinutes: number): Version[] {
  let versions: Version[] = [];
  for (let n = 0; n * everyMinutes <= hours * 60; n += 1) {
    versions = [...versions, { n, at: n * everyMinutes * MINUTE }];
    const gone = letGo(versions);
    versions = versions.filter((version) => !gone.includes(version.n));
  }
  return versions;
}

it('keeps the newest ones and the first, and reaches back with ever wider steps', () => {
  const versions = worked(72, 1);
  const last = versions.at(-1)?.n ?? 0;
  expect(last).toBe(72 * 60);
  expect(versions.slice(-3).map(({ n }) => n)).toEqual([last - 2, last - 1, last]);
  expect(versions[0]?.n).toBe(0);
  expect(versions.length).toBeLessThanOrEqual(60);
  // Of the last hour nothing older than ten minutes is missing, of the last day nothing older than two hours.
  const gaps = versions
    .slice(1)
    .map((version, i) => ({ end: version.at, gap: version.at - (versions[i]?.at ?? 0) }));
  const widest = (within: number) =>
    Math.max(
      ...gaps.filter(({ end }) => last * MINUTE - end < within * MINUTE).map(({ gap }) => gap / MINUTE),
    );
  expect(widest(60)).toBeLessThanOrEqual(10);
  expect(widest(20 * 60)).toBeLessThanOrEqual(120);
});

it('never lets the newest go, and nothing of a few', () => {
  expect(letGo([])).toEqual([]);
  expect(letGo([{ n: 4, at: 0 }])).toEqual([]);
  expect(letGo([1, 2, 3, 4].map((n) => ({ n, at: n })))).toEqual([]);
  expect(letGo([1, 2, 3, 4, 5, 6].map((n) => ({ n, at: n })))).toEqual([2, 3]);
  expect(letGo([1, 2, 3, 4, 5].map((n) => ({ n, at: n * 6 * MINUTE })))).toEqual([]);
});

it('a clock that was set back costs no version out of turn', () => {
  const gone = letGo([
    { n: 1, at: 9_000_000 },
    { n: 2, at: 1_000 },
    { n: 3, at: 2_000 },
  ]);
  expect(gone).toEqual([]);
});
