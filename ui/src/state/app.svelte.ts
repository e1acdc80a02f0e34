import { backend, Refused } from '../backend';
import type {
  FieldError,
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
import { mapState } from './map-view.svelte';
import { Newest, onFrame } from './newest';
import { Saver } from './saver';
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
  selected = $state.raw<Subject | null>(null);
  canUndo = $state(false);
  canRedo = $state(false);

  #history: History<Job> | null = null;
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
    try {
      const text = await backend.load();
      this.trouble = (await backend.notice()) ?? '';
      if (text !== null) this.#open(JSON.parse(text) as Job);
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
    mapState.reset();
    this.selected = null;
    this.#ties = null;
    this.plan = this.map = this.profile = this.report = null;
    this.#open(job);
    this.#keep();
  }

  commit(next: Job): void {
    this.#history?.commit(next);
    this.#turnedTo(next);
    this.#keep();
    this.#want(true);
  }

  /** Shows a job while a finger drags; `settle` makes the last one a change. */
  preview(next: Job): void {
    this.job = next;
    this.#want(false);
  }

  settle(): void {
    if (this.job !== null) this.commit(this.job);
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

  #open(job: Job): void {
    if (this.#history) this.#history.commit(job);
    else this.#history = new History(job);
    this.#turnedTo(job);
    this.phase = 'job';
    this.#want(true);
  }

  #step(job: Job): void {
    this.#turnedTo(job);
    this.#keep();
    this.#want(true);
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
      job: this.job,
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
