import { beforeEach, expect, it, vi } from 'vitest';
import type { FieldError, Job, Mark, Topper } from '../backend/model';

/** Stands in for the app: the job in hand, and what was committed to it. */
const app = {
  job: null as Job | null,
  units: { system: 'metric', inch_fraction: 16 },
  shownTexts: {},
  captures: [] as unknown[],
  commit(job: Job, { captures }: { captures: unknown[] }) {
    app.job = job;
    app.captures = captures;
  },
};
let refused: Partial<FieldError>[] = [];
const asked: { job: Job }[] = [];
vi.mock('./app.svelte', () => ({ app }));
const route = { arrivals: 0 };
vi.mock('./route.svelte', () => ({ route }));
vi.mock('../backend', () => ({
  Refused: class extends Error {},
  backend: {
    call: (operation: string, request: { job: Job; text: string }) => {
      if (operation === 'read_entry') return Promise.resolve({ value: Number.parseFloat(request.text) });
      asked.push(request);
      return Promise.resolve({ errors: refused });
    },
  },
}));

const { Adding, addingTo } = await import('./adding.svelte');
const { MISSING } = await import('./doc');
const { carryDrafts, closeDrafts, isBegun, isDraftInHand } = await import('./drafts.svelte');
const { jobDoc } = await import('./job-doc');
const { jobAt, within } = await import('./pointer');

/** The browser's local storage, which outlives the page. */
const storage = new Map<string, string>();
const browsers = {
  getItem: (key: string) => storage.get(key) ?? null,
  setItem: (key: string, text: string) => void storage.set(key, text),
  removeItem: (key: string) => void storage.delete(key),
};
// A browser's storage lists what it holds as members of its own.
vi.stubGlobal(
  'localStorage',
  new Proxy(browsers, {
    ownKeys: () => [...storage.keys()],
    getOwnPropertyDescriptor: (_, key) =>
      storage.has(String(key)) ? { value: '', enumerable: true, configurable: true } : undefined,
  }),
);

const at = jobAt('/rig/topper');
const list = jobAt('/yard/marks');
const topper = () => new Adding<Topper>({ place: () => at, room: () => app.job?.rig.topper === null });
const begun = { width_m: MISSING, height_m: 1, mass_kg: 2, solid_percent: 100, drag: 1.8 } as const;

beforeEach(() => {
  storage.clear();
  closeDrafts();
  refused = [];
  asked.length = 0;
  app.job = { rig: { topper: null }, yard: { marks: [{ id: 'A' }] }, log: [] } as unknown as Job;
});

it('keeps nothing in the job while a number is missing', () => {
  const adding = topper();
  expect(adding.draft).toBeNull();
  adding.begin(begun);
  expect(adding.isWhole).toBe(false);
  adding.keep();
  expect(app.job?.rig.topper).toBeNull();
  expect(isBegun(at)).toBe(true);
});

it('puts a whole item in with one call, with the texts and captures of its numbers', () => {
  const adding = topper();
  adding.begin(begun, { '/drag': '1.8' });
  const { draft } = adding;
  draft?.accept(within(draft.root, '/width_m'), 0.5, '50 cm', [
    { path: '', instrument: 'phone_tilt', samples: null },
  ]);
  adding.keep();
  expect(app.job?.rig.topper).toEqual({ ...begun, width_m: 0.5 });
  expect(jobDoc.shown(within(at, '/width_m'))).toBe('50 cm');
  expect(jobDoc.shown(within(at, '/drag'))).toBe('1.8');
  expect(app.captures).toEqual([{ path: '/rig/topper/width_m', instrument: 'phone_tilt', samples: null }]);
  expect([isBegun(at), storage.size]).toEqual([false, 0]);
});

