import { backend } from '../backend';
import type { Deletion, JobFate, HeldJob, History, Job, KeptAnswer, MergeAnswer } from '../backend/model';
import type { Card, Hold, OldSave, Store, Version } from '../backend/store';
import { leadingOn, type Entry } from './entries';
import { NO_FATE, takenBack, withDeletion } from './fate';
import { entriesOf, Journal, type Keeping } from './journal';
import { idsAreMadeOn } from './ids';
import { bare, JobHistory } from './job-history';
import { adoptUnscoped, forgetJob, keep, kept } from './kept';
import { changesBetween, withChanges } from './patch';
import { pocket } from './pocket';
import { sharing } from './rebase';
import { why } from './why';

export const ELSEWHERE = 'This job is open in another window. Close it there first.';

/** How many jobs were made on this device, deleted ones too. */
const MADE = 'made';

/** What is known of jobs that were deleted, on any device. */
const FATES = 'fates';
const MOST_FATES = 500;

/** A job taken in hand. */
export interface Opened {
  card: Card;
  job: Job;
  journal: Journal;
  history: JobHistory;
  hold: Hold;
  /** What the user should know of how it was opened. */
  notice: string;
  /** Why nothing can be kept here at the moment; nothing where it can. Nobody who looks waits for that. */
  refused: Promise<string>;
}

/** An earlier state of a job. */
export interface Earlier {
  /** Newest first. */
  versions: Version[];
  aside: string[];
  /** Whether the newest version is the job as it stands: there were no edits after it. */
  isWhole: boolean;
}

/** All jobs that are kept here, each under its own name. */
class Shelf {
  cards = $state.raw<Card[]>([]);
  #device = '';
  #store: Store = backend.store;
  /** Jobs that are being brought together with another device's at the moment, by id. */
  // Nothing on the screen follows from it.

  #bringing = new Map<string, Promise<unknown>>();

  /** Jobs outside the bin, the one opened last first; one that nobody opened yet stands where it came. */
  get jobs(): Card[] {
    return this.cards.filter(({ binned_at }) => binned_at === null).sort((a, b) => listedAt(b) - listedAt(a));
  }

  /** The job that was worked on last: not one that came by itself since. */
  get openedLast(): Card | undefined {
    return this.jobs.sort((a, b) => b.opened_at - a.opened_at)[0];
  }

  get binned(): Card[] {
    return this.cards
      .filter(({ binned_at }) => binned_at !== null)
      .sort((a, b) => (b.binned_at ?? 0) - (a.binned_at ?? 0));
  }

  card(id: string): Card | null {
    return this.cards.find((card) => card.id === id) ?? null;
  }

  async start(): Promise<void> {
    const { device, cards, old } = await this.#store.start();
    this.#device = device;
    idsAreMadeOn(device);
    this.cards = cards;
    if (old.length > 0) await this.#takeOver(old);
  }

  async look(): Promise<void> {
    this.cards = await this.#store.cards();
  }

  /** What a job is called among the jobs of all devices. */
  sharedId(id: string): string {
    return id.startsWith('old-') ? `${this.#device}-${id}` : id;
  }

  /** The job that is known to other devices by this name; null where it is not here. */
  ofShared(shared: string): Card | null {
    return this.cards.find(({ id }) => this.sharedId(id) === shared) ?? null;
  }

