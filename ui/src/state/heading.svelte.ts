import type { CompassSample, SampleSummary } from '../backend/model';
import { askFor, PATIENCE_MS, type Stage } from './sensors';

/** One aim is what the compass said in this time. */
const AIM_MS = 1500;
/** Fewer events than this are no aim yet. */
const LEAST_EVENTS = 5;
/** A compass wanders slowly: more often than this it says the same again. */
const LEAST_GAP_MS = 30;

interface Event {
  time_ms: number;
  sample: CompassSample;
}

interface AppleOrientation extends DeviceOrientationEvent {
  webkitCompassHeading?: number;
  webkitCompassAccuracy?: number;
}

/** Listens to the phone's compass: the absolute orientation, or the heading that iPhones give. */
export class HeadingListener {
  stage = $state<Stage>('off');
  /** Events of the aim so far; a new array each time, so that what follows it sees it. */
  recent = $state.raw<CompassSample[]>([]);
  #events: Event[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;

  get ready(): boolean {
    return this.recent.length >= LEAST_EVENTS;
  }

  /** Must be called from a tap. */
  async start(): Promise<void> {
    this.stage = 'asking';
    const leave = await askFor(globalThis.DeviceOrientationEvent);
    if (leave !== 'granted') {
      this.stage = leave;
      return;
    }
    this.stage = 'waiting';
    this.#events = [];
    this.recent = [];
    addEventListener('deviceorientationabsolute', this.#turned as EventListener);
    addEventListener('deviceorientation', this.#turned);
    this.#timer = setTimeout(() => this.stage === 'waiting' && this.#end('none'), PATIENCE_MS);
  }

  stop(): void {
    this.#end('off');
  }

  /** Forgets the aim so far: the next one begins now. */
  again(): void {
    this.#events = [];
    this.recent = [];
  }

  /** The events of this aim; the next one begins now. */
  take(): { sight: CompassSample[]; samples: SampleSummary } {
    const sight = this.recent;
    const [first, last] = [this.#events[0], this.#events.at(-1)];
    const seconds = first && last ? (last.time_ms - first.time_ms) / 1000 : 0;
    this.again();
    return { sight, samples: { count: sight.length, seconds, deviation_deg: null } };
  }

  #end(stage: Stage): void {
    removeEventListener('deviceorientationabsolute', this.#turned as EventListener);
    removeEventListener('deviceorientation', this.#turned);
    clearTimeout(this.#timer);
    this.stage = stage;
  }

  #turned = (event: DeviceOrientationEvent): void => {
    const sample = compassSample(event);
    const now = event.timeStamp;
    if (!sample || now - (this.#events.at(-1)?.time_ms ?? -Infinity) < LEAST_GAP_MS) return;
    this.stage = 'on';
    this.#events = [...this.#events.filter((old) => now - old.time_ms <= AIM_MS), { time_ms: now, sample }];
    this.recent = this.#events.map((one) => one.sample);
  };
}

/** What an event says of north; null where it counts from wherever the phone lay at the start. */
function compassSample(event: AppleOrientation): CompassSample | null {
  const { webkitCompassHeading: heading, webkitCompassAccuracy: accuracy } = event;
  if (typeof heading === 'number') {
    return { from: 'heading', heading_deg: heading, accuracy_deg: accuracy ?? null };
  }
  const { alpha, beta, gamma } = event;
  if (!event.absolute || typeof alpha !== 'number' || typeof beta !== 'number') return null;
  return { from: 'orientation', alpha_deg: alpha, beta_deg: beta, gamma_deg: gamma ?? 0 };
}
