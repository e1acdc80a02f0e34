import { backend, Refused } from '../backend';
import { forScreen } from '../backend/backend';
import type { Card, Hold } from '../backend/store';
import type {
  FieldError,
  Conflict,
  Deletion,
  HeldJob,
  Instrument,
  Job,
  MergeAnswer,
  PlaceAnswer,
  Plan,
  Report,
  Scene,
  SceneShape,
  Stamp,
  Subject,
  Units,
  Verdict,
} from '../backend/model';
import { device } from './device.svelte';
import { FIRST_TEXT_M, Foresight } from './foresight';
import { History } from './history';
import { lettersAreFor } from './ids';
import { bare, type JobHistory } from './job-history';
import type { Journal, Keeping } from './journal';
import { kept, scopeTo } from './kept';
import { mapState } from './map-view.svelte';
import { Newest, onFrame } from './newest';
import { pageCarried } from './pages';
import { Planner, type Planned, type PlanWish } from './planner';
import { ELSEWHERE, shelf } from './shelf.svelte';
import { SurveyLog, type By, type LogAnswer, type LogBook } from './survey-log';
import { changesBetween } from './patch';
import { given, jobAt, tokens, valueAt, withValue } from './pointer';
import { carried, keyOf, rebased, sharing } from './rebase';
import { route } from './route.svelte';
import { typedTexts, typing } from './typed.svelte';
import { carryDrafts, closeDrafts, isDraftInHand } from './drafts.svelte';
import { why } from './why';

type Phase = 'opening' | 'welcome' | 'job' | 'elsewhere';

/** How often it is looked whether an entry that is being made is done. */
const PATIENCE_MS = 250;

/** Which job this window has in hand: a window that is loaded again goes on with its own. */
const HERE = 'mastwright:here';

interface HowOpened {
  /** Takes it from the window that has it. */
  take?: boolean;
  /** Where readings came from that the job's log lacks. */
  lacking?: Instrument;
}

/** How another state of the job came to be here. */
type Turn = 'came' | 'said' | 'taken_back' | 'said_again';

/** What somebody said of a conflict. */
interface Said {
  place: string;
  /** The side that holds, by who wrote it; none: both are kept. */
  side: Stamp | null;
  /** The writing by which it was said. */
  by: Stamp;
  /** The job before. */
  before: HeldJob;
}

interface Bringing {
  /** Until nobody is entering anything. */
  waits?: boolean;
  turn?: Turn;
  /** What is said by an answer. */
  said?: (answer: MergeAnswer) => Said | null;
}

interface InHand {
  card: Card;
  journal: Journal;
  history: JobHistory;
  hold: Hold;
}

/** The job with its history, and what the engine says of it. Components read this and call its methods. */
class App {
  phase = $state<Phase>('opening');
  job = $state.raw<Job | null>(null);
  plan = $state.raw<Plan | null>(null);
  map = $state.raw<Scene | null>(null);
  profile = $state.raw<Scene | null>(null);
  report = $state.raw<Report | null>(null);
  frontFoot = $state('');
  /** The plan's verdict in a word or two; what the engine says of no plan where there is none. */
  verdictSays = $state('');
  shownTexts = $state.raw<Record<string, string | undefined>>({});
  /** Why there is no plan of the job as it stands; the results shown are then those from before. */
  errors = $state.raw<FieldError[]>([]);
  /** Something that went wrong outside the job: a save, the engine itself. */
  trouble = $state('');
  /** How the last edit is kept. */
  keeping = $state.raw<Keeping>({ state: 'kept' });
  /** The job that was to be opened and that another window has. */
  elsewhere = $state.raw<Card | null>(null);
  /** Something that was done without being asked, and can be undone. */
  did = $state('');
  /** What came into the job from another device without being asked. */
  came = $state('');
  /** What two devices wrote without knowing of each other, and nobody has settled yet. */
  conflicts = $state.raw<Conflict[]>([]);
  /** That another device deleted this job, while nobody has said yet whether it is still wanted. */
  deletion = $state.raw<Deletion | null>(null);
  selected = $state.raw<Subject | null>(null);
  /** Whether a change is answered: the demo is shown before the engine is there. */
  engineThere = $state(false);
  canUndo = $state(false);
  canRedo = $state(false);