  /** Brings a job that is not in hand together with what another device has of it: `exchanged` hands it over and tells what
   * came back. Null where another window has it. */
  async bring(
    id: string,
    deviceName: string,
    exchanged: (held: HeldJob) => Promise<HeldJob>,
  ): Promise<MergeAnswer | null> {
    const bringing = this.#bring(id, deviceName, exchanged);
    // Who opens it meanwhile is not told that another window has it.
    this.#bringing.set(
      id,
      bringing.catch(() => undefined),
    );
    try {
      return await bringing;
    } finally {
      this.#bringing.delete(id);
    }
  }

  async #bring(
    id: string,
    deviceName: string,
    exchanged: (held: HeldJob) => Promise<HeldJob>,
  ): Promise<MergeAnswer | null> {
    const before = this.card(id);
    const opened = await this.#take(
      id,
      false,
      () => undefined,
      () => undefined,
    );
    if (!opened) return null;
    const { journal, job, history, hold } = opened;
    try {
      await opened.refused;
      const held = await history.held(job, deviceName);
      // What goes out is kept here with its history before that.
      await journal.snapshotAgain();
      const answer = await backend.call('merge_jobs', { here: held, there: await exchanged(held) });
      history.adopt(answer);
      const merged = sharing(job, bare(answer.job));
      if (!(await journal.write(merged))) throw new Error('What came could not be kept.');
      await journal.snapshotAgain();
      // In the list it stays where it was: nobody opened it.
      const card = this.card(id) ?? opened.card;
      await this.putCard({ ...card, name: merged.name, opened_at: before?.opened_at ?? card.opened_at });
      return answer;
    } finally {
      await journal.close();
      hold.letGo();
    }
  }

  /** Whether it is a demo that nobody worked on yet. */
  async isUntouched(card: Card, demo: Job): Promise<boolean> {
    if (!card.demo) return false;
    const work = (job: Job) => ({ ...job, name: '', log: [] });
    return this.peek(card.id).then(
      (job) => changesBetween(work(job), work(demo)).length === 0,
      () => false,
    );
  }

  /** This device, as stamps name it. */
  get device(): string {
    return this.#device;
  }

  /** What is known of jobs that somebody deleted or wanted back, by the name that all devices know them by. */
  get fates(): Readonly<Record<string, JobFate | undefined>> {
    return kept<Record<string, JobFate>>(FATES) ?? {};
  }

  noteFate(shared: string, fate: JobFate): void {
    const others = Object.entries(this.fates).filter(([one]) => one !== shared);
    keep(FATES, Object.fromEntries([...others, [shared, fate] as const].slice(-MOST_FATES)));
  }

  /** Whoever deleted a job, on whichever device: it is wanted. */
  wantBack(shared: string): void {
    const fate = this.fates[shared];
    if (fate) this.noteFate(shared, takenBack(fate));
  }

  /** Notes that a job is deleted here, for the other devices; null where none of them has it. */
  async noteDeletion(id: string, deviceName: string): Promise<Deletion | null> {
    const deletion = await this.#deletionOf(id, deviceName);
    if (deletion) this.#note(id, deletion);
    return deletion;
  }

  #note(id: string, deletion: Deletion): void {
    const shared = this.sharedId(id);
    this.noteFate(shared, withDeletion(this.fates[shared] ?? NO_FATE, deletion));
  }

  async #deletionOf(id: string, device_name: string): Promise<Deletion | null> {
    // Of a job that can't be read nobody knows what is in it: another device that has it keeps it.
    const held = await this.heldOf(id).catch(() => null);
    return held && { by: { device: this.#device, at_ms: Date.now() }, device_name, seen: held.history.seen };
  }

  /** Puts a job in the bin because it was deleted, perhaps on another device. */
  async binAsDeleted(id: string, deletion: Deletion | null): Promise<void> {
    await this.#change(id, (card) => ({ ...card, binned_at: Date.now(), deletion }));
  }

  /** Takes in a job that another device made, under the name that all devices know it by. */
  async takeIn({ job, history }: HeldJob): Promise<string> {
    this.wantBack(history.job);
    const text = JSON.stringify({ ...bare(job), mastwright_history: history }, null, 2);
    // Nobody opened it here yet.
    const card = { ...freshCard(history.job, job.name, Date.now(), false), opened_at: 0 };
    await this.#store.create(card, text);
    await this.look();
    return history.job;
  }

  /** A job that is not in hand, with its history; null where it was never handed to another device. */
  async heldOf(id: string): Promise<HeldJob | null> {
    const found = await this.#newestUsable(id, async () => undefined);
    return found.history ? this.#historyOf(id, found).held(found.job) : null;
  }

  /** Keeps a job under a name that no other has; tells its id. */
  async create(job: Job, demo = false): Promise<string> {
    await this.look();
    const now = Date.now();
    const named = { ...job, name: this.freeName(job.name) };
    // Never the name of one that was deleted: a file of that would be taken for a state of this job.
    for (let count = Math.max(this.cards.length, kept<number>(MADE) ?? 0) + 1; ; count += 1) {
      const id = `${this.#device}-${count}`;
      if (this.card(id)) continue;
      const card = freshCard(id, named.name, now, demo);
      if (!(await this.#store.create(card, JSON.stringify(named, null, 2)))) continue;
      keep(MADE, count);
      await this.look();
      return id;
    }
  }

  /** `My yard`, `My yard (2)`, … */
  freeName(name: string): string {
    const taken = new Set(this.cards.map((card) => card.name));
    if (!taken.has(name)) return name;
    for (let count = 2; ; count += 1) if (!taken.has(`${name} (${count})`)) return `${name} (${count})`;
  }

  /** Takes a job in hand; null where another window has it. `take` takes it away from there. */
  async open(
    id: string,
    take: boolean,
    told: (keeping: Keeping) => void,
    lost: () => void,
  ): Promise<Opened | null> {
    await this.#bringing.get(id);
    return this.#take(id, take, told, lost);
  }

  async #take(
    id: string,
    take: boolean,
    told: (keeping: Keeping) => void,
    lost: () => void,
  ): Promise<Opened | null> {
    const hold = await this.#store.hold(id, take, lost);
    if (!hold) return null;
    try {
      return await this.#opened(id, hold, told);
    } catch (error) {
      hold.letGo();
      throw error;
    }
  }

  /** A job of this shelf without taking it in hand. */
  async peek(id: string): Promise<Job> {
    const { job } = await this.#newestUsable(id, async () => undefined);
    return job;
  }

  async copy(id: string, job?: Job): Promise<string> {
    const of = job ?? (await this.peek(id));
    return this.create({ ...of, name: `Copy of ${of.name || 'a job'}` });
  }

  async rename(id: string, name: string): Promise<void> {
    const opened = await this.open(
      id,
      false,
      () => undefined,
      () => undefined,
    );
    if (!opened) throw new Error(ELSEWHERE);
    const { journal, job, hold, card } = opened;
    await opened.refused;
    const kept = await journal.write({ ...job, name });
    await this.putCard({ ...card, name });
    await journal.close();
    hold.letGo();
    if (!kept) throw new Error('The new name could not be kept.');
  }

  async bin(id: string, binned: boolean): Promise<void> {
    if (!binned) this.wantBack(this.sharedId(id));
    const binned_at = binned ? Date.now() : null;
    await this.#change(id, (card) => ({ ...card, binned_at, deletion: null }));
  }

  /** Deletes a job for good here. Other devices that have it are told, under the name that this one has there. */
  async remove(id: string, deviceName = ''): Promise<void> {
    const deletion = await this.#deletionOf(id, deviceName);
    await this.#held(id, () => this.#store.remove(id));
    // Only now: what is told and then not done would be worse than what is done and not told.
    if (deletion) this.#note(id, deletion);
    pocket.empty(id);
    forgetJob(id);
    await this.look();
    // Its photos go with it, but for those that another job names. Should that not be possible now, the next one does it.
    await this.#forgetPhotos().catch(() => undefined);
  }

  /** Lets go of the photos that nothing kept here names: no version of any job, no edit, nothing that was set aside. */
  async #forgetPhotos(): Promise<void> {
    const named: string[] = [];
    const note = (text: string | null) => {
      for (const [name] of (text ?? '').matchAll(/[0-9a-f]{64}/g)) named.push(name);
    };
    for (const { id } of this.cards) {
      const { versions, journal, aside } = await this.#store.read(id);
      for (const line of [...journal, ...pocket.of(id)]) note(line);
      for (const { n } of versions) note(await this.#store.version(id, n));
      for (const name of aside) note(await this.#store.aside(id, name));
    }
    await this.#store.forgetOtherPhotos(named);
  }

  /** Keeps what the list shows of a job in hand. */
  async putCard(card: Card): Promise<void> {
    this.cards = [...this.cards.filter(({ id }) => id !== card.id), card];
    await this.#store.putCard(card);
  }

  async earlier(id: string): Promise<Earlier> {
    const { versions, aside, journal } = await this.#store.read(id);
    const entries = entriesOf([...journal, ...pocket.of(id)]);
    const isWhole = leadingOn(versions.at(-1)?.n ?? 0, entries).length === 0;
    return { versions: [...versions].reverse(), aside, isWhole };
  }

  async version(id: string, n: number): Promise<Job> {
    const text = await this.#store.version(id, n);
    const { job, why_not } = await backend.call('read_kept', { text: text ?? '' });
    if (!job) throw new Error(`This version can’t be read: ${why_not}`);
    return bare(job);
  }

  /** The text from which a job is opened as it stood after edit `n`; null where that is not all in one version yet. */
  async textToOpen(id: string, n: number): Promise<string | null> {
    const { versions, isWhole } = await this.earlier(id);
    return isWhole && versions[0]?.n === n ? this.#store.version(id, n) : null;
  }

  aside(id: string, name: string): Promise<string | null> {
    return this.#store.aside(id, name);
  }

  async #opened(id: string, hold: Hold, told: (keeping: Keeping) => void): Promise<Opened> {
    const set: string[] = [];
    const found = await this.#newestUsable(id, async (n) => {
      set.push(await this.#store.setAside(id, n));
    });
    const { job, versions, last } = found;
    const now = Date.now();
    const card = {
      ...(this.card(id) ?? freshCard(id, job.name, now, false)),
      name: job.name,
      // In the order in which they were opened, also where the clock was set back in between.
      opened_at: Math.max(now, ...this.cards.map((card) => listedAt(card) + 1)),
    };
    const history = this.#historyOf(id, found);
    const journal = new Journal({
      store: this.#store,
      job: id,
      by: sittingName(),
      n: last,
      document: found.document,
      versions,
      whole: found.clean && found.reached === found.from,
      told,
      textOf: (document) => history.textOf(document as Job),
      beside: () => this.putCard({ ...(this.card(id) ?? card), changed_at: Date.now() }),
    });
    // Bringing a document of an earlier version up is an edit like any other: what was kept stays as it was, and the
    // edits that follow lie on the document that they were made of.
    if (changesBetween(found.document, job).length > 0) await journal.write(job);
    // What was only in the pocket, or was put together from what was left, becomes a version before it is worked on.
    if (!found.clean) await journal.snapshot();
    if (journal.isWhole) for (const { by, n } of found.pocketed) pocket.drop(id, by, n);
    // A disk that is full or locked keeps nobody from looking at the job: it is told, and so is every edit not kept.
    const refused = this.putCard(card).then(
      () => '',
      (error: unknown) => `Nothing can be kept on this device at the moment: ${why(error)}`,
    );
    return { card, job, journal, history, hold, notice: noticeOf(set, found), refused };
  }

  #historyOf(id: string, { of, history }: Found): JobHistory {
    return new JobHistory(this.#device, this.sharedId(id), of, history, backend);
  }

  /** The job as it stood after its last edit; what can't be used on the way there is handed to `aside`. */
  async #newestUsable(id: string, aside: (n: number) => Promise<void>): Promise<Found> {
    const kept = await this.#store.read(id);
    const confirmed = entriesOf(kept.journal);
    const pocketed = entriesOf(pocket.of(id));
    const entries = [...confirmed, ...pocketed];
    const versions = [...kept.versions];
    const last = Math.max(0, ...versions.map(({ n }) => n), ...confirmed.map(({ n }) => n));
    for (let version = versions.at(-1); version; version = versions.at(-1)) {
      const from = version.n;
      const text = (await this.#store.version(id, from)) ?? '';
      const { job, why_not, newer } = await backend.call('read_kept', { text });
      if (newer) throw new Newer(why_not);
      if (job) {
        const on = leadingOn(from, entries);
        const led = on.length === 0 ? null : await replayed(text, on);
        const reached = led ? (on.at(-1)?.n ?? from) : from;
        const isThere = (entry: Entry) =>
          entry.n <= from || (led !== null && on.some((one) => sameEntry(one, entry)));
        const gap = !confirmed.every(isThere) || last > reached;
        const late = pocketed.filter((entry) => !isThere(entry));
        return {
          job: bare(led?.job ?? job),
          document: bare((led?.document ?? JSON.parse(text)) as Job),
          of: bare(job),
          history: job.mastwright_history ?? null,
          pocketed,
          versions,
          from,
          reached,
          last: Math.max(last, reached),
          gap,
          late: late.some((entry) => entry.n > from && !confirmed.some((one) => sameEntry(one, entry))),
          clean: versions.length === kept.versions.length && !gap && pocketed.length === 0,
        };
      }
      await aside(from);
      versions.pop();
    }
    throw new Error('Nothing of this job can be read. What was kept of it is set aside, not deleted.');
  }

  async #change(id: string, to: (card: Card) => Card): Promise<void> {
    await this.look();
    const card = this.card(id);
    if (card) await this.#held(id, () => this.putCard(to(card)));
  }

  async #held(id: string, work: () => Promise<void>): Promise<void> {
    const hold = await this.#store.hold(id, false, () => undefined);
    if (!hold) throw new Error(ELSEWHERE);
    try {
      await work();
    } finally {
      hold.letGo();
    }
  }

  /** Saves of the time when there was one job: each name that stands in them becomes a job of its own, for opening the
   * demo wrote over the user's own job then. Doing it twice, after a crash, does no harm. */
  async #takeOver(old: readonly OldSave[]): Promise<void> {
    let newest = '';
    for (const [index, group] of groupsOf(old).entries()) {
      const id = `old-${index + 1}`;
      const at = group.saves.at(-1)?.at ?? 0;
      const first = group.saves[0];
      if (!first) continue;
      await this.#store.create(
        { ...freshCard(id, group.name, first.at, false), changed_at: at, opened_at: at },
        first.text,
      );
      await this.#held(id, async () => {
        for (const [n, { at, text }] of group.saves.entries()) {
          if (n > 0) await this.#store.snapshot(id, { n, at }, text, [], 0);
        }
      });
      if (group.saves.at(-1) === old.at(-1)) newest = id;
    }
    adoptUnscoped(newest);
    await this.#store.forgetOld();
    await this.look();
  }
}

