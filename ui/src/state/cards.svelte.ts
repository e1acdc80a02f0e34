import { backend } from '../backend';
import type { CardPhaseText, CardsAnswer, CardWork, Job, StepCardText, WaysLooked } from '../backend/model';
import { app } from './app.svelte';
import { FollowedJob } from './followed-job.svelte';
import { raiseWays } from './raise-ways.svelte';

/** What was done of the cards; nothing in a job from before there was such a thing. */
export function cardWork(job: Job | null): CardWork {
  const none: CardWork = {
    done: [],
    bare_tube_first: false,
    lifters: null,
    forecast_gust_m_per_s: null,
    forecast_in_minutes: null,
    comes_down: false,
    lower_rehearsed: { minutes: null, people: null },
    lay_down_rehearsed: { minutes: null, people: null },
  };
  return { ...none, ...(job?.cards as Partial<CardWork> | undefined) };
}

/** What was found all round, as long as it is of this job. */
const looked = (): WaysLooked => (raiseWays.stale ? null : raiseWays.answer?.looked) ?? { looked: 'not_yet' };

/** The step cards of the day, as the job stands. */
class CardsState extends FollowedJob<CardsAnswer> {
  constructor() {
    super(
      (job) => backend.call('cards', { job, looked: looked() }),
      ({ yard, rig, placement, raising, as_built, workshop, cards, lights, wind, units }) => [
        yard,
        rig,
        placement,
        raising,
        as_built,
        workshop,
        cards,
        lights,
        wind,
        units,
        raiseWays.answer,
        raiseWays.stale,
      ],
    );
  }

  get cards(): StepCardText[] {
    return this.answer?.report.cards ?? [];
  }

  get phases(): CardPhaseText[] {
    return this.answer?.report.phases ?? [];
  }

  of(key: string): StepCardText | undefined {
    return this.cards.find((card) => card.key === key);
  }

  /** Cards that may come now, but for one. */
  others(key: string): StepCardText[] {
    const may = this.answer?.report.may_come ?? [];
    return may.filter((one) => one !== key).flatMap((one) => this.of(one) ?? []);
  }

  /** Ticks a card off that may come. */
  done(key: string): void {
    const card = this.of(key);
    if (card?.standing !== 'may_come' || this.stale) return;
    this.#keep((before) => [...before.filter((done) => done.card !== key), { card: key }]);
  }

  /** Takes a tick back, and with it those that rested on it. */
  takeBack(key: string): void {
    const left = this.of(key)?.left_without;
    if (!left || this.stale) return;
    // What is ticked off and rests on nothing stays as it is: nobody took it back.
    const gone = this.cards.filter((card) => card.standing === 'done' && !left.includes(card.key));
    this.#keep((before) => before.filter((done) => gone.every((card) => card.key !== done.card)));
  }

  /** How many cards rest on one, and are open again with it. */
  restOn(key: string): number {
    const left = this.of(key)?.left_without ?? [];
    return Math.max(0, this.cards.filter((card) => card.standing === 'done').length - left.length - 1);
  }

  #keep(change: (before: CardWork['done']) => CardWork['done']): void {
    const { job } = app;
    if (!job) return;
    const before = cardWork(job);
    app.commit({ ...job, cards: { ...before, done: change(before.done) } });
  }

  /** It stands, and comes down; or goes up again. What was ticked off stays. */
  comesDown(on: boolean): void {
    const { job } = app;
    if (job) app.commit({ ...job, cards: { ...cardWork(job), comes_down: on } });
  }

  bareTubeFirst(on: boolean): void {
    const { job } = app;
    if (job) app.commit({ ...job, cards: { ...cardWork(job), bare_tube_first: on } });
  }
}

export const dayCards = new CardsState();
