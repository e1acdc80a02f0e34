import { backend } from '../backend';
import type { GravitySign, HoldState, Sample } from '../backend/model';
import { Newest, onFrame } from './newest';

type Stage = 'off' | 'asking' | 'waiting' | 'on' | 'none' | 'refused';

/** Readings older than this are of no use to a hold of two seconds. */
const KEEP_MS = 6000;
/** A device without the sensor sends nothing, or one empty reading; this long is waited for a real one. */
const PATIENCE_MS = 2500;

interface AsksFirst {
  requestPermission?: () => Promise<'granted' | 'denied'>;
}

/** Listens to the phone's motion sensor and lets the engine judge when it is held still. */
export class TiltListener {
  stage = $state<Stage>('off');
  state = $state.raw<HoldState | null>(null);
  #samples: Sample[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;
  #holds = new Newest(
    (samples: Sample[]) => backend.call('hold', { samples, sign: gravitySign() }),
    (answer: HoldState) => (this.state = answer),
    () => (this.stage = 'none'),
    onFrame,
  );

  /** Must be called from a tap: iPhones ask for leave only then. */
  async start(): Promise<void> {
    if (typeof DeviceMotionEvent === 'undefined') {
      this.stage = 'none';
      return;
    }
    this.stage = 'asking';
    const asks = DeviceMotionEvent as unknown as AsksFirst;
    try {
      if (asks.requestPermission && (await asks.requestPermission()) !== 'granted') {
        this.stage = 'refused';
        return;
      }
    } catch {
      this.stage = 'refused';
      return;
    }
    this.stage = 'waiting';
    this.#samples = [];
    this.state = null;
    addEventListener('devicemotion', this.#moved);
    this.#timer = setTimeout(() => {
      if (this.stage === 'waiting') {
        this.stop();
        this.stage = 'none';
      }
    }, PATIENCE_MS);
  }

  stop(): void {
    removeEventListener('devicemotion', this.#moved);
    clearTimeout(this.#timer);
    this.stage = 'off';
    this.state = null;
  }

  #moved = (event: DeviceMotionEvent): void => {
    const { x, y, z } = event.accelerationIncludingGravity ?? {};
    if (typeof x !== 'number' || typeof y !== 'number' || typeof z !== 'number') return;
    this.stage = 'on';
    const now = event.timeStamp;
    this.#samples.push({ time_ms: now, acceleration: [x, y, z] });
    this.#samples = this.#samples.filter((sample) => now - sample.time_ms <= KEEP_MS);
    this.#holds.want(this.#samples);
  };
}

/** iPhones and iPads (which may call themselves a Mac with a touch screen) report gravity upside down. */
function gravitySign(): GravitySign {
  const apple = /iPhone|iPad|iPod/.test(navigator.userAgent);
  const padAsMac = navigator.userAgent.includes('Macintosh') && navigator.maxTouchPoints > 1;
  return apple || padAsMac ? 'down' : 'up';
}
