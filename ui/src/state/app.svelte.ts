import { backend, Refused } from '../backend';
import type {
  FieldError,
  Instrument,
  Job,
  Plan,
  PlanAnswer,
  PlanRequest,
  Report,
  Scene,
  SceneShape,
  Subject,
  Units,
} from '../backend/model';
import { History } from './history';
import { kept } from './kept';
import { mapState } from './map-view.svelte';
import { Newest, onFrame } from './newest';
import { Saver } from './saver';
import { SurveyLog, type By, type LogAnswer, type LogBook } from './survey-log';
import { withValue } from './pointer';
import { typedTexts } from './typed.svelte';

type Phase = 'opening' | 'welcome' | 'job';

/** The job with its history, and what the engine says of it. Components read this and call its methods. */
class App {
  phase = $state<Phase>('opening');
  job = $state.raw<Job | null>(null);
  plan = $state.raw<Plan | null>(null);
  map = $state.raw<Scene | null>(null);
  profile = $state.raw<Scene | null>(null);
  report = $state.raw<Report | null>(null);
  frontFoot = $state('');
  shownTexts = $state.raw<Record<string, string | undefined>>({});
  /** Why there is no plan of the job as it stands; the results shown are then those from before. */
  errors = $state.raw<FieldError[]>([]);
  /** Something that went wrong outside the job: a save, the engine itself. */
  trouble = $state('');
  /** Something that was done without being asked, and can be undone. */
  did = $state('');
  selected = $state.raw<Subject | null>(null);
  canUndo = $state(false);
  canRedo = $state(false);

  #history: History<Job> | null = null;
  /** Whose log goes on: undo may bring back a job that was opened before this one. */
  #books = new WeakMap<Job, LogBook>();
  #log = new SurveyLog(
    (request) => backend.call('log_readings', request),
    () => kept<string>('who') ?? '',
    (book, answer) => this.#logged(book, answer),
  );
  #mapTextM = 0.5;
  #ties: Subject | null = null;
  /** What of the map does not move with the mast, under its name. */
  #still: { name: string; shapes: SceneShape[] } | null = null;
  #saver = new Saver(
    (text) => backend.save(text),
    (error) => (this.trouble = `The job could not be saved: ${said(error)}`),
    () => undefined,
  );
  #plans = new Newest<PlanRequest, PlanAnswer>(
    (request) => backend.call('plan', request),
    (answer) => this.#answered(answer),
    (error) => this.#refused(error),
    onFrame,
  );

  get units(): Units {
    return this.job?.units ?? { system: 'metric', inch_fraction: 16 };
  }

  async start(): Promise<void> {
    this.#saver.watchLeaving();
    addEventListener('pagehide', () => void this.#log.flush());
    try {
      const text = await backend.load();
      this.trouble = (await backend.notice()) ?? '';
      // What the log lacks of the job that was saved here was entered just before the app was left.
      if (text !== null) this.#open(JSON.parse(text) as Job, 'typed');
    } catch (error) {
      this.trouble = `The saved job could not be read: ${said(error)}`;
    }
    if (this.job === null) this.phase = 'welcome';
  }

  async openDemo(): Promise<void> {
    await this.#openFrom(backend.call('demo', {}));
  }

  async openBlank(units: Units): Promise<void> {
    await this.#openFrom(backend.call('blank', { units }));
  }

  /** Opens another job; the one before it stays in the history, so that undo brings it back. */
  openJob(job: Job): void {
    typedTexts.clear();
    this.did = '';
    mapState.reset();
    this.selected = null;
    this.#ties = null;
    this.plan = this.map = this.profile = this.report = null;
    this.#open(job, 'file');
    this.#keep();
  }

  /** `by` says where new readings came from, where they were not typed. */
  commit(next: Job, by: By = {}): void {
    this.did = '';
    this.#history?.commit(this.#inBook(next, this.#book));
    this.#turnedTo(next);
    this.#note(by);
    this.#keep();
    this.#want(true);
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
    if (this.#history) this.#step(this.#history.undo());
  }

  redo(): void {
    if (this.#history) this.#step(this.#history.redo());
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

  async #openFrom(coming: Promise<Job>): Promise<void> {
    try {
      this.openJob(await coming);
    } catch (error) {
      this.trouble = said(error);
    }
  }

  /** `lacking` says where readings came from that the job's log lacks. */
  #open(job: Job, lacking: Instrument): void {
    // What a job of an older version holds was read before there was a log.
    const book: LogBook = { entries: job.log ?? [] };
    const opened = this.#inBook(job, book);
    if (this.#history) this.#history.commit(opened);
    else this.#history = new History(opened);
    this.#turnedTo(opened);
    this.#note({ instrument: book.entries.length === 0 ? 'before_log' : lacking });
    void this.#log.flush();
    this.phase = 'job';
    this.#want(true);
  }

  #step(before: Job): void {
    // The job goes back, its log does not.
    const book = this.#books.get(before) ?? { entries: before.log };
    const job = this.#inBook({ ...before, log: book.entries }, book);
    this.#history?.amend(job);
    this.#turnedTo(job);
    this.did = '';
    this.#note({ instrument: 'undone' });
    this.#keep();
    this.#want(true);
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
      const amended = this.#inBook({ ...present, log: book.entries }, book);
      this.#history?.amend(amended);
      this.job = dragged ? { ...this.job, log: book.entries } : amended;
      this.#keep();
    }
    if (survey_date && this.job.yard.surveyed_at === null) {
      this.commit(withValue(this.job, '/yard/surveyed_at', survey_date.surveyed_at));
      this.did = `Date of the survey set to now, ${survey_date.says}: a compass reading needs it.`;
    }
  }

  #turnedTo(job: Job): void {
    this.job = job;
    this.canUndo = this.#history?.canUndo ?? false;
    this.canRedo = this.#history?.canRedo ?? false;
  }

  #keep(): void {
    if (this.job !== null) this.#saver.keep(JSON.stringify(this.job, null, 2));
  }

  #want(whole: boolean): void {
    if (this.job === null) return;
    this.#plans.want({
      // A plan needs no log, which may be long.
      job: { ...this.job, log: [] },
      map_text_m: this.#mapTextM,
      still_kept: this.#still?.name ?? null,
      ties_for: this.#ties,
      profile: whole,
      report: whole,
    });
  }

  #answered(answer: PlanAnswer): void {
    this.errors = [];
    // While a finger drags, the lists of points and pegs stay as they were before.
    this.plan =
      answer.report || !this.plan
        ? answer.plan
        : { ...answer.plan, points: this.plan.points, pegs: this.plan.pegs };
    this.frontFoot = answer.front_foot;
    if (answer.map) this.map = this.#joined(answer.map, answer.map_still);
    if (answer.profile) this.profile = answer.profile;
    if (answer.report) {
      this.report = answer.report;
      this.shownTexts = answer.shown;
      typedTexts.forgetAccepted();
    }
  }

  /** A map with its still shapes: those that came with it, or the kept ones that it was sent without. */
  #joined(map: Scene, name: string): Scene {
    if (this.#still?.name === name) return { ...map, shapes: [...this.#still.shapes, ...map.shapes] };
    this.#still = { name, shapes: map.shapes.slice(0, map.still) };
    return map;
  }

  #refused(error: unknown): void {
    if (error instanceof Refused) this.errors = error.errors;
    else this.trouble = said(error);
  }
}

function said(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

export const app = new App();
