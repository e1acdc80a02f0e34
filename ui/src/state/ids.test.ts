import { expect, it } from 'vitest';
import { freeId, freeLetter } from './ids';

it('never gives an id twice', () => {
  expect(freeId([], 'tree')).toBe('tree-1');
  expect(freeId([{ id: 'tree-2' }], 'tree')).toBe('tree-3');
  expect(freeLetter([{ id: 'A' }, { id: 'C' }])).toBe('B');
});
