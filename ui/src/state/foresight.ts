import { backend } from '../backend';
import type { MapWish } from '../backend/model';
import { whenIdle } from './idle';
import { bare } from './job-history';
import { firstRequest } from './planner';
import { shelf } from './shelf.svelte';

/** Lettering of a first map in metres, before it is known how large it stands on the screen: that of the demo on a small phone,
 * so that its labels stay where they are. The build asks with the same (`src-tauri/xtask/first_answers.mjs`). */
export const FIRST_TEXT_M = 0.65;

/** The map that is asked for first. */
const FIRST_MAP: MapWish = { text_m: FIRST_TEXT_M, static_kept: null, ties_for: null };

/** After this long without anything new. A job at rest is kept whole by then (`journal.ts`). */
const REST_MS = 3000;
const TRIES = 3;

/** The job in hand as it lies in the store. */
interface Resting {
  id: string;
  /** The last edit. */
  n: number;
}

/** Sees to it, while nobody is doing anything, that the next start shows this job before the engine is there. */
export class Foresight {
  #timer: ReturnType<typeof setTimeout> | undefined;
  #done = '';

  /** `resting` tells the job in hand; none while it is not all kept, or something is being entered. */
  constructor(private readonly resting: () => Resting | null) {}

  later(tries = TRIES): void {
    clearTimeout(this.#timer);
    if (!backend.foresee || tries === 0) return;
    const look = () => void this.#look(tries).catch(() => undefined); // Without it the next start is slower, no more.
    this.#timer = setTimeout(() => whenIdle(look), REST_MS);
  }

  async #look(tries: number): Promise<void> {
    const resting = this.resting();
    if (!resting) return this.later(tries - 1);
    const name = `${resting.id} ${resting.n}`;
    const text = name === this.#done ? null : await shelf.textToOpen(resting.id, resting.n);
    if (text === null) return;
    // In the words in which `Shelf` and `App` ask when a job is opened.
    await backend.foresee?.(async (ask) => {
      const { job } = await ask('read_kept', { text });
      if (job) await ask('first_plan', firstRequest(bare(job), FIRST_MAP));
    });
    this.#done = name;
  }
}
