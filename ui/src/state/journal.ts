import { Conflict, type Store, type Version } from '../backend/store';
import { entryOf, lineOf, type Entry } from './entries';
import { changesBetween } from './patch';
import { letGo } from './thinning';
import { pocket as browserPocket, type Pocket } from './pocket';
import { why } from './why';

/** After this long without a change the whole job is kept as a version, so that the journal stays short. */
const QUIET_MS = 1500;
/** As many edits make a version even without a rest. */
const MANY = 60;
const FIRST_RETRY_MS = 1000;
const LAST_RETRY_MS = 30_000;

/** How the last edit stands. */
export type Keeping =
  | { state: 'kept' }
  | { state: 'keeping' }
  /** It is still on the screen, and tried again. */
  | { state: 'failed'; why: string }
  /** Another window wrote; nothing more is written here. */
  | { state: 'lost' };

export interface Sitting {
  store: Store;
  job: string;
  /** Names this opening of the job. */
  by: string;
  /** The last edit that is in `document`. */
  n: number;
  document: unknown;
  /** What is kept, oldest first. */
  versions: Version[];
  /** The newest version is `document` already. */
  whole: boolean;
  told: (keeping: Keeping) => void;
  /** What has to be kept beside a version, such as the card, which a cleared store has lost, too. */
  beside: () => Promise<void>;
  /** The text of a version. */
  textOf?: (document: unknown) => Promise<string>;
  pocket?: Pocket;
}

/**
 * The one way by which an edit of a job becomes durable. Each is first put into the pocket, a small store that is
 * written before `write` returns and outlives the page; then it is appended to the store, which outlives the program.
 * Only an edit of which the store said so is kept. Versions are for looking back, and let the journal be short.
 */
export class Journal {
  #n: number;
  #keptN: number;
  #wholeN: number;
  #document: unknown;
  #versions: Version[];
  #confirmed = new Set<number>();
  #waiting: { n: number; then: (kept: boolean) => void }[] = [];
  #failing = false;
  #closed = false;
  #retryMs = FIRST_RETRY_MS;
  #retry: ReturnType<typeof setTimeout> | undefined;
  #quiet: ReturnType<typeof setTimeout> | undefined;
  #snapshots: Promise<void> = Promise.resolve();
  #since: number;
  #pocket: Pocket;

  constructor(private readonly sitting: Sitting) {
    this.#n = this.#keptN = this.#since = sitting.n;
    this.#wholeN = sitting.whole ? sitting.n : -1;
    this.#document = sitting.document;
    this.#versions = sitting.versions;
    this.#pocket = sitting.pocket ?? browserPocket;
  }

  /** The last edit, kept or not. */
  get n(): number {
    return this.#n;
  }

  /** Whether the newest version holds every edit. */
  get isWhole(): boolean {
    return this.#wholeN >= this.#n && !this.#failing;
  }

