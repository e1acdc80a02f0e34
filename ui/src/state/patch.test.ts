import { expect, it } from 'vitest';
import { changesBetween, withChanges } from './patch';

/** mulberry32, a public-domain generator: the same documents on every run. */
function dice(seed: number): () => number {
  return () => {
    seed = (seed + 0x6d2b79f5) | 0;
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function anything(roll: () => number, depth: number): unknown {
  const kind = Math.floor(roll() * (depth > 0 ? 6 : 4));
  if (kind === 0) return null;
  if (kind === 1) return Math.floor(roll() * 3);
  if (kind === 2) return ['', 'a', 'b', '__proto__'][Math.floor(roll() * 4)];
  if (kind === 3) return roll() < 0.5;
  const parts = Array.from({ length: Math.floor(roll() * 4) }, () => anything(roll, depth - 1));
  if (kind === 4) return parts;
  return Object.fromEntries(
    parts.map((part) => [['a', 'b', 'c', 'constructor'][Math.floor(roll() * 4)], part]),
  );
}

it('gives any document back from any other, also after the way through text', () => {
  const roll = dice(20261126);
  for (let round = 0; round < 4000; round += 1) {
    const [before, after] = [anything(roll, 4), anything(roll, 4)];
    const kept = JSON.stringify(before);
    const changes = JSON.parse(JSON.stringify(changesBetween(before, after))) as never[];
    expect(withChanges(before, changes)).toEqual(after);
    expect(JSON.stringify(before)).toBe(kept);
  }
});

it('says no more than what changed', () => {
  const yard = {
    marks: [
      { id: 'A', x: 1 },
      { id: 'B', x: 2 },
    ],
    note: 'long '.repeat(1000),
  };
  expect(changesBetween(yard, { ...yard })).toEqual([]);
  const moved = { ...yard, marks: [yard.marks[0], { id: 'B', x: 3 }] };
  expect(changesBetween(yard, moved)).toEqual([{ at: ['marks', 1, 'x'], is: 3 }]);
  const added = { ...yard, marks: [...yard.marks, { id: 'C', x: 5 }] };
  expect(changesBetween(yard, added)).toEqual([{ at: ['marks', 2], is: { id: 'C', x: 5 } }]);
  expect(changesBetween(added, yard)).toEqual([{ at: ['marks'], length: 2 }]);
});

it('refuses changes of another document', () => {
  expect(() => withChanges({ a: 1 }, [{ at: ['b', 'c'], is: 1 }])).toThrow();
  expect(() => withChanges([1], [{ at: [3], is: 1 }])).toThrow();
  expect(() => withChanges({ a: 1 }, [{ at: ['a'], length: 0 }])).toThrow();
});
