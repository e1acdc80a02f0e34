import type { Job } from '../backend/model';
import { app } from './app.svelte';
import { Followed } from './followed.svelte';

/** Left alone for so long, the job is asked about again. */
const REST_MS = 60;

/** An answer about the job in hand that follows it: asked again once what it hangs on has changed. */
export class FollowedJob<A> {
  readonly #followed: Followed<Job, A>;
  #of: string | null = null;

  /** `ask` gets the job without its log, which no such answer needs; `hangsOn` names what the answer follows from. */
  constructor(
    ask: (job: Job) => Promise<A>,
    private readonly hangsOn: (job: Job) => readonly unknown[],
    restMs = REST_MS,
  ) {
    this.#followed = new Followed((job) => ask({ ...job, log: [] }), restMs);
  }

  get answer(): A | null {
    return this.#followed.answer;
  }

  get problem(): string {
    return this.#followed.problem;
  }

  /** Whether the answer is that of the job as it was. */
  get stale(): boolean {
    return this.#followed.stale;
  }

  /** Call it from an effect. */
  follow(): void {
    const { job, id } = app;
    if (!job) return;
    // What was said of another job is of no concern.
    if (this.#of !== id) this.#followed.clear();
    this.#of = id;
    this.#followed.want(this.hangsOn(job), job);
  }
}