interface Found {
  job: Job;
  /** The same as it was kept, perhaps in an earlier version. */
  document: unknown;
  /** Who wrote what, up to the version that it began from, and the job as it was then. */
  history: History | null;
  of: Job;
  /** Edits that were on their way into the store when their page went away, whether or not they got there. */
  pocketed: Entry[];
  /** What is usable, or was not looked at. */
  versions: Version[];
  /** The version that it began from, and the edit that it led to. */
  from: number;
  reached: number;
  /** The highest number that was ever used. */
  last: number;
  /** Whether edits that were kept could not be reached. */
  gap: boolean;
  /** Whether another window's edits, never kept, do not fit to what was. */
  late: boolean;
  /** Whether everything that was kept is what was read. */
  clean: boolean;
}

const sameEntry = (a: Entry, b: Entry) => a.n === b.n && a.by === b.by;

const sittingName = () =>
  Array.from(crypto.getRandomValues(new Uint32Array(2)), (n) => n.toString(36)).join('');

/** A newer program kept this: it alone can read it, and nothing of it is touched. */
class Newer extends Error {
  constructor(why: string) {
    super(`A newer Mastwright kept this job: ${why}`);
    this.name = 'Newer';
  }
}

interface Led {
  document: unknown;
  job: Job;
}

/** The document with its edits in it, as they were made: on the version that it had then, and brought up only when they
 * are all in it. Null where that gives no job. */
