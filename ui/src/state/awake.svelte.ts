/**
 * Keeps the screen on while somebody works by it. Browsers let go of that when the page is hidden; it is asked for again when the
 * page is seen again. Where a browser has no such thing, or the battery is low, it says so.
 */
class Awake {
  /** Whether the screen stays on now. */
  on = $state(false);
  /** Whether this browser can keep it on at all. */
  readonly possible = typeof navigator !== 'undefined' && 'wakeLock' in navigator;
  #lock: WakeLockSentinel | null = null;
  #wanted = 0;

  /** Call it from an effect: it lets go when the page is left. */
  follow(): () => void {
    this.#wanted += 1;
    const seen = () => void this.#ask();
    document.addEventListener('visibilitychange', seen);
    seen();
    return () => {
      this.#wanted -= 1;
      document.removeEventListener('visibilitychange', seen);
      if (this.#wanted > 0) return;
      // Letting go takes a moment; whoever asks in that moment asks for one of their own.
      void this.#lock?.release().catch(() => undefined);
      this.#lock = null;
    };
  }

  async #ask(): Promise<void> {
    const idle = this.#lock === null || this.#lock.released;
    if (!this.possible || !idle || document.visibilityState !== 'visible') return;
    try {
      const lock = await navigator.wakeLock.request('screen');
      // Nobody wants it any more, or somebody who asked in the same moment has one.
      const held = this.#lock !== null && !this.#lock.released;
      if (this.#wanted === 0 || held) return void (await lock.release());
      this.#lock = lock;
      this.on = true;
      lock.addEventListener('release', () => (this.on = this.#lock !== null && !this.#lock.released));
    } catch {
      // Refused: low battery, or a page that is not seen. The screen says that it may go dark.
      this.on = false;
    }
  }
}

export const awake = new Awake();
