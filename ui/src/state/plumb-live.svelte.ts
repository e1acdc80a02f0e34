import { backend } from '../backend';
import type {
  OrientationSample,
  PlumbGeometry,
  PlumbLiveAnswer,
  Sample,
  TubeHold,
  TubeSide,
} from '../backend/model';
import { app } from './app.svelte';
import { Newest } from './newest';
import { askFor, gravitySign, PATIENCE_MS, type Stage } from './sensors';

/** The engine looks back no farther. */
const KEEP_MS = 21_000;
/** Of a quicker sensor only some readings are kept: those between say the same again. */
const LEAST_GAP_MS = 30;
/** So long the motion sensor has to itself before the orientation stands in for it. */
const MOTION_FIRST_MS = 1000;

interface Question {
  samples: Sample[];
  orientations: OrientationSample[];
  side: TubeSide;
  taken: TubeHold[];
  /** Time of the newest reading in it, and which hold it is of. */
  at: number;
  hold: number;
}

/** Listens to a phone on the tube and has the engine say how the tube stands now, reading by reading. */
export class PlumbListener {
  stage = $state<Stage>('off');
  answer = $state.raw<PlumbLiveAnswer | null>(null);
  /** Time of the newest reading that the answer knows: what measures its way to the screen reads it. */
  at = $state(0);
  geometry = $state.raw<PlumbGeometry | null>(null);
  side: TubeSide = 'front';
  taken: TubeHold[] = [];
  #samples: Sample[] = [];
  #orientations: OrientationSample[] = [];
  #whole = false;
  #begun = 0;
  #hold = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asked = new Newest(
    ({ samples, orientations, side, taken }: Question) => {
      if (!this.geometry) return Promise.reject(new Error('no mast'));
      const { geometry } = this;
      const sign = gravitySign();
      return backend.call('plumb_live', {
        geometry,
        units: app.units,
        side,
        taken,
        samples,
        orientations,
        sign,
      });
    },
    (answer: PlumbLiveAnswer, { at, hold }: Question) => {
      if (this.stage === 'on' && hold === this.#hold) [this.answer, this.at] = [answer, at];
    },
    () => this.#end('none'),
    // Not at the next frame: the answer shall be there by then.
    (then) => queueMicrotask(then),
  );

  /** Must be called from a tap. */
  async start(): Promise<void> {
    this.stage = 'asking';
    const leave = await askFor(globalThis.DeviceMotionEvent ?? globalThis.DeviceOrientationEvent);
    if (leave !== 'granted' || !app.job) {
      this.stage = leave === 'granted' ? 'off' : leave;
      return;
    }
    this.geometry = await backend.call('plumb_geometry', { job: { ...app.job, log: [] } });
    this.stage = 'waiting';
    this.#whole = false;
    this.#begun = performance.now();
    this.again();
    addEventListener('devicemotion', this.#moved);
    addEventListener('deviceorientation', this.#turned);
    this.#timer = setTimeout(() => this.stage === 'waiting' && this.#end('none'), PATIENCE_MS);
  }

  /** Forgets what was read so far: the phone is put on anew. */
  again(): void {
    this.#hold += 1;
    [this.#samples, this.#orientations] = [[], []];
    this.answer = null;
  }

  stop(): void {
    this.#end('off');
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
    if (this.#whole || now - this.#begun > PATIENCE_MS / 2) this.#ask(now);
  };

  #turned = (event: DeviceOrientationEvent): void => {
    const { beta, gamma, timeStamp: now } = event;
    if (typeof beta !== 'number' || typeof gamma !== 'number' || this.#whole) return;
    if (now - (this.#orientations.at(-1)?.time_ms ?? -Infinity) < LEAST_GAP_MS) return;
    this.#orientations.push({ time_ms: now, beta_deg: beta, gamma_deg: gamma });
    if (now - this.#begun > MOTION_FIRST_MS) this.#ask(now);
  };

  #ask(now: number): void {
    this.stage = 'on';
    this.#samples = since(this.#samples, now - KEEP_MS);
    this.#orientations = since(this.#orientations, now - KEEP_MS);
    const orientations = this.#whole ? [] : this.#orientations;
    const samples = orientations.length > 0 ? [] : this.#samples;
    this.#asked.want({
      samples,
      orientations,
      side: this.side,
      taken: this.taken,
      at: now,
      hold: this.#hold,
    });
  }
}

/** A list of its own only once a second: most readings find nothing to drop. */
function since<T extends { time_ms: number }>(readings: T[], least_ms: number): T[] {
  const first = readings[0];
  return first && first.time_ms < least_ms - 1000
    ? readings.filter((it) => it.time_ms >= least_ms)
    : readings;
}
