import type { Sample } from '../backend/model';
import { askFor, PATIENCE_MS, type Stage } from './sensors';

/** So long a rope is felt: the engine's figures of how often it is right are of recordings of ten seconds. */
export const FEEL_MS = 10_000;

/** Every reading of the phone's motion sensor over ten seconds. */
export class RopeMotion {
  stage = $state<Stage>('off');
  /** From 0 to 1. */
  done = $state(0);
  #samples: Sample[] = [];
  #begun = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly whole: (samples: Sample[]) => void) {}

  /** Must be called from a tap. */
  async start(): Promise<void> {
    this.stage = 'asking';
    const leave = await askFor(globalThis.DeviceMotionEvent);
    if (leave !== 'granted') {
      this.stage = leave;
      return;
    }
    this.stage = 'waiting';
    this.done = 0;
    this.#samples = [];
    addEventListener('devicemotion', this.#moved);
    this.#timer = setTimeout(() => this.stage === 'waiting' && this.#end('none'), PATIENCE_MS);
  }

  stop(): void {
    this.#end('off');
  }

  #end(stage: Stage): void {
    removeEventListener('devicemotion', this.#moved);
    clearTimeout(this.#timer);
    this.stage = stage;
  }

  #moved = (event: DeviceMotionEvent): void => {
    const felt = event.accelerationIncludingGravity;
    if (!felt || [felt.x, felt.y, felt.z].every((axis) => typeof axis !== 'number')) return;
    const now = event.timeStamp;
    if (this.#samples.length === 0) this.#begun = now;
    this.stage = 'on';
    this.#samples.push({ time_ms: now, acceleration: [felt.x, felt.y, felt.z] });
    this.done = Math.min(1, (now - this.#begun) / FEEL_MS);
    if (this.done < 1) return;
    this.#end('off');
    this.whole(this.#samples);
  };
}
