import type { Backend } from '../backend/backend';
import type { HeldJob, History, Job, MergeAnswer } from '../backend/model';

/** A job without its history: what the screens edit and the journal's edits are made of. */
export function bare(job: Job): Job {
  if (!('mastwright_history' in job)) return job;
  const { mastwright_history: _, ...rest } = job;
  return rest;
}

/**
 * Who wrote what in one job. There is none before the job is first handed to another device. From then on every version
 * of the job is kept with it: so it is always as old as a version, and what the journal's edits changed since is noted
 * when the next version is written.
 */
export class JobHistory {
  /** The job that `#history` is of. */
  #of: Job;
  #history: History | null;

  constructor(
    private readonly device: string,
    private readonly name: string,
    of: Job,
    history: History | null,
    private readonly ask: Pick<Backend, 'call'>,
  ) {
    this.#of = bare(of);
    this.#history = history;
  }

  /** Whether the job was handed to another device, or came from one. */
  get begun(): boolean {
    return this.#history !== null;
  }

  /** The job with its history up to it; from now on there is one. */
  async held(job: Job, deviceName = ''): Promise<HeldJob> {
    const request = {
      job: this.name,
      history: this.#history,
      before: this.#of,
      after: bare(job),
      by: this.now(),
    };
    const was = this.#history;
    const { history } = await this.ask.call('note_history', request);
    const names = history.names.filter(({ device }) => device !== this.device);
    const own = deviceName || history.names.find(({ device }) => device === this.device)?.name;
    if (own) names.push({ device: this.device, name: own });
    names.sort((a, b) => (a.device < b.device ? -1 : 1));
    const held = { job: request.after, history: { ...history, names } };
    // A merge that came meanwhile stands: it knows of what others wrote, and this does not.
    if (this.#history === was) [this.#of, this.#history] = [held.job, held.history];
    return held;
  }

  /** A version's text. Where the history can't be brought up the job alone is kept, and asks where it differs. */
  async textOf(job: Job): Promise<string> {
    if (!this.begun) return JSON.stringify(job, null, 2);
    const { history } = await this.held(job);
    return JSON.stringify({ ...bare(job), mastwright_history: history }, null, 2);
  }

  /** The job is now what came of a merge. */
  adopt({ job, history }: Pick<MergeAnswer, 'job' | 'history'>): void {
    this.#of = bare(job);
    this.#history = history;
  }

  now(): { device: string; at_ms: number } {
    return { device: this.device, at_ms: Date.now() };
  }
}
