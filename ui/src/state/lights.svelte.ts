import { backend } from '../backend';
import type { Job, LightLead, Lights, LightsAnswer, StrandLabel } from '../backend/model';
import { app } from './app.svelte';
import { FollowedJob } from './followed-job.svelte';

interface Held {
  strand: Partial<StrandLabel>;
  circuit: Partial<Lights['circuit']>;
  lead: Partial<LightLead>;
  tested: Lights['tested'];
}

/** What is known of the lights' current; nothing in a job from before there was such a thing. */
export function lightsOf(job: Job | null): Held {
  const none: Held = { strand: {}, circuit: {}, lead: {}, tested: [] };
  return { ...none, ...(job?.lights as Partial<Lights> | undefined) };
}

/** Labels added up, the lead on the map, every strand by its number. */
class LightsState extends FollowedJob<LightsAnswer> {
  constructor() {
    super(
      (job) => backend.call('lights', { job }),
      ({ yard, rig, placement, as_built, lights, units }) => [yard, rig, placement, as_built, lights, units],
    );
  }

  /** One tap further: not tried, lit, dark, not tried. */
  tap(number: number): void {
    const { job } = app;
    if (!job) return;
    const strand = String(number);
    const before = lightsOf(job).tested;
    const now = before.find((test) => test.strand === strand)?.lit;
    const rest = before.filter((test) => test.strand !== strand);
    const tested = now === false ? rest : [...rest, { strand, lit: now === undefined }];
    app.commit({ ...job, lights: { ...job.lights, tested } });
  }
}

export const lights = new LightsState();
