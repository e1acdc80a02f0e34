import {
  devices,
  hear,
  say,
  servesDevices,
  withdraw,
  type DeviceList,
  type HeardReading,
  type LiveReading,
} from '../backend/paired';
import { why } from './why';

/** So long after it came a reading counts as what the other device reads now. */
const FRESH_MS = 5000;
/** Oftener nobody reads a figure. */
const TELL_MS = 300;

/** The other devices in the yard, where the machine that serves the screens pairs them. */
class Paired {
  /** Whether that machine pairs devices at all. */
  readonly served = servesDevices();
  list = $state.raw<DeviceList | null>(null);
  trouble = $state('');
  /** It was paired, and was withdrawn since. */
  lost = $state(false);
  heard = $state.raw<HeardReading | null>(null);
  fresh = $state(false);
  /** Whether this device tells the others what it reads. */
  tells = $state(false);
  #told = 0;
  #changed: (() => void) | null = null;
  #stop: (() => void) | null = null;
  #stale: ReturnType<typeof setTimeout> | undefined;

  /** Looks who is paired. */
  async look(): Promise<void> {
    if (!this.served) return;
    await this.#try(async () => {
      const list = await devices();
      this.lost = list === null && (this.lost || this.list !== null);
      this.list = list;
    });
    this.#listen();
  }

  async withdraw(id: number): Promise<void> {
    await this.#try(() => withdraw(id));
    await this.look();
  }

  /** Hears the others as long as this device is paired and somebody looks at the page. `changed` is told that there may be
   * something new: another device brought something, or what went on before was not heard. */
  follow(changed: () => void): void {
    this.#changed = changed;
    document.addEventListener('visibilitychange', () => this.#listen());
    this.#listen();
  }

  #listen(): void {
    const wanted = this.#changed !== null && this.list !== null && document.visibilityState === 'visible';
    if (!wanted) {
      this.#stop?.();
      this.#stop = null;
    } else
      this.#stop ??= hear({
        hears: () => this.#changed?.(),
        changed: () => this.#changed?.(),
        devices: () => void this.look(),
        reading: (heard) => {
          [this.heard, this.fresh] = [heard, true];
          clearTimeout(this.#stale);
          this.#stale = setTimeout(() => (this.fresh = false), FRESH_MS);
        },
      });
  }

  /** Tells the others, where that is wished; a figure that changes all the time now and then only. */
  tell(reading: LiveReading, { passing }: { passing: boolean }): void {
    const now = performance.now();
    if (!this.tells || (passing && now - this.#told < TELL_MS)) return;
    this.#told = now;
    void this.#try(() => say(reading));
  }

  async #try(what: () => Promise<void>): Promise<void> {
    try {
      await what();
      this.trouble = '';
    } catch (error) {
      this.trouble = `The machine that serves this page: ${why(error)}`;
    }
  }
}

export const paired = new Paired();
