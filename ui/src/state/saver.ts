const QUIET_MS = 300;

/** Saves what is entered: shortly after the last change, and at once when the page is left. */
export class Saver {
  #pending: string | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly save: (text: string) => Promise<void>,
    private readonly failed: (error: unknown) => void,
    private readonly saved: () => void,
  ) {}

  keep(text: string): void {
    this.#pending = text;
    // The timer is not put off by further changes: a long drag is saved while it lasts.
    this.#timer ??= setTimeout(() => void this.flush(), QUIET_MS);
  }

  async flush(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    const text = this.#pending;
    if (text === null) return;
    this.#pending = null;
    try {
      await this.save(text);
      this.saved();
    } catch (error) {
      this.#pending ??= text;
      this.failed(error);
    }
  }

  /** Flushes when the page is hidden or closed, the last moment a phone gives. */
  watchLeaving(): void {
    addEventListener('pagehide', () => void this.flush());
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'hidden') void this.flush();
    });
  }
}
