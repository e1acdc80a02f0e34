import type { Job, Workshop } from '../backend/model';
import { app } from './app.svelte';

/** What was made; nothing in a job from before there was such a thing. */
export function workshop(job: Job | null): Workshop {
  return { done: [], made: [], ...(job?.workshop as Partial<Workshop> | undefined) };
}

/** Whether a part is ticked off. */
export function isMade(part: string): boolean {
  return workshop(app.job).done.some((done) => done.part === part);
}

/** Ticks a part off, or takes that back. */
export function tick(part: string, on: boolean): void {
  const { job } = app;
  if (!job) return;
  const before = workshop(job);
  const rest = before.done.filter((done) => done.part !== part);
  app.commit({ ...job, workshop: { ...before, done: on ? [...rest, { part }] : rest } });
}
