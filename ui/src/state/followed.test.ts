import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Followed, type Told } from './followed.svelte';

interface Call {
  question: string;
  told: (progress: Told<string>) => void;
  signal: AbortSignal;
  answer: (text: string) => void;
}

function followed() {
  const calls: Call[] = [];
  const it = new Followed<string, string>(
    (question, told, signal) =>
      new Promise((answer) => {
        calls.push({ question, told, signal, answer });
      }),
    100,
  );
  return { it, calls };
}

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

it('asks once the job rests, and stops when it changes', async () => {
  const { it: limit, calls } = followed();
  limit.want(['a'], 'a');
  limit.want(['b'], 'b');
  await vi.advanceTimersByTimeAsync(100);
  expect(calls.map((call) => call.question)).toEqual(['b']);
  limit.want(['c'], 'c');
  expect(calls[0]?.signal.aborted).toBe(true);
  // What the stopped one still says is not heard.
  calls[0]?.told({ done: 1, of: 2, partial: 'old' });
  expect(limit.partial).toBeNull();
});

it('keeps the last whole answer until the next one stands', async () => {
  const { it: limit, calls } = followed();
  limit.want(['a'], 'a');
  await vi.advanceTimersByTimeAsync(100);
  calls[0]?.answer('A');
  await vi.advanceTimersByTimeAsync(0);
  expect([limit.answer, limit.stale]).toEqual(['A', false]);
  limit.want(['b'], 'b');
  expect([limit.answer, limit.stale]).toEqual(['A', true]);
  await vi.advanceTimersByTimeAsync(100);
  calls[1]?.told({ done: 1, of: 2, partial: 'B…' });
  expect([limit.answer, limit.partial]).toEqual(['A', 'B…']);
  calls[1]?.answer('B');
  await vi.advanceTimersByTimeAsync(0);
  expect([limit.answer, limit.partial, limit.stale]).toEqual(['B', null, false]);
});

it('asks nothing where undo brings the answered job back', async () => {
  const { it: limit, calls } = followed();
  limit.want(['a'], 'a');
  await vi.advanceTimersByTimeAsync(100);
  calls[0]?.answer('A');
  await vi.advanceTimersByTimeAsync(0);
  limit.want(['b'], 'b');
  limit.want(['a'], 'a');
  await vi.advanceTimersByTimeAsync(1000);
  expect([limit.answer, limit.stale, calls.length]).toEqual(['A', false, 1]);
});
