import { backend } from '../backend';
import type { HoldAnswer, OrientationSample, Sample, SampleSummary, Tilt } from '../backend/model';
import { app } from './app.svelte';
import { Newest, onFrame } from './newest';
import { askFor, gravitySign, PATIENCE_MS, type Stage } from './sensors';

/** Readings older than this are of no use to a hold of two seconds. */
const KEEP_MS = 3500;
/** Of a quicker sensor only some readings are kept: those between say the same again. They are left out, not
 * averaged, so that the engine still sees the steps that the sensor rounds to. */
const LEAST_GAP_MS = 24;
/** The engine judges the hold this often: quicker than an eye follows a ring, slow enough to cost little. */
const JUDGE_MS = 140;
/** So long the motion sensor has to itself before the orientation stands in for it. */
const MOTION_FIRST_MS = 1000;

/** A hold that was taken. */
export interface Held {
  tilt: Tilt;
  samples: SampleSummary;
}

interface Question {
  samples: Sample[];
  orientations: OrientationSample[];
}

/** Listens to the phone's motion sensor and lets the engine judge when it is held still. */
export class HoldListener {
  stage = $state<Stage>('off');
  answer = $state.raw<HoldAnswer | null>(null);
  #samples: Sample[] = [];
  #orientations: OrientationSample[] = [];
  #whole = false;
  #begun = 0;
  #judged = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #holds = new Newest(
    (question: Question) => backend.call('hold', { ...question, sign: gravitySign(), units: app.units }),
    (answer: HoldAnswer) => {
      if (this.stage === 'on') this.answer = answer;
    },
    () => this.#end('none'),
    onFrame,
  );

  /** Must be called from a tap. */
  async start(): Promise<void> {
    this.stage = 'asking';
    const leave = await askFor(globalThis.DeviceMotionEvent ?? globalThis.DeviceOrientationEvent);
    if (leave !== 'granted') {
      this.stage = leave;
      return;
    }
    this.stage = 'waiting';
    this.#whole = false;
    this.#begun = performance.now();
    this.again();
    addEventListener('devicemotion', this.#moved);
    addEventListener('deviceorientation', this.#turned);
    this.#timer = setTimeout(() => this.stage === 'waiting' && this.#end('none'), PATIENCE_MS);
  }

  /** Forgets what was read so far: the next hold begins now. */
  again(): void {
    this.#samples = [];
    this.#orientations = [];
    this.answer = null;
  }

  stop(): void {
    this.#end('off');
  }

  /** The hold as it stands; null until it is still. */
  take(): Held | null {
    const state = this.answer?.state;
    if (!state?.still || !state.tilt) return null;
    const samples = { count: state.used, seconds: state.held_ms / 1000, deviation_deg: state.spread_deg };
    return { tilt: state.tilt, samples };
  }

  #end(stage: Stage): void {
    removeEventListener('devicemotion', this.#moved);
    removeEventListener('deviceorientation', this.#turned);
    clearTimeout(this.#timer);
    this.stage = stage;
    this.answer = null;
  }

  #moved = (event: DeviceMotionEvent): void => {
    const felt = event.accelerationIncludingGravity;
    const now = event.timeStamp;
    if (!felt || now - (this.#samples.at(-1)?.time_ms ?? -Infinity) < LEAST_GAP_MS) return;
    const { x, y, z } = felt;
    const axes = [x, y, z].filter((axis) => typeof axis === 'number').length;
    if (axes === 0) return;
    if (axes === 3 && !this.#whole) {
      this.#whole = true;
      removeEventListener('deviceorientation', this.#turned);
    }
    this.#samples.push({ time_ms: now, acceleration: [x, y, z] });
    // With an axis missing the orientation is waited for.
    if (this.#whole || now - this.#begun > PATIENCE_MS / 2) this.#judge(now);
  };

  #turned = (event: DeviceOrientationEvent): void => {
    const { beta, gamma, timeStamp: now } = event;
    if (typeof beta !== 'number' || typeof gamma !== 'number' || this.#whole) return;
    if (now - (this.#orientations.at(-1)?.time_ms ?? -Infinity) < LEAST_GAP_MS) return;
    this.#orientations.push({ time_ms: now, beta_deg: beta, gamma_deg: gamma });
    if (now - this.#begun > MOTION_FIRST_MS) this.#judge(now);
  };

  #judge(now: number): void {
    this.stage = 'on';
    if (now - this.#judged < JUDGE_MS) return;
    this.#judged = now;
    dropBefore(this.#samples, now - KEEP_MS);
    dropBefore(this.#orientations, now - KEEP_MS);
    const orientations = this.#whole ? [] : this.#orientations;
    this.#holds.want({ samples: orientations.length > 0 ? [] : this.#samples, orientations });
  }
}

/** In place, ten times a second at most. */
function dropBefore(readings: { time_ms: number }[], least_ms: number): void {
  const old = readings.findIndex((reading) => reading.time_ms >= least_ms);
  if (old > 0) readings.splice(0, old);
}
