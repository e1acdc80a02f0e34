import { expect, test, vi } from 'vitest';
import { Refused, type Backend } from '../backend/backend';
import type { Job } from '../backend/model';
import { Planner, type PlanWish } from './planner';
import { withFront } from './placing';

const job = {
  yard: {},
  rig: {},
  log: [{}],
  placement: { mast: { by: 'coordinates', east_m: 0, north_m: 0 }, front_bearing_deg: 0, guy_turn_deg: 0 },
} as unknown as Job;

const wish = (of: Job, extent: PlanWish['extent'] = 'moving'): PlanWish => ({
  job: of,
  map: { text_m: 0.5, static_kept: null, ties_for: null },
  extent,
});

/** An engine that answers with the names of what it was asked, and forgets what it holds when told to. */
function engine() {
  let held: string | null = null;
  const call = vi.fn((operation: string, request: { name?: string; held?: string }) => {
    if (operation === 'hold_job') held = request.name ?? null;
    if (operation === 'place' && request.held !== held) {
      const error = { path: '/held', field: 'held', given: '', allowed: '' };
      return Promise.reject(new Refused([error]));
    }
    return Promise.resolve({ asked: operation });
  });
  return { planner: new Planner(call as unknown as Backend['call']), call, forget: () => (held = null) };
}

const asked = (call: ReturnType<typeof engine>['call']) => call.mock.calls.map(([operation]) => operation);

test('the job is handed over once, then only placements are', async () => {
  const { planner, call } = engine();
  for (const bearing of [10, 20, 30]) await planner.ask(wish(withFront(job, bearing)));
  expect(asked(call)).toEqual(['hold_job', 'place', 'place', 'place']);
  const last = call.mock.calls.at(-1)?.[1] as { placement: { front_bearing_deg: number } };
  expect(last.placement.front_bearing_deg).toBe(30);
  expect(JSON.stringify(call.mock.calls[1])).not.toContain('yard');
});

test('two placements at once hand the job over once', async () => {
  const { planner, call, forget } = engine();
  const both = () => Promise.all([10, 20].map((bearing) => planner.ask(wish(withFront(job, bearing)))));
  await both();
  expect(asked(call)).toEqual(['hold_job', 'place', 'place']);
  forget();
  await both();
  expect(asked(call).filter((operation) => operation === 'hold_job').length).toBe(2);
});

test('another edit is handed over again', async () => {
  const { planner, call } = engine();
  await planner.ask(wish(job));
  await planner.ask(wish({ ...job, yard: { ...job.yard } }));
  expect(asked(call)).toEqual(['hold_job', 'place', 'hold_job', 'place']);
});

test('a whole plan is asked whole, without the log', async () => {
  const { planner, call } = engine();
  await planner.ask(wish(job, 'whole'));
  expect(asked(call)).toEqual(['plan']);
  expect(call.mock.calls[0]?.[1]).toMatchObject({ job: { log: [] }, report: true });
});

test('what is shown first is asked without words', async () => {
  const { planner, call } = engine();
  await planner.ask(wish(job, 'first'));
  expect(call.mock.calls[0]?.[0]).toBe('first_plan');
  expect(call.mock.calls[0]?.[1]).toMatchObject({ job: { log: [] }, map: { text_m: 0.5 } });
});

test('an engine that was started again gets the job anew', async () => {
  const { planner, call, forget } = engine();
  await planner.ask(wish(job));
  forget();
  await planner.ask(wish(withFront(job, 5)));
  expect(asked(call)).toEqual(['hold_job', 'place', 'place', 'hold_job', 'place']);
});

test('what is wrong with a placement is told', async () => {
  const { planner, call } = engine();
  await planner.ask(wish(job));
  call.mockImplementationOnce(() => Promise.reject(new Refused([])));
  await expect(planner.ask(wish(withFront(job, 5)))).rejects.toBeInstanceOf(Refused);
});
