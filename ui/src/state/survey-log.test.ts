import { expect, it, vi } from 'vitest';
import type { Job, LogEntry } from '../backend/model';
import { SurveyLog, withZone, type LogAnswer, type LogBook, type LogRequest } from './survey-log';

const job = (name: string) => ({ name, log: [] }) as unknown as Job;
const entry = (number: number) => ({ number }) as LogEntry;

function begun() {
  const asked: LogRequest[] = [];
  const added: number[] = [];
  let fail = false;
  const log = new SurveyLog(
    async (request) => {
      if (fail) throw new Error('refused');
      asked.push(request);
      return { entries: [entry(request.job.log.length + 1)], survey_date: null } satisfies LogAnswer;
    },
    () => 'Ada',
    (_book, answer) => added.push(...answer.entries.map((one) => one.number)),
  );
  const book: LogBook = { entries: [] };
  return { log, book, asked, added, failing: (now: boolean) => (fail = now) };
}

it('takes edits that follow each other quickly as one', async () => {
  vi.useFakeTimers();
  const { log, book, asked, added } = begun();
  log.note(book, job('one'));
  log.note(book, job('two'));
  expect(asked).toEqual([]);
  await vi.advanceTimersByTimeAsync(2000);
  expect(asked.map((request) => [request.job.name, request.who])).toEqual([['two', 'Ada']]);
  expect(added).toEqual([1]);
  vi.useRealTimers();
});

it('keeps a captured value apart from what is typed before and after', async () => {
  const { log, book, asked, added } = begun();
  const captures = [{ path: '/a', instrument: 'phone_tilt' as const, samples: null }];
  log.note(book, job('typed'));
  log.note(book, job('captured'), { captures });
  log.note(book, job('typed again'));
  await log.flush();
  expect(asked.map((request) => request.captures.length)).toEqual([0, 1, 0]);
  // Each is compared with the log as the one before left it.
  expect(added).toEqual([1, 2, 3]);
  expect(book.entries.length).toBe(3);
});

it('goes on after a job that could not be read', async () => {
  const { log, book, asked, failing } = begun();
  failing(true);
  log.note(book, job('spoilt'));
  await log.flush();
  failing(false);
  log.note(book, job('good'));
  await log.flush();
  expect(asked.map((request) => request.job.name)).toEqual(['good']);
  expect(book.entries.length).toBe(1);
});

it('writes the hour on the wall with its zone', () => {
  const at = new Date(2026, 4, 1, 18, 30, 5);
  expect(withZone(at)).toMatch(/^2026-05-01T18:30:05[+-]\d\d:\d\d$/);
  expect(new Date(withZone(at)).getTime()).toBe(at.getTime());
});
