import { describe, expect, it } from 'vitest';
import {
  given,
  rootOf,
  valueAt,
  withAppended,
  within,
  withoutItem,
  withValue,
  afterRemoval,
  changedAt,
  tokens,
} from './pointer';

const yard = {
  marks: [
    { id: 'A', at: { east_m: 1 } },
    { id: 'B', at: { east_m: 2 } },
  ],
  note: 'x',
};
const root = rootOf<typeof yard>();
const numbers = within(rootOf<{ list: number[] }>(), '/list');

describe('pointers', () => {
  it('unescapes as RFC 6901 section 4 and 5 show', () => {
    // The document and the pointers of RFC 6901 section 5.
    const rfc = { foo: ['bar', 'baz'], '': 0, 'a/b': 1, 'm~n': 8 };
    expect(valueAt(rfc, given(''))).toBe(rfc);
    expect(valueAt(rfc, given('/foo/0'))).toBe('bar');
    expect(valueAt(rfc, given('/'))).toBe(0);
    expect(valueAt(rfc, given('/a~1b'))).toBe(1);
    expect(valueAt(rfc, given('/m~0n'))).toBe(8);
    expect(tokens('/~01')).toEqual(['~1']);
  });

  it('changes one place and shares the rest', () => {
    const next = withValue(yard, within(root, '/marks/1/at/east_m'), 7);
    expect(next.marks[1]?.at.east_m).toBe(7);
    expect(yard.marks[1]?.at.east_m).toBe(2);
    expect(next.marks[0]).toBe(yard.marks[0]);
  });

  it('appends to a list, also to one that is not there yet', () => {
    expect(withAppended({ list: [1] }, numbers, 2)).toEqual({ list: [1, 2] });
    expect(withAppended({ list: null }, numbers, 2)).toEqual({ list: [2] });
  });

  it('adds an item where the index is one past the end', () => {
    expect(withValue({ list: [1] }, within(numbers, '/1'), 2)).toEqual({ list: [1, 2] });
  });

  it('removes an item', () => {
    expect(withoutItem(yard, within(root, '/marks'), 0).marks.map((m) => m.id)).toEqual(['B']);
  });

  it('hands the old value to a change', () => {
    expect(changedAt({ n: 2 }, within(rootOf<{ n: number }>(), '/n'), (n) => n * 2)).toEqual({ n: 4 });
  });

  it('follows pointers when an earlier item goes', () => {
    expect(afterRemoval('/marks/2/at/tape_m', '/marks', 1)).toBe('/marks/1/at/tape_m');
    expect(afterRemoval('/marks/0/name', '/marks', 1)).toBe('/marks/0/name');
    expect(afterRemoval('/marks/1/name', '/marks', 1)).toBeNull();
    expect(afterRemoval('/slopes/3', '/marks', 1)).toBe('/slopes/3');
  });
});
