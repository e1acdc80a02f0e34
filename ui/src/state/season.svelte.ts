import { backend } from '../backend';
import type {
  Job,
  LookFound,
  RoundCause,
  RoundLean,
  Season,
  SeasonAnswer,
  SeasonLesson,
  SeasonRound,
} from '../backend/model';
import { app } from './app.svelte';
import { FollowedJob } from './followed-job.svelte';
import { freeId } from './ids';
import { kept } from './kept';
import { withZone } from './survey-log';

/** The season's diary; nothing in a job from before there was such a thing. */
export function seasonOf(job: Job | null): Season {
  const none: Season = { every_days: null, rounds: [], packed: [], lessons: [] };
  return { ...none, ...(job?.season as Partial<Season> | undefined) };
}

/** Notes for the next time, the newest last. */
export const lessonsOf = (job: Job | null): SeasonLesson[] => seasonOf(job).lessons;

/** The diary as the job stands. */
class SeasonState extends FollowedJob<SeasonAnswer> {
  constructor() {
    super(
      (job) => backend.call('season', { job, now: withZone(new Date()) }),
      ({ yard, rig, placement, as_built, tensions, season, units }) => [
        yard,
        rig,
        placement,
        as_built,
        tensions,
        season,
        units,
      ],
    );
  }

  /** Begins a round now and answers with its id: it is in the job before anything is looked at. */
  begin(cause: RoundCause, lean: RoundLean | null = null): string {
    const { job } = app;
    if (!job) return '';
    const before = seasonOf(job);
    const round: SeasonRound = {
      id: freeId(before.rounds, 'round'),
      taken_at: withZone(new Date()),
      who: kept<string>('who') ?? '',
      cause,
      looked: [],
      lean,
      note: '',
    };
    // What is stood up again is not packed any more.
    const packed = cause.kind === 'stood_up' ? [] : before.packed;
    app.commit({ ...job, season: { ...before, packed, rounds: [...before.rounds, round] } });
    return round.id;
  }

  /** How a thing was found on a round; null: nobody looked at it. */
  found(round: SeasonRound, item: string, name: string, found: LookFound | null): void {
    const rest = round.looked.filter((looked) => looked.item !== item);
    this.put({ ...round, looked: found ? [...rest, { item, name, found }] : rest });
  }

  put(round: SeasonRound): void {
    const { job } = app;
    if (!job) return;
    const before = seasonOf(job);
    const rounds = before.rounds.map((one) => (one.id === round.id ? round : one));
    app.commit({ ...job, season: { ...before, rounds } });
  }

  drop(id: string): void {
    const { job } = app;
    if (!job) return;
    const before = seasonOf(job);
    app.commit({ ...job, season: { ...before, rounds: before.rounds.filter((one) => one.id !== id) } });
  }

  /** Ticks something of the packing list off, or takes that back. */
  pack(part: string, on: boolean): void {
    const rest = seasonOf(app.job).packed.filter((packed) => packed.part !== part);
    this.#change({ packed: on ? [...rest, { part }] : rest });
  }

  unpack(): void {
    this.#change({ packed: [] });
  }

  /** Keeps a note for the next time, where it belongs. */
  learn(card: string, text: string): void {
    const { lessons } = seasonOf(app.job);
    const lesson = { id: freeId(lessons, 'lesson'), card, text, noted_at: withZone(new Date()) };
    this.#change({ lessons: [...lessons, lesson] });
  }

  forget(id: string): void {
    this.#change({ lessons: lessonsOf(app.job).filter((lesson) => lesson.id !== id) });
  }

  #change(change: Partial<Season>): void {
    const { job } = app;
    if (job) app.commit({ ...job, season: { ...seasonOf(job), ...change } });
  }

  /** Writes a lean into today's round; into a usual one of its own where there is none. */
  keepLean(lean: RoundLean): string {
    const today = withZone(new Date()).slice(0, 10);
    const rounds = seasonOf(app.job).rounds;
    const last = rounds.findLast((round) => round.taken_at.startsWith(today));
    if (!last || last.cause.kind === 'taken_down') return this.begin({ kind: 'routine' }, lean);
    this.put({ ...last, lean });
    return last.id;
  }
}

export const season = new SeasonState();