  /** Keeps the document as it stands now. When this returns it outlives the page. The promise tells whether it
   * outlives the program; it never rejects. */
  write(document: unknown): Promise<boolean> {
    const changes = changesBetween(this.#document, document);
    this.#document = document;
    if (this.#closed) return Promise.resolve(false);
    if (changes.length > 0) this.#append(changes);
    return this.#keptUpTo(this.#n);
  }

  /** Keeps the whole document as a version, if it is not one yet. */
  snapshot(): Promise<void> {
    clearTimeout(this.#quiet);
    this.#snapshots = this.#snapshots.then(() => this.#snapshotNow());
    return this.#snapshots;
  }

  /** Keeps the document as a version once more, for what is kept beside it has changed. */
  snapshotAgain(): Promise<void> {
    // Behind a version that is being written, which would count as the one that is asked for.
    this.#snapshots = this.#snapshots.then(() => void (this.#wholeN = -1));
    return this.snapshot();
  }

  /** Tries again at once to keep what could not be kept. */
  async again(): Promise<void> {
    this.#failing = true;
    this.#wholeN = -1;
    await this.#tryAgain();
  }

  /** Ends the sitting: all that was written is kept as a version. */
  async close(): Promise<void> {
    await this.#keptUpTo(this.#n);
    await this.snapshot();
    this.stop();
  }

  /** Writes nothing more. */
  stop(): void {
    this.#closed = true;
    clearTimeout(this.#quiet);
    clearTimeout(this.#retry);
    this.#answer(true);
  }

  #append(changes: Entry['changes']): void {
    const { store, job, by, told } = this.sitting;
    this.#n += 1;
    const n = this.#n;
    const line = lineOf({ n, by, since: this.#since, at: Date.now(), changes });
    this.#pocket.put(job, by, n, line);
    if (this.#failing) {
      // What could not be kept is missing between the store and this edit: only the whole document helps.
      void this.#tryAgain();
      return;
    }
    told({ state: 'keeping' });
    store.append(job, n, line).then(
      () => this.#isKept(n),
      (error: unknown) => this.#hasFailed(error),
    );
    if (n - this.#wholeN >= MANY) void this.snapshot();
    else {
      clearTimeout(this.#quiet);
      this.#quiet = setTimeout(() => void this.snapshot(), QUIET_MS);
    }
  }

  /** Edits may be kept in another order than written; what counts is that none before is missing. */
  #isKept(n: number): void {
    this.#confirmed.add(n);
    while (this.#confirmed.delete(this.#keptN + 1)) this.#keptN += 1;
    this.#pocket.drop(this.sitting.job, this.sitting.by, this.#keptN);
    this.#answer(false);
    if (this.#keptN >= this.#n && !this.#failing && !this.#closed) this.sitting.told({ state: 'kept' });
  }

  #hasFailed(error: unknown): void {
    if (this.#closed) return;
    if (error instanceof Conflict) {
      this.stop();
      this.sitting.told({ state: 'lost' });
      return;
    }
    this.#failing = true;
    this.#answer(true);
    this.sitting.told({ state: 'failed', why: why(error) });
    clearTimeout(this.#retry);
    this.#retry = setTimeout(() => void this.#tryAgain(), this.#retryMs);
    this.#retryMs = Math.min(this.#retryMs * 2, LAST_RETRY_MS);
  }

  /** With a fresh handle, and whole: it may be that nothing of what was kept before is there any more. */
  async #tryAgain(): Promise<void> {
    clearTimeout(this.#retry);
    this.sitting.store.refresh();
    await this.snapshot();
  }

  async #snapshotNow(): Promise<void> {
    if (this.#closed || (this.#wholeN >= this.#n && !this.#failing)) return;
    const version: Version = { n: this.#n, at: Date.now() };
    const document = this.#document;
    const wasFailing = this.#failing;
    const versions = [...this.#versions.filter(({ n }) => n !== version.n), version];
    const drop = letGo(versions);
    const left = versions.filter(({ n }) => !drop.includes(n));
    // The journal reaches back to the version before: should the new one ever be spoilt, nothing is lost.
    const journalFrom = left.at(-2)?.n ?? 0;
    // A version holds no edit that another window may have been quicker with.
    if (!wasFailing && !(await this.#keptUpTo(version.n))) return;
    try {
      const text = await (this.sitting.textOf?.(document) ?? JSON.stringify(document, null, 2));
      if (wasFailing) {
        if (await this.#isOthers()) throw new Conflict();
        await this.sitting.beside();
      }
      await this.sitting.store.snapshot(this.sitting.job, version, text, drop, journalFrom);
      if (!wasFailing) await this.sitting.beside();
    } catch (error) {
      this.#hasFailed(error);
      return;
    }
    this.#versions = left;
    this.#wholeN = version.n;
    if (!wasFailing) return;
    // The version holds all edits up to its own, whether or not the journal has them.
    this.#failing = false;
    this.#retryMs = FIRST_RETRY_MS;
    this.#keptN = Math.max(this.#keptN, version.n);
    for (const n of this.#confirmed) if (n <= this.#keptN) this.#confirmed.delete(n);
    this.#pocket.drop(this.sitting.job, this.sitting.by, this.#keptN);
    this.#answer(false);
    if (this.#n > version.n) await this.#again();
    else if (!this.#closed) this.sitting.told({ state: 'kept' });
  }

  /** Edits made while the version was being written are not in the store either. */
  async #again(): Promise<void> {
    this.#failing = true;
    await this.#snapshotNow();
  }

  /** Whether another window went on with the job while nothing could be kept here. */
  async #isOthers(): Promise<boolean> {
    const { store, job, by, n: begun } = this.sitting;
    const { journal, versions } = await store.read(job);
    const known = new Set(this.#versions.map(({ n }) => n));
    return (
      entriesOf(journal).some((entry) => entry.n > begun && entry.by !== by) ||
      versions.some(({ n }) => n > begun && !known.has(n))
    );
  }

  #keptUpTo(n: number): Promise<boolean> {
    if (this.#keptN >= n) return Promise.resolve(true);
    if (this.#failing) return Promise.resolve(false);
    return new Promise((then) => this.#waiting.push({ n, then }));
  }

  /** Tells those who wait; with `all` also those whose edit is not kept. */
  #answer(all: boolean): void {
    const ready = this.#waiting.filter(({ n }) => all || n <= this.#keptN);
    this.#waiting = this.#waiting.filter((one) => !ready.includes(one));
    for (const { n, then } of ready) then(n <= this.#keptN);
  }
}

/** The entries in some lines; what is torn or damaged is left out. */
export function entriesOf(lines: readonly string[]): Entry[] {
  return lines.map(entryOf).filter((entry) => entry !== null);
}
