import { expect, it } from 'vitest';
import { NO_FATE, sameFate, takenBack, withDeletion } from './fate';

const deletion = (at_ms: number, seen = [{ at_ms: 5, device: 'phone' }]) => ({
  by: { at_ms, device: 'laptop' },
  device_name: 'Laptop',
  seen,
});

it('takes back every deletion that is known of, each once', () => {
  const twice = withDeletion(withDeletion(NO_FATE, deletion(1)), deletion(2));
  const back = takenBack(twice);
  expect(back.kept.map(({ at_ms }) => at_ms)).toEqual([1, 2]);
  expect(takenBack(back)).toBe(back);
  expect(takenBack(withDeletion(back, deletion(3))).kept.map(({ at_ms }) => at_ms)).toEqual([1, 2, 3]);
});

it('knows two states of it as the same in any order, and apart by what was seen', () => {
  const one = withDeletion(withDeletion(NO_FATE, deletion(1)), deletion(2));
  const other = withDeletion(withDeletion(NO_FATE, deletion(2)), deletion(1));
  expect(sameFate(one, other)).toBe(true);
  expect(sameFate(one, takenBack(one))).toBe(false);
  expect(sameFate(withDeletion(NO_FATE, deletion(1)), withDeletion(NO_FATE, deletion(1, [])))).toBe(false);
});
