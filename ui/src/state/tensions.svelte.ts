import { backend } from '../backend';
import type { Job, TensionGuyText, TensionReading, Tensions, TensionsAnswer } from '../backend/model';
import { app } from './app.svelte';
import { FollowedJob } from './followed-job.svelte';

/** How tight the guys were found; nothing in a job from before there was such a thing. */
export function tensionsOf(job: Job | null): Tensions {
  const none: Tensions = { readings: [], turn_mm: null };
  return { ...none, ...(job?.tensions as Partial<Tensions> | undefined) };
}

/** How tight all guys were found, as the job stands. */
class TensionsState extends FollowedJob<TensionsAnswer> {
  constructor() {
    super(
      (job) => backend.call('tensions', { job }),
      ({ yard, rig, placement, as_built, tensions, units }) => [
        yard,
        rig,
        placement,
        as_built,
        tensions,
        units,
      ],
    );
  }

  of(guy: string): TensionGuyText | undefined {
    return this.answer?.report.levels.flatMap((level) => level.guys).find((one) => one.guy_id === guy);
  }

  keep(reading: TensionReading): void {
    const { job } = app;
    if (!job) return;
    const before = tensionsOf(job);
    app.commit({ ...job, tensions: { ...before, readings: [...before.readings, reading] } });
  }
}

export const tensions = new TensionsState();
