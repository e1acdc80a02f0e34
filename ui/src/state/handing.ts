import { backend } from '../backend';
import type { Job } from '../backend/model';
import { app } from './app.svelte';
import { packed } from './link';

/** The job in hand with its history, so that the device that gets it can bring both states together. */
export async function handedJob(): Promise<Job | null> {
  const held = await app.handOver();
  return held ? { ...held.job, mastwright_history: held.history } : app.job;
}

/** The document of a job without the blanks that are there for people. */
export async function shortDocument(job: Job): Promise<string> {
  const { text } = await backend.call('job_text', { job });
  return JSON.stringify(JSON.parse(text));
}

/** The address of this page with a whole document behind its `#`, which no server is told of. */
export async function linkOf(document: string): Promise<string> {
  return new URL(`#/take/${await packed(document)}`, location.href.replace(/#.*/, '')).href;
}

/** The same text read off another device's screen; null for any other text. */
export const takenFrom = (text: string): string | null => /#\/take\/([\w-]+)$/.exec(text)?.[1] ?? null;
