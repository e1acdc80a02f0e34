import { backend } from '../backend';
import type { HoldAnswer, SampleSummary, Tilt } from '../backend/model';
import { app } from './app.svelte';
import { Newest, onFrame } from './newest';
import { gravitySign } from './sensors';
import { TiltListener, type TiltReadings } from './tilt-listener.svelte';

/** Readings older than this are of no use to a hold of two seconds. */
const KEEP_MS = 3500;
const LEAST_GAP_MS = 24;
/** The engine judges the hold this often: quicker than an eye follows a ring, slow enough to cost little. */
const JUDGE_MS = 140;

/** A hold that was taken. */
export interface Held {
  tilt: Tilt;
  samples: SampleSummary;
}

/** Listens to the phone's motion sensor and lets the engine judge when it is held still. */
export class HoldListener extends TiltListener<HoldAnswer> {
  #judged = 0;
  #holds = new Newest(
    (question: TiltReadings) => backend.call('hold', { ...question, sign: gravitySign(), units: app.units }),
    (answer: HoldAnswer) => {
      if (this.stage === 'on') this.answer = answer;
    },
    () => this.end('none'),
    onFrame,
  );

  constructor() {
    super({ leastGapMs: LEAST_GAP_MS, keepMs: KEEP_MS });
  }

  /** The hold as it stands; null until it is still. */
  take(): Held | null {
    const state = this.answer?.state;
    if (!state?.still || !state.tilt) return null;
    const samples = { count: state.used, seconds: state.held_ms / 1000, deviation_deg: state.spread_deg };
    return { tilt: state.tilt, samples };
  }

  protected heard(now: number): void {
    if (now - this.#judged < JUDGE_MS) return;
    this.#judged = now;
    this.#holds.want(this.readings(now));
  }
}
