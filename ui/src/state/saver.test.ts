import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Saver } from './saver';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

it('saves the last text within 400 ms', async () => {
  const kept: string[] = [];
  const saver = new Saver(
    async (text) => void kept.push(text),
    () => undefined,
    () => undefined,
  );
  saver.keep('a');
  await vi.advanceTimersByTimeAsync(200);
  saver.keep('b');
  await vi.advanceTimersByTimeAsync(200);
  expect(kept).toEqual(['b']);
});

it('keeps a text that could not be saved for the next try', async () => {
  const kept: string[] = [];
  const errors: unknown[] = [];
  let full = true;
  const saver = new Saver(
    async (text) => {
      if (full) throw new Error('full');
      kept.push(text);
    },
    (error) => errors.push(error),
    () => undefined,
  );
  saver.keep('a');
  await saver.flush();
  expect(errors).toHaveLength(1);
  full = false;
  await saver.flush();
  expect(kept).toEqual(['a']);
});
