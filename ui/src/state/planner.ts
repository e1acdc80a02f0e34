import { Refused, type Answer, type Backend } from '../backend/backend';
import type { Job, MapWish } from '../backend/model';

/** What the screens want of the engine: a plan of a job with its map. */
export interface PlanWish {
  job: Job;
  map: MapWish;
  /** With report, profile and all tables, or as quick as a finger drags. */
  whole: boolean;
}

type Call = Backend['call'];

/** Asks for plans. While a finger drags, the engine has the job in hand and is told where the mast is, no more. */
export class Planner {
  /** The job that the engine has in hand, but for its placement. */
  #held: { name: string; job: Job } | null = null;
  #last = 0;

  constructor(private readonly call: Call) {}

  ask(wish: PlanWish): Promise<Answer<'plan'> | Answer<'place'>> {
    return wish.whole ? this.#whole(wish) : this.#placed(wish);
  }

  #whole({ job, map }: PlanWish): Promise<Answer<'plan'>> {
    return this.call('plan', { job: withoutLog(job), map, profile: true, report: true });
  }

  async #placed(wish: PlanWish): Promise<Answer<'place'>> {
    const known = this.#held && sameButPlacement(this.#held.job, wish.job) ? this.#held : null;
    try {
      return await this.#place(wish, (known ?? (await this.#hold(wish.job))).name);
    } catch (error) {
      // An engine that was started again has nothing in hand.
      if (!known || !(error instanceof Refused) || error.errors[0]?.path !== '/held') throw error;
      return this.#place(wish, (await this.#hold(wish.job)).name);
    }
  }

  #place({ job, map }: PlanWish, held: string): Promise<Answer<'place'>> {
    return this.call('place', { held, placement: job.placement, map });
  }

  async #hold(job: Job): Promise<{ name: string; job: Job }> {
    this.#held = null;
    this.#last += 1;
    const name = String(this.#last);
    await this.call('hold_job', { job: withoutLog(job), name });
    this.#held = { name, job };
    return this.#held;
  }
}

/** A plan needs no log, which may be long. */
const withoutLog = (job: Job): Job => ({ ...job, log: [] });

/** Jobs are never changed, only replaced along the way to what changed: what did not is the same object. */
function sameButPlacement(a: Job, b: Job): boolean {
  const names = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Job>;
  return [...names].every((name) => name === 'placement' || name === 'log' || a[name] === b[name]);
}