  #history: History<Job> | null = null;
  #inHand: InHand | null = null;
  /** Whose log goes on. */
  #books = new WeakMap<Job, LogBook>();
  /** What was said of conflicts, by the state that came of it: undo takes that back. */
  #said = new WeakMap<Job, Said>();
  /** Resolves once it is known what is to be asked about in the job in hand: until then the log says nothing of it. */
  #asked: Promise<void> = Promise.resolve();
  /** To be called once the job in hand is shown, or is told not to be planned: what else is asked of it at the start wants the
   * whole engine, which would keep the first plan waiting while it is loaded. */
  #shown: () => void = () => undefined;
  #keptThen: () => void = () => undefined;
  #log = new SurveyLog(
    async (request) => {
      await this.#asked;
      return backend.call('log_readings', { ...request, open: this.#openPlaces(request.job) });
    },
    () => kept<string>('who') ?? '',
    (book, answer) => this.#logged(book, answer),
  );
  #mapTextM = FIRST_TEXT_M;
  #ties: Subject | null = null;
  /** Whether the engine has its words, too: a browser has what the first map and a drag need before it has the whole. */
  #whole = false;
  /** What of the map does not move with the mast, under its name. */
  #static: { name: string; shapes: SceneShape[] } | null = null;
  #foresight = new Foresight(() => {
    const [id, journal] = [this.id, this.#inHand?.journal];
    return id && journal?.isWhole && !this.#isEntering ? { id, n: journal.n } : null;
  });
  #planner = new Planner((operation, request) => backend.call(operation, request));
  #plans = new Newest<PlanWish, Planned>(
    (wish) => this.#planner.ask(wish),
    (answer) => this.#answered(answer),
    (error) => this.#refused(error),
    // The first is asked before the screen of the job is made.
    (then) => (this.plan === null ? then() : onFrame(then)),
    // One in every frame: while an answer waits for the screen to be drawn, the next question is on its way.
    2,
  );

  /** What is to be thought of the job as it stands; none while there is no plan of it, and then nobody knows. */
  get verdict(): Verdict | null {
    return this.errors.length > 0 ? null : (this.plan?.verdict ?? null);
  }

  get units(): Units {
    return this.job?.units ?? { system: 'metric', inch_fraction: 16 };
  }

  /** The id of the job in hand. */
  get id(): string | null {
    return this.#inHand?.card.id ?? null;
  }

  async start(): Promise<void> {
    addEventListener('pagehide', () => this.#leaving());
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'hidden') this.#leaving();
    });
    void backend.ready().then(() => (this.engineThere = true));
    backend.store.onCleared(() => void this.#inHand?.journal.again());
    try {
      await shelf.start();
      const here = shelf.card(sessionStorage.getItem(HERE) ?? '') ?? null;
      const last = here?.binned_at === null ? here : shelf.openedLast;
      if (last) await this.openKept(last.id);
    } catch (error) {
      this.trouble = `The jobs kept here could not be read: ${why(error)}`;
    }
    if (this.phase === 'opening') this.phase = 'welcome';
  }

  async openDemo(): Promise<void> {
    await this.#openFrom(async () => {
      const demo = await backend.call('demo', {});
      const untouched = await this.#untouchedDemo(demo);
      if (untouched) await this.openKept(untouched);
      else await this.openJob(demo, true);
    });
  }

  async openBlank(units: Units): Promise<void> {
    await this.#openFrom(async () => this.openJob(await backend.call('blank', { units })));
  }

  /** Opens a job that is not kept here yet: it is kept beside the others, under a name of its own. */
  async openJob(job: Job, demo = false): Promise<void> {
    const id = await shelf.create(bare(job), demo);
    await this.openKept(id, { lacking: 'file' });
  }

  /** Opens a job that another device handed over. What is here of it is brought together with it, and tells so. */
  async openHeld(held: HeldJob): Promise<void> {
    // Another window may have taken it in since.
    await shelf.look();
    const card = shelf.ofShared(held.history.job);
    if (!card || card.binned_at !== null) {
      // One that lies in the bin stays there as it is.
      if (card) await this.openJob(held.job);
      else await this.openKept(await shelf.takeIn(held), { lacking: 'file' });
      return;
    }
    if (card.id !== this.id) await this.openKept(card.id);
    // In another window's hand, or not to be opened: then nothing of the file is in it.
    if (card.id !== this.id || !this.#inHand) throw new Error(this.trouble || ELSEWHERE);
    await this.mergeIn(held);
    const open = this.conflicts.length;
    const asked =
      open === 0 ? '' : ` ${open === 1 ? 'One entry was' : `${open} entries were`} written on both.`;
    this.trouble = `This job was here already: what was changed here and there is in it now.${asked}`;
  }

  /** The job in hand with its history. */
  async held(deviceName = ''): Promise<HeldJob | null> {
    const inHand = this.#inHand;
    if (!inHand || !this.job) return null;
    await this.#log.flush();
    return inHand.history.held(this.#history?.present ?? this.job, deviceName);
  }

  /** The same, to be handed to another device: what goes out is kept here with its history before that. */
  async handOver(deviceName = ''): Promise<HeldJob | null> {
    const inHand = this.#inHand;
    const held = await this.held(deviceName);
    await inHand?.journal.snapshotAgain();
    return held;
  }

  /** Brings what another device has of the job in hand together with what is here. With `waits` it does so once nobody is
   * entering anything. Null where it is not in hand any more. */
  async mergeIn(there: HeldJob, waits = false): Promise<MergeAnswer | null> {
    return this.#brought((here) => backend.call('merge_jobs', { here, there }), { waits });
  }

  /** Tells whenever an edit was kept, or a job taken in hand. */
  onKept(then: () => void): void {
    this.#keptThen = then;
  }

  /** Whether somebody is in the middle of an entry: a text, a finger that drags, a sheet, a thing that is begun. */
  get #isEntering(): boolean {
    const drags = this.#history !== null && this.job !== this.#history.present;
    const sheet = document.querySelector('dialog[open]') !== null;
    return drags || sheet || typing.now || typedTexts.areOnTheirWay || isDraftInHand();
  }

  /** Says which writing of a conflict holds; none: both are kept. */
  async settleConflict(conflict: Conflict, side: number | null, turn: Turn = 'said'): Promise<void> {
    const by = this.#inHand?.history.now();
    if (!by) return;
    const { place } = conflict;
    let before: HeldJob | null = null;
    const ask = async (held: HeldJob) => {
      before = held;
      return backend.call('settle_conflict', { held, place, side, by });
    };
    const said = ({ history }: MergeAnswer): Said | null => {
      const written = history.places.find((one) => one.place === place)?.written[0]?.by;
      const chosen = side === null ? null : (conflict.sides[side]?.by ?? null);
      return before && written ? { place, side: chosen, by: written, before } : null;
    };
    await this.#brought(ask, { turn, said });
  }

  /** Takes back what was said of a conflict: it is open again, on every device. */
  async #takeBack({ by: said, before }: Said): Promise<void> {
    const by = this.#inHand?.history.now();
    if (!by) return;
    try {
      await this.#brought((held) => backend.call('reopen_conflict', { held, before, said, by }), {
        turn: 'taken_back',
      });
    } catch (error) {
      if (!(error instanceof Refused)) return this.#refused(error);
      // There is nothing left of it to take back.
      const present = this.#history?.present;
      this.#history?.undo();
      if (present) this.#step({ ...present });
      this.trouble = 'What was said there has been written over since, on another device: that stays.';
    }
  }

  /** Says it again, where the question is open still. */
  async #sayAgain({ place, side }: Said): Promise<void> {
    const open = this.conflicts.find((one) => one.place === place);
    const at = open?.sides.findIndex(({ by }) => by.at_ms === side?.at_ms && by.device === side.device) ?? -1;
    if (!open || (side !== null && at < 0)) {
      this.trouble = 'That question is not open any more.';
      return;
    }
    await this.settleConflict(open, side === null ? null : at, 'said_again');
  }

  /** The job as an answer has it. An edit that was made while it was asked for is in it, too: then it is asked anew. */
  async #brought(
    ask: (held: HeldJob) => Promise<MergeAnswer>,
    { waits = false, turn = 'came', said = () => null }: Bringing = {},
  ): Promise<MergeAnswer | null> {
    const inHand = this.#inHand;
    for (let again = 0; again < 5; again += 1) {
      while (waits && this.#isEntering && inHand === this.#inHand)
        await new Promise((then) => setTimeout(then, PATIENCE_MS));
      await this.#log.flush();
      const before = this.#history?.present;
      if (!inHand || !before || inHand !== this.#inHand) return null;
      const answer = await ask(await inHand.history.held(before));
      if (inHand !== this.#inHand) return null;
      if (this.#history?.present !== before || (waits && this.#isEntering)) continue;
      await this.#adopt(inHand, before, answer, turn, said(answer));
      return answer;
    }
    throw new Error('The job was changed all the while; try again.');
  }

  /** The job in hand is now what came of bringing two states of it together, or of what somebody said of a conflict. */
  async #adopt(
    inHand: InHand,
    before: Job,
    answer: MergeAnswer,
    turn: Turn,
    said: Said | null,
  ): Promise<void> {
    inHand.history.adopt(answer);
    // A place is an address that is sent back.
    this.conflicts = answer.conflicts.map((one) => ({ ...forScreen(one), place: one.place }));
    const same = sharing(before, bare(answer.job));
    // What is said of a conflict is a step of its own, also where the job showed that side before.
    const merged = turn === 'came' ? same : { ...same };
    if (merged !== before) {
      // States that are left as they are keep their log: it goes on.
      const book: LogBook = turn === 'came' ? { entries: [] } : this.#book;
      book.entries = merged.log;
      this.#inBook(merged, book);
      if (turn === 'came') this.#cameInto(before, merged, book);
      else this.#stepped(turn, merged, said);
      const to = (pointer: string) => carried(pointer, before, merged);
      typedTexts.carry(to);
      carryDrafts(to);
      route.carry((address) => pageCarried(address, to));
      const kept = this.#keep();
      this.#turnedTo(merged);
      this.#note({ instrument: 'file' });
      this.#wantOnce(kept);
      await kept;
    }
    await inHand.journal.snapshotAgain();
  }

  /** What came from another device is not taken back by undo; what was done here still is. */
  #cameInto(before: Job, merged: Job, book: LogBook): void {
    this.#saidOf(before, merged);
    this.#history?.turn(
      merged,
      (state) => this.#saidOf(state, this.#inBook(rebased(state, before, merged), book)),
      (a, b) =>
        changesBetween({ ...a, log: [] }, { ...b, log: [] }).length === 0 &&
        this.#said.get(a)?.by === this.#said.get(b)?.by,
    );
  }

  #stepped(turn: Exclude<Turn, 'came'>, job: Job, said: Said | null): void {
    if (turn === 'said') this.#history?.commit(job);
    else {
      const to = turn === 'taken_back' ? this.#history?.undo() : this.#history?.redo();
      if (to) this.#saidOf(to, job);
      this.#history?.amend(job);
    }
    if (said) this.#said.set(job, said);
  }

  /** The one state stands for the other now. */
  #saidOf(state: Job, other: Job): Job {
    const said = this.#said.get(state);
    if (said) this.#said.set(other, said);
    return other;
  }

  /** Where the open conflicts lie in a job. */
  #openPlaces(job: unknown): string[] {
    return this.conflicts.map(({ place }) => pointerOf(place, job));
  }

  /** What is still to be asked about in the job in hand. */
  async #lookForConflicts(): Promise<void> {
    const inHand = this.#inHand;
    if (!inHand?.history.begun || !this.job) return;
    await backend.whole();
    const present = this.#history?.present;
    const held = await inHand.history.held(present ?? this.job);
    const { conflicts } = await backend.call('open_conflicts', { held });
    // What came into the job meanwhile has told its conflicts itself, or is told of when it is looked at again.
    if (inHand === this.#inHand && present === this.#history?.present) this.conflicts = conflicts;
  }

  /** Opens a job of the shelf; the one before it stays there. */
  async openKept(id: string, { take = false, lacking = 'typed' }: HowOpened = {}): Promise<void> {
    await this.close();
    this.phase = 'opening';
    this.trouble = '';
    // What was said of a job that is in hand no more is of no concern.
    let journal: Journal | null = null;
    const told = (keeping: Keeping) => {
      if (!journal || this.#inHand?.journal === journal) this.#keptIs(keeping);
    };
    const lost = () => this.#lost(id);
    try {
      const opened = await shelf.open(id, take, told, lost);
      if (opened) {
        journal = opened.journal;
        this.#inHand = opened;
        this.trouble = opened.notice;
        void opened.refused.then((why) => (this.trouble ||= why));
        this.#turnedToAnother(id);
        const shown = new Promise<void>((then) => (this.#shown = then));
        this.#asked = shown.then(() => this.#lookForConflicts().catch(() => undefined));
        this.#open(opened.job, lacking);
        // One that was just made is on no other device yet.
        this.#keptThen();
      } else {
        this.elsewhere = shelf.card(id);
        this.phase = 'elsewhere';
      }
    } catch (error) {
      this.trouble = why(error);
      this.phase = 'welcome';
    }
  }

  /** Puts the job in hand back on the shelf. */
  async close(): Promise<void> {
    this.#shown();
    await this.#log.flush();
    const inHand = this.#inHand;
    if (inHand) {
      await inHand.journal.close();
      inHand.hold.letGo();
    }
    this.#inHand = null;
    this.#history = null;
    this.job = this.plan = this.map = this.profile = this.report = this.elsewhere = null;
    this.keeping = { state: 'kept' };
    if (this.phase === 'job' || this.phase === 'elsewhere') this.phase = 'welcome';
  }

  /** Keeps the job in hand as a version of its own, to be found under that time. */
  async keepVersion(): Promise<void> {
    await this.#inHand?.journal.snapshot();
  }

  /** Makes the job in hand what it was in an earlier version; one change, which undo takes back. */
  async bringBack(earlier: Job, from: string): Promise<void> {
    if (!this.job) return;
    await this.keepVersion();
    // The job goes back, its log does not.
    this.commit({ ...earlier, log: this.job.log }, { instrument: 'undone' });
    this.did = `The job is again as it was ${from}.`;
  }

  /** `by` says where new readings came from, where they were not typed. */
  commit(next: Job, by: By = {}): void {
    this.did = '';
    this.#history?.commit(this.#inBook(next, this.#book));
    // Kept first, shown second.
    const kept = this.#keep();
    void device.askToKeep();
    this.#turnedTo(next);
    this.#note(by);
    this.#wantOnce(kept);
  }

  /** Shows a job while a finger drags; `settle` makes the last one a change. */
  preview(next: Job): void {
    this.job = next;
    this.#want(false);
  }

  settle(): void {
    if (this.job !== null) this.commit(this.job, { instrument: 'map' });
  }

  /** Drops a preview. */
  cancelPreview(): void {
    if (this.#history) this.#turnedTo(this.#history.present);
    this.#want(true);
  }

  undo(): void {
    const said = this.#history && this.#said.get(this.#history.present);
    if (said) void this.#takeBack(said);
    else if (this.#history) this.#step(this.#history.undo());
  }

  redo(): void {
    const next = this.#history?.next;
    const said = next && this.#said.get(next);
    if (said) void this.#sayAgain(said);
    else if (this.#history) this.#step(this.#history.redo());
  }

  /** Lettering of the map in metres at its present scale; asks for the map again where it changed much. */
  setMapText(heightM: number): void {
    if (Math.abs(heightM / this.#mapTextM - 1) < 0.04) return;
    this.#mapTextM = heightM;
    if (this.job !== null) this.#want(true);
  }

  select(subject: Subject | null, ties = false): void {
    this.selected = subject;
    const wanted = ties ? subject : null;
    if (wanted === this.#ties) return;
    this.#ties = wanted;
    if (this.job !== null) this.#want(true);
  }

  async #openFrom(open: () => Promise<void>): Promise<void> {
    try {
      await open();
    } catch (error) {
      this.trouble = why(error);
    }
  }

  /** A demo that nobody worked on yet, and that no other window has. */
  async #untouchedDemo(demo: Job): Promise<string | null> {
    for (const card of shelf.jobs) {
      if (!(await shelf.isUntouched(card, demo))) continue;
      if (card.id === this.id) return card.id;
      const hold = await backend.store.hold(card.id, false, () => undefined);
      hold?.letGo();
      if (hold) return card.id;
    }
    return null;
  }

  /** What belongs to the job before does not belong to this one. */
  #turnedToAnother(id: string): void {
    sessionStorage.setItem(HERE, id);
    scopeTo(id);
    typedTexts.turn();
    closeDrafts();
    mapState.reset();
    this.did = '';
    this.came = '';
    this.conflicts = [];
    this.deletion = null;
    lettersAreFor(shelf.sharedId(id));
    this.selected = null;
    this.#ties = null;
    this.errors = [];
  }

  /** `lacking` says where readings came from that the job's log lacks. */
  #open(job: Job, lacking: Instrument): void {
    // What a job of an older version holds was read before there was a log.
    const book: LogBook = { entries: job.log ?? [] };
    const opened = this.#inBook(job, book);
    this.#history = new History(opened);
    this.#turnedTo(opened);
    this.#note({ instrument: book.entries.length === 0 ? 'before_log' : lacking });
    void this.#log.flush();
    this.#want(true);
    this.phase = 'job';
  }

  #step(before: Job): void {
    // The job goes back, its log does not.
    const book = this.#books.get(before) ?? { entries: before.log };
    const job = this.#saidOf(before, this.#inBook({ ...before, log: book.entries }, book));
    this.#history?.amend(job);
    const kept = this.#keep();
    this.#turnedTo(job);
    this.did = '';
    this.#note({ instrument: 'undone' });
    this.#wantOnce(kept);
  }

  get #book(): LogBook {
    const present = this.#history?.present;
    return (present && this.#books.get(present)) ?? { entries: this.job?.log ?? [] };
  }

  #inBook(job: Job, book: LogBook): Job {
    this.#books.set(job, book);
    return job;
  }

  #note(by: By): void {
    if (this.job !== null) this.#log.note(this.#book, this.job, by);
    if (by.captures?.length) void this.#log.flush();
  }

  /** New entries of a log: they join the job that it belongs to, if that is still the one in hand. */
  #logged(book: LogBook, { entries, survey_date }: LogAnswer): void {
    const present = this.#history?.present;
    if (!this.job || !present || this.#book !== book) return;
    if (entries.length > 0) {
      const dragged = this.job !== present;
      const amended = this.#saidOf(present, this.#inBook({ ...present, log: book.entries }, book));
      this.#history?.amend(amended);
      void this.#keep();
      this.job = dragged ? { ...this.job, log: book.entries } : amended;
    }
    if (survey_date && this.job.yard.surveyed_at === null) {
      this.commit(withValue(this.job, jobAt('/yard/surveyed_at'), survey_date.surveyed_at));
      this.did = `Date of the survey set to now, ${survey_date.says}: a compass reading needs it.`;
    }
  }

  #turnedTo(job: Job): void {
    this.job = job;
    this.canUndo = this.#history?.canUndo ?? false;
    this.canRedo = this.#history?.canRedo ?? false;
  }

  /** Makes the change durable: against the page's going away before this returns, against the program's end once the
   * promise says so. */
  #keep(): Promise<boolean> {
    const [inHand, job] = [this.#inHand, this.#history?.present];
    if (!inHand || !job) return Promise.resolve(false);
    const kept = inHand.journal.write(job);
    if (job.name !== inHand.card.name) {
      inHand.card = { ...inHand.card, name: job.name, changed_at: Date.now() };
      void kept.then(() => shelf.putCard(inHand.card)).catch(() => undefined);
    }
    return kept;
  }

  /** What is reckoned from a change is shown once the change is kept, or once that was told to have failed. */
  #wantOnce(kept: Promise<unknown>): void {
    void kept.then(() => this.#want(true));
  }

  #keptIs(keeping: Keeping): void {
    this.keeping = keeping;
    if (keeping.state === 'kept') this.#keptThen();
    if (keeping.state === 'lost') this.#lost(this.id);
  }

  /** Another window has the job now: nothing more is written here, and what stands here can be kept as a copy. */
  #lost(id: string | null): void {
    const inHand = this.#inHand;
    if (!inHand || inHand.card.id !== id) return;
    inHand.journal.stop();
    inHand.hold.letGo();
    this.#inHand = null;
    this.elsewhere = inHand.card;
    this.phase = 'elsewhere';
  }

  #leaving(): void {
    void this.#log.flush();
    void this.#inHand?.journal.snapshot();
  }

  #want(whole: boolean): void {
    if (this.job === null) return;
    this.#plans.want({
      job: this.job,
      map: { text_m: this.#mapTextM, static_kept: this.#static?.name ?? null, ties_for: this.#ties },
      // The map comes first, its words after it; and nothing can be moved before there is a plan. What waited here
      // for the whole engine to be loaded would hold up the finger.
      extent: this.plan === null || (whole && !this.#whole) ? 'first' : whole ? 'whole' : 'moving',
    });
  }

  /** Asks for the words of what was shown first. */
  async #wantWords(): Promise<void> {
    try {
      if (!this.#whole) await backend.whole();
      this.#whole = true;
      this.#want(true);
    } catch (error) {
      this.#refused(error);
    }
  }

  #answered(answer: Planned): void {
    this.#shown();
    this.errors = [];
    this.plan = 'plan' in answer ? answer.plan : this.#movedPlan(answer);
    this.frontFoot = answer.front_foot;
    this.verdictSays = answer.verdict_says;
    if (answer.map) this.map = this.#joined(answer.map, answer.map_static, 'plan' in answer);
    if ('plan' in answer && !('report' in answer)) void this.#wantWords();
    if ('report' in answer && answer.report) {
      this.profile = answer.profile;
      this.report = answer.report;
      this.shownTexts = answer.shown;
      typedTexts.forgetAccepted();
      this.#foresight.later();
    }
  }

  /** While a finger drags, all but what the map shows stays as it was before. */
  #movedPlan({ mast, contour, verdict }: PlaceAnswer): Plan | null {
    const { plan } = this;
    return plan && { ...plan, mast, base: { ...plan.base, contour }, verdict };
  }

  /** A map with its static shapes: those that came with it, or the kept ones that it was sent without. While a finger
   * drags nobody is read to: the description in words waits until it rests. */
  #joined(map: Scene, name: string, rests: boolean): Scene {
    const description = rests ? map.description : (this.map?.description ?? map.description);
    if (this.#static?.name === name)
      return { ...map, description, shapes: [...this.#static.shapes, ...map.shapes] };
    this.#static = { name, shapes: map.shapes.slice(0, map.static_count) };
    return { ...map, description };
  }

  #refused(error: unknown): void {
    this.#shown();
    if (error instanceof Refused) this.errors = error.errors;
    else this.trouble = why(error);
  }
}

/** A place with an open conflict as a JSON pointer: an item of a list stands in it by its id. */
function pointerOf(place: string, job: unknown): string {
  let found = '';
  for (const step of place.split('/').slice(1)) {
    const items = step.startsWith('@') ? valueAt(job, given<unknown[]>(found)) : undefined;
    const [id] = tokens(`/${step.slice(1)}`);
    const at = items?.findIndex((item) => keyOf(item) === id) ?? -1;
    found += `/${at < 0 ? step : at}`;
  }
  return found;
}

export const app = new App();
