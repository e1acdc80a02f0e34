import { expect, it } from 'vitest';
import { carried, rebased, sharing } from './rebase';

interface Slope {
  id: string;
  deg: number;
}
interface Yard {
  name: string;
  notes: string;
  slopes: Slope[];
  tubes: number[];
  tree: { kind: string; height: number; crown?: number };
}

const slope = (id: string, deg: number): Slope => ({ id, deg });
const yard: Yard = {
  name: 'Yard',
  notes: '',
  slopes: [slope('a', 1), slope('b', 2)],
  tubes: [3, 3],
  tree: { kind: 'tree', height: 8, crown: 2 },
};
/** As it comes from another device: nothing of it is shared. */
const foreign = (change: Partial<Yard>): Yard => structuredClone({ ...yard, ...change });
const undone = (earlier: Yard, base: Yard, merged: Yard) => rebased(earlier, base, sharing(base, merged));

it('shares what says the same, and is the old document where nothing is new', () => {
  expect(sharing(yard, foreign({}))).toBe(yard);
  const other = sharing(yard, foreign({ slopes: [slope('new', 5), slope('a', 1), slope('b', 4)] }));
  expect(other.slopes).toEqual([slope('new', 5), slope('a', 1), slope('b', 4)]);
  expect(other.slopes[1]).toBe(yard.slopes[0]);
  expect(other.tree).toBe(yard.tree);
  // A member that went is seen.
  expect(sharing(yard, foreign({ tree: { kind: 'tree', height: 8 } })).tree).not.toBe(yard.tree);
});

it('undo takes back what was done here and nothing that came from elsewhere', () => {
  const base = { ...yard, notes: 'mine', slopes: [...yard.slopes, slope('mine', 9)] };
  const merged = structuredClone({
    ...base,
    name: 'theirs',
    slopes: [slope('a', 1.5), slope('b', 2), slope('theirs', 7), slope('mine', 9)],
  });
  expect(undone(yard, base, merged)).toEqual({
    ...yard,
    name: 'theirs',
    slopes: [slope('a', 1.5), slope('b', 2), slope('theirs', 7)],
  });
});

it('what was taken out here comes back where it stood; what they took out stays out', () => {
  const base = { ...yard, slopes: [slope('b', 2)] };
  const merged = structuredClone({ ...base, slopes: [slope('b', 2), slope('theirs', 7)] });
  expect(undone(yard, base, merged).slopes).toEqual([slope('a', 1), slope('b', 2), slope('theirs', 7)]);
  expect(
    undone(yard, { ...yard, notes: 'mine' }, foreign({ notes: 'mine', slopes: [slope('b', 2)] })).slopes,
  ).toEqual([slope('b', 2)]);
});

it('what they went on with does not go when undo takes back that it was added here', () => {
  const base = { ...yard, slopes: [...yard.slopes, slope('mine', 9)] };
  const merged = structuredClone({ ...base, slopes: [...yard.slopes, slope('mine', 9.5)] });
  expect(undone(yard, base, merged).slopes).toEqual([...yard.slopes, slope('mine', 9.5)]);
});

it('makes no half of one kind and half of another, and mixes no lists without ids', () => {
  const base = { ...yard, tubes: [4, 3], tree: { kind: 'post', height: 8 } };
  const merged = structuredClone({ ...base, tubes: [4, 6], tree: { kind: 'post', height: 9 } });
  expect(undone(yard, base, merged)).toEqual(merged);
});

it('of random changes on both sides none that came is lost, and all that was done here is taken back', () => {
  let seed = 7;
  const drawn = (below: number) => (seed = (seed * 48271) % 2147483647) % below;
  for (let round = 0; round < 300; round += 1) {
    const earlier: Yard = { ...yard, slopes: Array.from({ length: 6 }, (_, i) => slope(`s${i}`, i)) };
    const base = { ...earlier, slopes: [...earlier.slopes] };
    const merged = { ...base, slopes: [...base.slopes] };
    const expected = new Map(earlier.slopes.map((one) => [one.id, one.deg]));
    for (let i = 0; i < 6; i += 1) {
      const [id, who, what] = [`s${i}`, drawn(3), drawn(2)];
      const write = (list: Slope[], deg: number) => {
        const at = list.findIndex((one) => one.id === id);
        if (what === 0) list[at] = slope(id, deg);
        else list.splice(at, 1);
      };
      if (who === 1) [base, merged].forEach(({ slopes }) => write(slopes, 100 + i));
      if (who === 2) {
        write(merged.slopes, 200 + i);
        if (what === 0) expected.set(id, 200 + i);
        else expected.delete(id);
      }
    }
    merged.slopes.push(slope('theirs', 300));
    expected.set('theirs', 300);
    const found = undone(earlier, base, structuredClone(merged)).slopes;
    expect(new Map(found.map((one) => [one.id, one.deg]))).toEqual(expected);
    expect(found).toHaveLength(expected.size);
  }
});

it('carries a pointer to where the same thing lies', () => {
  const after = foreign({ slopes: [slope('new', 5), slope('b', 2)] });
  expect(carried('/slopes/1/deg', yard, after)).toBe('/slopes/1/deg');
  expect(carried('/slopes/1/deg', yard, foreign({ slopes: [slope('b', 2)] }))).toBe('/slopes/0/deg');
  expect(carried('/slopes/0/deg', yard, after)).toBeNull();
  // Behind the last one.
  expect(carried('/slopes/2', yard, foreign({ slopes: [...yard.slopes, slope('c', 3)] }))).toBe('/slopes/3');
  expect(carried('/tubes/1', yard, after)).toBe('/tubes/1');
  expect(carried('/name', yard, after)).toBe('/name');
  expect(carried('', yard, after)).toBe('');
});