it('keeps nothing while a text is refused, and does not settle while one is typed', () => {
  const adding = topper();
  adding.begin({ ...begun, width_m: 0.5 });
  expect([adding.isWhole, adding.isSettled]).toEqual([true, true]);
  adding.draft?.keepTyped('/drag', { text: '1.', problem: '' });
  expect([adding.isWhole, adding.isSettled]).toEqual([true, false]);
  adding.draft?.keepTyped('/drag', { text: 'much', problem: 'Allowed: 0 to 3' });
  expect(adding.isWhole).toBe(false);
  adding.keep();
  expect(app.job?.rig.topper).toBeNull();
});

it('goes on after a reload where it was left', async () => {
  const adding = topper();
  adding.begin(begun);
  const { draft } = adding;
  draft?.accept(within(draft.root, '/mass_kg'), 3, '3 kg');
  draft?.keepTyped('/width_m', { text: '0.4', problem: '' });
  closeDrafts(); // The page is gone; what was kept beside the job is there.
  const again = topper();
  expect(again.draft?.value.mass_kg).toBe(3);
  expect(again.draft?.shown('/mass_kg')).toBe('3 kg');
  // What was being typed counts.
  await vi.waitFor(() => expect(again.draft?.value.width_m).toBe(0.4));
  expect(again.isWhole).toBe(true);
});

it('drops what was begun, and has nothing where the job has the thing already', () => {
  const adding = topper();
  adding.begin(begun);
  const { draft } = adding;
  draft?.set(within(draft.root, '/drag'), 1.2);
  expect(storage.size).toBe(1);
  adding.drop();
  expect([adding.draft, isBegun(at), storage.size]).toEqual([null, false, 0]);
  app.job = { rig: { topper: begun }, yard: { marks: [] }, log: [] } as unknown as Job;
  expect(topper().draft).toBeNull();
});

it('joins the end of a list, once the engine was asked', async () => {
  const adding = addingTo<Mark>(() => list, { fresh: () => ({ id: 'B', name: '' }) });
  expect(adding.draft?.value.id).toBe('B');
  refused = [{ path: '/yard/marks/1/id' }, { path: '/yard/marks/0/at' }];
  expect(await adding.keepIfRight()).toBe(false);
  // Of the errors only those of the item: the rest of the job may be half done.
  expect(adding.errors).toEqual([{ path: '/yard/marks/1/id' }]);
  expect(asked[0]?.job.yard.marks.map((mark) => mark.id)).toEqual(['A', 'B']);
  expect(app.job?.yard.marks.length).toBe(1);
  refused = [];
  expect(await adding.keepIfRight()).toBe(true);
  expect(app.job?.yard.marks.map((mark) => mark.id)).toEqual(['A', 'B']);
});

it('is in hand from its first entry until it is put in, dropped, or its page is left', () => {
  const adding = topper();
  adding.begin(begun);
  expect(isDraftInHand()).toBe(false);
  adding.draft?.set(within(at, '/width_m').slice(at.length) as never, 2 as never);
  expect(isDraftInHand()).toBe(true);
  route.arrivals += 1;
  expect(isDraftInHand()).toBe(false);
  adding.draft?.set(within(at, '/width_m').slice(at.length) as never, 3 as never);
  expect(isDraftInHand()).toBe(true);
  adding.drop();
  expect(isDraftInHand()).toBe(false);
});

it('a draft within an item of a list goes on where that item now stands', () => {
  const of = (n: number) => `/rig/guy_levels/${n}/anchor` as never;
  const within_level = (n: number) =>
    new Adding<{ depth_m: number }>({ place: () => of(n), fresh: () => ({}) });
  within_level(0).draft?.set('/depth_m' as never, 1 as never);
  within_level(1).draft?.set('/depth_m' as never, 2 as never);
  // A level came in front of them.
  carryDrafts((pointer) => pointer.replace('levels/1', 'levels/2').replace('levels/0', 'levels/1'));
  expect([0, 1, 2].map((n) => isBegun(of(n)))).toEqual([false, true, true]);
  expect([1, 2].map((n) => within_level(n).draft?.get('/depth_m' as never))).toEqual([1, 2]);
  expect(within_level(2).draft?.place).toBe(of(2));
});
