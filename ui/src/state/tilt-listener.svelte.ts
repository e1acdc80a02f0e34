import type { OrientationSample, Sample } from '../backend/model';
import { askFor, PATIENCE_MS, type Stage } from './sensors';

/** So long the motion sensor has to itself before the orientation stands in for it. */
const MOTION_FIRST_MS = 1000;

/** What was felt of late: the one or the other. */
export interface TiltReadings {
  samples: Sample[];
  orientations: OrientationSample[];
}

/** How many readings are kept. */
interface Keeps {
  /** Of a quicker sensor only some: those between say the same again. They are left out, not averaged, so that the engine
   * still sees the steps that the sensor rounds to. */
  leastGapMs: number;
  keepMs: number;
}

/** Listens to the phone's motion sensor, or to its orientation where an axis of that is missing, and has something answered. */
export abstract class TiltListener<Answer> {
  stage = $state<Stage>('off');
  answer = $state.raw<Answer | null>(null);
  #keeps: Keeps;
  #samples: Sample[] = [];
  #orientations: OrientationSample[] = [];
  #whole = false;
  #begun = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(keeps: Keeps) {
    this.#keeps = keeps;
  }

  /** A reading came, and the sensor is known. */
  protected abstract heard(now: number): void;

  /** What has to be there before it listens; false where it can't be. */
  protected prepare(): Promise<boolean> {
    return Promise.resolve(true);
  }

  /** Must be called from a tap. */
  async start(): Promise<void> {
    this.stage = 'asking';
    const leave = await askFor(globalThis.DeviceMotionEvent ?? globalThis.DeviceOrientationEvent);
    if (leave !== 'granted') {
      this.stage = leave;
      return;
    }
    if (!(await this.prepare())) {
      this.stage = 'off';
      return;
    }
    this.stage = 'waiting';
    this.#whole = false;
    this.#begun = performance.now();
    this.again();
    addEventListener('devicemotion', this.#moved);
    addEventListener('deviceorientation', this.#turned);
    this.#timer = setTimeout(() => this.stage === 'waiting' && this.end('none'), PATIENCE_MS);
  }

  /** Forgets what was read so far. */
  again(): void {
    this.#samples = [];
    this.#orientations = [];
    this.answer = null;
  }

  stop(): void {
    this.end('off');
  }

  protected end(stage: Stage): void {
    removeEventListener('devicemotion', this.#moved);
    removeEventListener('deviceorientation', this.#turned);
    clearTimeout(this.#timer);
    this.stage = stage;
    this.answer = null;
  }

  /** Those that are not too old. */
  protected readings(now: number): TiltReadings {
    dropBefore(this.#samples, now - this.#keeps.keepMs);
    dropBefore(this.#orientations, now - this.#keeps.keepMs);
    const orientations = this.#whole ? [] : this.#orientations;
    return { samples: orientations.length > 0 ? [] : this.#samples, orientations };
  }

  #moved = (event: DeviceMotionEvent): void => {
    const felt = event.accelerationIncludingGravity;
    const now = event.timeStamp;
    if (!felt || this.#isTooSoon(this.#samples, now)) return;
    const { x, y, z } = felt;
    const axes = [x, y, z].filter((axis) => typeof axis === 'number').length;
    if (axes === 0) return;
    if (axes === 3 && !this.#whole) {
      this.#whole = true;
      removeEventListener('deviceorientation', this.#turned);
    }
    this.#samples.push({ time_ms: now, acceleration: [x, y, z] });
    // With an axis missing the orientation is waited for.
    if (this.#whole || now - this.#begun > PATIENCE_MS / 2) this.#on(now);
  };

  #turned = (event: DeviceOrientationEvent): void => {
    const { beta, gamma, timeStamp: now } = event;
    if (typeof beta !== 'number' || typeof gamma !== 'number' || this.#whole) return;
    if (this.#isTooSoon(this.#orientations, now)) return;
    this.#orientations.push({ time_ms: now, beta_deg: beta, gamma_deg: gamma });
    if (now - this.#begun > MOTION_FIRST_MS) this.#on(now);
  };

  #isTooSoon(readings: { time_ms: number }[], now: number): boolean {
    return now - (readings.at(-1)?.time_ms ?? -Infinity) < this.#keeps.leastGapMs;
  }

  #on(now: number): void {
    this.stage = 'on';
    this.heard(now);
  }
}

/** In place. */
function dropBefore(readings: { time_ms: number }[], least_ms: number): void {
  const old = readings.findIndex((reading) => reading.time_ms >= least_ms);
  if (old > 0) readings.splice(0, old);
}
