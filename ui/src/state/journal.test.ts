import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Conflict, type Store, type Version } from '../backend/store';
import { leadingOn } from './entries';
import { entriesOf, Journal, type Keeping } from './journal';
import { withChanges } from './patch';
import type { Pocket } from './pocket';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A store in memory that can be told to fail, or to take its time. */
class Shelf {
  journal = new Map<number, string>();
  versions = new Map<number, string>();
  trouble: Error | null = null;
  refreshed = 0;
  held: (() => void)[] = [];
  holds = false;

  readonly store = {
    append: (_job: string, n: number, line: string) =>
      this.#when(() => {
        if (this.journal.has(n)) throw new Conflict();
        this.journal.set(n, line);
      }),
    snapshot: (_job: string, { n }: Version, text: string, drop: number[], journalFrom: number) =>
      this.#when(() => {
        this.versions.set(n, text);
        for (const old of drop) this.versions.delete(old);
        for (const old of [...this.journal.keys()]) if (old <= journalFrom) this.journal.delete(old);
      }),
    read: () =>
      Promise.resolve({
        journal: [...this.journal.values()],
        versions: [...this.versions.keys()].map((n) => ({ n, at: n })),
        aside: [],
      }),
    refresh: () => (this.refreshed += 1),
  } as unknown as Store;

  async #when(work: () => void): Promise<void> {
    if (this.holds) await new Promise<void>((go) => this.held.push(go));
    await Promise.resolve();
    if (this.trouble) throw this.trouble;
    work();
  }

  /** The document as the next start finds it. */
  found(pocketed: readonly string[] = []): unknown {
    const from = Math.max(...this.versions.keys());
    const entries = entriesOf([...this.journal.values(), ...pocketed]);
    const start: unknown = JSON.parse(this.versions.get(from) ?? 'null');
    return leadingOn(from, entries).reduce((now, { changes }) => withChanges(now, changes), start);
  }
}

function pocketOf(lines: Map<string, string>): Pocket {
  return {
    put: (job, by, n, line) => void lines.set(`${job}:${by}:${n}`, line),
    drop: (job, by, n) => {
      for (const key of [...lines.keys()]) {
        if (key.startsWith(`${job}:${by}:`) && Number(key.split(':')[2]) <= n) lines.delete(key);
      }
    },
    of: () => [...lines.values()],
    empty: () => lines.clear(),
  };
}

function begun(by = 'a', shelf = new Shelf()) {
  const pocketed = new Map<string, string>();
  const told: Keeping[] = [];
  let cards = 0;
  shelf.versions.set(0, '{"edits":[]}');
  const journal = new Journal({
    store: shelf.store,
    job: 'j',
    by,
    n: 0,
    document: { edits: [] },
    versions: [{ n: 0, at: 0 }],
    whole: true,
    told: (keeping) => void told.push(keeping),
    beside: async () => void (cards += 1),
    pocket: pocketOf(pocketed),
  });
  return { shelf, pocketed, told, journal, cards: () => cards };
}

const upTo = (n: number) => ({ edits: Array.from({ length: n }, (_, i) => i) });

it('has an edit in the pocket before it returns, and calls it kept only once the store says so', async () => {
  const { shelf, journal, pocketed, told } = begun();
  shelf.holds = true;
  const kept = journal.write(upTo(1));
  expect(pocketed.size).toBe(1);
  expect(told).toEqual([{ state: 'keeping' }]);
  await vi.advanceTimersByTimeAsync(1000);
  expect(told).toEqual([{ state: 'keeping' }]);
  expect(shelf.found([...pocketed.values()])).toEqual(upTo(1));
  shelf.held.forEach((go) => go());
  expect(await kept).toBe(true);
  expect(told.at(-1)).toEqual({ state: 'kept' });
  expect(pocketed.size).toBe(0);
  expect(shelf.found()).toEqual(upTo(1));
});

it('does not call an edit kept while one before it is not', async () => {
  const { shelf, journal, pocketed, told } = begun();
  shelf.holds = true;
  const [first, second] = [journal.write(upTo(1)), journal.write(upTo(2))];
  let secondIsKept = false;
  void second.then(() => (secondIsKept = true));
  shelf.held[1]?.();
  await vi.advanceTimersByTimeAsync(10);
  expect(secondIsKept).toBe(false);
  expect(told.some(({ state }) => state === 'kept')).toBe(false);
  expect(pocketed.size).toBe(2);
  shelf.held[0]?.();
  expect([await first, await second]).toEqual([true, true]);
});

