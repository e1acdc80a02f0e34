import { backend } from '../backend';
import type { PlumbGeometry, PlumbLiveAnswer, TubeHold, TubeSide } from '../backend/model';
import { app } from './app.svelte';
import { Newest } from './newest';
import { gravitySign } from './sensors';
import { TiltListener, type TiltReadings } from './tilt-listener.svelte';

/** The engine looks back no farther. */
const KEEP_MS = 21_000;
const LEAST_GAP_MS = 30;

interface Question extends TiltReadings {
  side: TubeSide;
  taken: TubeHold[];
  /** Time of the newest reading in it, and which hold it is of. */
  at: number;
  hold: number;
}

/** Listens to a phone on the tube and has the engine say how the tube stands now, reading by reading. */
export class PlumbListener extends TiltListener<PlumbLiveAnswer> {
  /** Time of the newest reading that the answer knows: what measures its way to the screen reads it. */
  at = $state(0);
  geometry = $state.raw<PlumbGeometry | null>(null);
  side: TubeSide = 'front';
  taken: TubeHold[] = [];
  #hold = 0;
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
    () => this.end('none'),
    // Not at the next frame: the answer shall be there by then.
    (then) => queueMicrotask(then),
  );

  constructor() {
    super({ leastGapMs: LEAST_GAP_MS, keepMs: KEEP_MS });
  }

  /** Forgets what was read so far: the phone is put on anew. */
  override again(): void {
    this.#hold += 1;
    super.again();
  }

  protected override async prepare(): Promise<boolean> {
    if (!app.job) return false;
    this.geometry = await backend.call('plumb_geometry', { job: { ...app.job, log: [] } });
    return true;
  }

  protected heard(now: number): void {
    const { side, taken } = this;
    this.#asked.want({ ...this.readings(now), side, taken, at: now, hold: this.#hold });
  }
}