async function replayed(text: string, entries: readonly Entry[]): Promise<Led | null> {
  let answer: KeptAnswer;
  let document: unknown;
  try {
    document = entries.reduce((now, entry) => withChanges(now, entry.changes), JSON.parse(text) as unknown);
    answer = await backend.call('read_kept', { text: JSON.stringify(document) });
  } catch {
    return null;
  }
  if (answer.newer) throw new Newer(answer.why_not);
  return answer.job && { document, job: answer.job };
}

function noticeOf(set: readonly string[], { gap, late }: Found): string {
  if (set.length > 0) {
    const what = set.length === 1 ? 'The last save of this job' : `The last ${set.length} saves of this job`;
    const since = gap ? 'as it stood before' : 'as it stood before, with the edits made since';
    return `${what} could not be read and was set aside, see “Earlier versions”. This is the job ${since}.`;
  }
  if (gap)
    return 'Some of the last edits of this job could not be read. This is the job as it stood before them.';
  if (late) return 'An edit made in another window at the same time was left out.';
  return '';
}

function freshCard(id: string, name: string, now: number, demo: boolean): Card {
  return { id, name, made_at: now, changed_at: now, opened_at: now, binned_at: null, demo };
}

const listedAt = ({ made_at, opened_at }: Card) => Math.max(made_at, opened_at);

function groupsOf(old: readonly OldSave[]): { name: string; saves: OldSave[] }[] {
  const groups: { name: string; saves: OldSave[] }[] = [];
  let last = '';
  for (const save of old) {
    // What can't be read belongs to what was saved before it.
    const name = nameIn(save.text) ?? last;
    const group = groups.find((one) => one.name === name);
    if (group) group.saves.push(save);
    else groups.push({ name, saves: [save] });
    last = name;
  }
  return groups;
}

function nameIn(text: string): string | null {
  try {
    const { name } = JSON.parse(text) as { name?: unknown };
    return typeof name === 'string' ? name : null;
  } catch {
    return null;
  }
}

export const shelf = new Shelf();