it('makes a version when the job rests, and the journal reaches back to the version before it', async () => {
  const { shelf, journal } = begun();
  for (let n = 1; n <= 5; n += 1) await journal.write(upTo(n));
  await vi.advanceTimersByTimeAsync(2000);
  expect([...shelf.versions.keys()]).toEqual([0, 5]);
  expect([...shelf.journal.keys()]).toEqual([1, 2, 3, 4, 5]);
  await journal.write(upTo(6));
  await vi.advanceTimersByTimeAsync(2000);
  expect([...shelf.journal.keys()]).toEqual([6]);
  // The newest version is spoilt: the one before and the journal give it back.
  shelf.versions.delete(6);
  expect(shelf.found()).toEqual(upTo(6));
});

it('tells a save that fails, tries it again with a fresh handle, and whole', async () => {
  const { shelf, journal, told, pocketed, cards } = begun();
  await journal.write(upTo(1));
  shelf.trouble = new Error('no room');
  expect(await journal.write(upTo(2))).toBe(false);
  expect(told.at(-1)).toEqual({ state: 'failed', why: 'no room' });
  expect(await journal.write(upTo(3))).toBe(false);
  expect(pocketed.size).toBeGreaterThan(0);
  // Whatever was kept is gone, too.
  shelf.trouble = null;
  shelf.versions.clear();
  shelf.journal.clear();
  await vi.advanceTimersByTimeAsync(60_000);
  expect(shelf.refreshed).toBeGreaterThan(0);
  expect(cards()).toBeGreaterThan(0);
  expect(told.at(-1)).toEqual({ state: 'kept' });
  expect(shelf.found()).toEqual(upTo(3));
  expect(await journal.write(upTo(4))).toBe(true);
  expect(shelf.found()).toEqual(upTo(4));
  expect(pocketed.size).toBe(0);
});

it('a late save never stands above a newer one', async () => {
  const { shelf, journal } = begun();
  shelf.holds = true;
  void journal.write(upTo(1));
  void journal.snapshot();
  await vi.advanceTimersByTimeAsync(1);
  void journal.write(upTo(2));
  // The newer edit gets there first, the older version last.
  for (const go of [...shelf.held].reverse()) go();
  shelf.holds = false;
  await vi.advanceTimersByTimeAsync(5000);
  expect(shelf.found()).toEqual(upTo(2));
});

it('stops where another window wrote, and overwrites nothing', async () => {
  const shelf = new Shelf();
  const [ours, theirs] = [begun('a', shelf), begun('b', shelf)];
  expect(await theirs.journal.write({ edits: ['theirs'] })).toBe(true);
  expect(await ours.journal.write({ edits: ['ours'] })).toBe(false);
  expect(ours.told.at(-1)).toEqual({ state: 'lost' });
  expect(await ours.journal.write({ edits: ['ours', 'again'] })).toBe(false);
  await ours.journal.snapshot();
  await vi.advanceTimersByTimeAsync(60_000);
  expect(shelf.found([...ours.pocketed.values()])).toEqual({ edits: ['theirs'] });
});

it('does not write over another window after a save that failed', async () => {
  const shelf = new Shelf();
  const [ours, theirs] = [begun('a', shelf), begun('b', shelf)];
  shelf.trouble = new Error('no room');
  expect(await ours.journal.write({ edits: ['ours'] })).toBe(false);
  shelf.trouble = null;
  expect(await theirs.journal.write({ edits: ['theirs'] })).toBe(true);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(ours.told.at(-1)).toEqual({ state: 'lost' });
  expect(shelf.found([...ours.pocketed.values()])).toEqual({ edits: ['theirs'] });
});

it('makes no version of an edit that another window was quicker with', async () => {
  const shelf = new Shelf();
  const [ours, theirs] = [begun('a', shelf), begun('b', shelf)];
  await theirs.journal.write({ edits: ['theirs'] });
  void ours.journal.write({ edits: ['ours'] });
  await ours.journal.snapshot();
  expect(shelf.found()).toEqual({ edits: ['theirs'] });
});
