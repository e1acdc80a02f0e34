import { Refused, type Answer, type Backend } from '../backend/backend';
import type { Job, MapWish } from '../backend/model';

/** What the screens want of the engine: a plan of a job with its map. */
export interface PlanWish {
  job: Job;
  map: MapWish;
  /** What is shown first, before its words; all of it, with report and profile; or as quick as a finger drags. */
  extent: 'first' | 'whole' | 'moving';
}

export type Planned = Answer<'first_plan'> | Answer<'plan'> | Answer<'place'>;

type Call = Backend['call'];

/** A job that was handed over under a name. */
interface Held {
  name: string;
  job: Job;
  /** Settled once the engine has it, or has refused it. */
  over: Promise<unknown>;
}

/** Asks for plans. While a finger drags, the engine has the job in hand and is told where the mast is, no more. */
export class Planner {
  /** The job that the engine has in hand, but for its placement. */
  #held: Held | null = null;
  #last = 0;

  constructor(private readonly call: Call) {}

  ask(wish: PlanWish): Promise<Planned> {
    if (wish.extent === 'moving') return this.#placed(wish);
    return wish.extent === 'first' ? this.#first(wish) : this.#whole(wish);
  }

  #first({ job, map }: PlanWish): Promise<Answer<'first_plan'>> {
    return this.call('first_plan', firstRequest(job, map));
  }

  #whole({ job, map }: PlanWish): Promise<Answer<'plan'>> {
    return this.call('plan', { job: withoutLog(job), map, profile: true, report: true });
  }

  async #placed(wish: PlanWish): Promise<Answer<'place'>> {
    const known = this.#heldFor(wish.job);
    try {
      return await this.#place(wish, known ?? this.#hold(wish.job));
    } catch (error) {
      // An engine that was started again has nothing in hand.
      if (!known || !(error instanceof Refused) || error.errors[0]?.path !== '/held') throw error;
      // Two questions may have found that out: the job is handed over once.
      const since = this.#heldFor(wish.job);
      return this.#place(wish, since && since !== known ? since : this.#hold(wish.job));
    }
  }

  #heldFor(job: Job): Held | null {
    return this.#held && sameButPlacement(this.#held.job, job) ? this.#held : null;
  }

  async #place({ job, map }: PlanWish, held: Held): Promise<Answer<'place'>> {
    await held.over;
    return this.call('place', { held: held.name, placement: job.placement, map });
  }

  #hold(job: Job): Held {
    this.#last += 1;
    const name = String(this.#last);
    const held: Held = { name, job, over: this.call('hold_job', { job: withoutLog(job), name }) };
    this.#held = held;
    held.over.catch(() => {
      if (this.#held === held) this.#held = null;
    });
    return held;
  }
}

/** What is asked when a job is opened. */
export const firstRequest = (job: Job, map: MapWish) => ({ job: withoutLog(job), map });

/** A plan needs no log, which may be long. */
const withoutLog = (job: Job): Job => ({ ...job, log: [] });

/** Jobs are never changed, only replaced along the way to what changed: what did not is the same object. */
function sameButPlacement(a: Job, b: Job): boolean {
  const names = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Job>;
  return [...names].every((name) => name === 'placement' || name === 'log' || a[name] === b[name]);
}
