import { expect, it } from 'vitest';
import type { History, Job } from '../backend/model';
import { bare, JobHistory } from './job-history';

const job = (name: string) => ({ name }) as Job;
const history = (sum: string): History => ({
  job: 'k7x2mab-1',
  made: { at_ms: 1, device: 'k7x2mab' },
  seen: [],
  names: [{ device: 'b3c4d5e', name: 'Laptop' }],
  places: [],
  orders: [],
  keys: [],
  sum,
});

/** An engine that answers with a history named after the job it was asked for. */
function engine() {
  const asked: { before: Job; after: Job; history?: History | null }[] = [];
  const call = async (_: string, request: { before: Job; after: Job; history?: History | null }) => {
    asked.push(request);
    return { history: history(request.after.name) };
  };
  return { asked, ask: { call } as never };
}

it('asks nothing, and writes nothing beside the job, before the job was handed to another device', async () => {
  const { asked, ask } = engine();
  const of = new JobHistory('k7x2mab', 'k7x2mab-1', job('a'), null, ask);
  expect(JSON.parse(await of.textOf(job('b')))).toEqual({ name: 'b' });
  expect([of.begun, asked.length]).toEqual([false, 0]);
});

it('goes on from the job that it was last of, and each version is written with it', async () => {
  const { asked, ask } = engine();
  const of = new JobHistory(
    'k7x2mab',
    'k7x2mab-1',
    { ...job('a'), mastwright_history: history('a') },
    history('a'),
    ask,
  );
  const text = JSON.parse(await of.textOf(job('b'))) as Job;
  expect(text.mastwright_history?.sum).toBe('b');
  await of.held(job('c'));
  expect(asked.map(({ before, after, history }) => [before.name, after.name, history?.sum])).toEqual([
    ['a', 'b', 'a'],
    ['b', 'c', 'b'],
  ]);
  // What the engine compares are jobs alone.
  expect(asked[0]?.before).toEqual({ name: 'a' });
});

it('says what this device is called, and keeps what others are', async () => {
  const { ask } = engine();
  const of = new JobHistory('k7x2mab', 'k7x2mab-1', job('a'), null, ask);
  expect((await of.held(job('a'), 'Phone')).history.names).toEqual([
    { device: 'b3c4d5e', name: 'Laptop' },
    { device: 'k7x2mab', name: 'Phone' },
  ]);
});

it('after a merge it is of the merged job', async () => {
  const { asked, ask } = engine();
  const of = new JobHistory('k7x2mab', 'k7x2mab-1', job('a'), null, ask);
  of.adopt({ job: { ...job('m'), mastwright_history: history('x') }, history: history('m') });
  await of.held(job('n'));
  expect([asked[0]?.before, asked[0]?.history?.sum]).toEqual([{ name: 'm' }, 'm']);
});

it('takes the history off a job', () => {
  expect(bare({ ...job('a'), mastwright_history: history('a') })).toEqual({ name: 'a' });
});

it('lets a merge stand that came while the history was brought up', async () => {
  const { ask } = engine();
  const of = new JobHistory('k7x2mab', 'k7x2mab-1', job('a'), history('a'), ask);
  const underWay = of.held(job('b'));
  of.adopt({ job: job('merged'), history: history('merged') });
  await underWay;
  const { asked, ask: again } = engine();
  Object.assign(of, { ask: again });
  await of.held(job('c'));
  expect(asked.map(({ before, history }) => [before.name, history?.sum])).toEqual([['merged', 'merged']]);
});
