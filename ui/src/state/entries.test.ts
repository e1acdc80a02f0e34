import { expect, it } from 'vitest';
import { checkSum, entryOf, leadingOn, lineOf, type Entry } from './entries';

const entry = (n: number, by = 'a', since = 0): Entry => ({
  n,
  by,
  since,
  at: 1_000 + n,
  changes: [{ at: ['name'], is: `Obstgarten ${n} ½″` }],
});
const numbers = (entries: readonly Entry[]) => entries.map(({ n, by }) => `${by}${n}`);

it('sums as the standard says', () => {
  // The check value of CRC-32/ISO-HDLC for the digits 1 to 9; the rest by Python's zlib.crc32.
  expect(checkSum('123456789')).toBe('cbf43926');
  expect(checkSum('')).toBe('00000000');
  expect(checkSum('a')).toBe('e8b7be43');
  expect(checkSum('½″ Brücke 桥')).toBe('92db30dc');
  expect(checkSum('x'.repeat(5000))).toBe('00dbf026');
});

it('reads its own lines, and none that is torn or touched', () => {
  const line = lineOf(entry(7));
  expect(entryOf(line)).toEqual(entry(7));
  for (let length = 0; length < line.length; length += 1) expect(entryOf(line.slice(0, length))).toBeNull();
  expect(entryOf(line.replace('Obst', 'Most'))).toBeNull();
  expect(entryOf(line.replace(/^7/, '8'))).toBeNull();
  expect(entryOf('nonsense')).toBeNull();
});

it('goes on without a gap', () => {
  expect(numbers(leadingOn(3, [entry(5), entry(4), entry(7), entry(2)]))).toEqual(['a4', 'a5']);
  expect(leadingOn(9, [entry(8)])).toEqual([]);
});

it('never puts an edit on top of one that its sitting did not see', () => {
  // Two sittings opened the job after edit 10. The store confirmed b's eleventh; a's were still on their way.
  const [b11, a11, a12] = [entry(11, 'b', 10), entry(11, 'a', 10), entry(12, 'a', 10)];
  expect(numbers(leadingOn(10, [b11, a11, a12]))).toEqual(['b11']);
  expect(numbers(leadingOn(10, [a11, a12, b11]))).toEqual(['a11', 'a12']);
  expect(numbers(leadingOn(11, [b11, a12]))).toEqual([]);
  expect(numbers(leadingOn(11, [b11, entry(12, 'c', 11)]))).toEqual(['c12']);
});
