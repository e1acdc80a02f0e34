/** Asks for answers one at a time: while one is on its way only the newest question waits; the ones between
 * are dropped. A finger that drags faster than the engine answers never builds up a queue. */
export class Newest<Question, Answer> {
  #waiting: Question | undefined;
  #inFlight = false;
  #frameAsked = false;

  constructor(
    private readonly ask: (question: Question) => Promise<Answer>,
    private readonly answered: (answer: Answer, question: Question) => void,
    private readonly failed: (error: unknown, question: Question) => void,
    private readonly nextFrame: (then: () => void) => void,
  ) {}

  get idle(): boolean {
    return !this.#inFlight && this.#waiting === undefined;
  }

  want(question: Question): void {
    this.#waiting = question;
    this.#schedule();
  }

  #schedule(): void {
    if (this.#inFlight || this.#frameAsked || this.#waiting === undefined) return;
    this.#frameAsked = true;
    this.nextFrame(() => {
      this.#frameAsked = false;
      void this.#send();
    });
  }

  async #send(): Promise<void> {
    const question = this.#waiting;
    if (question === undefined || this.#inFlight) return;
    this.#waiting = undefined;
    this.#inFlight = true;
    try {
      const answer = await this.ask(question);
      this.answered(answer, question);
    } catch (error) {
      this.failed(error, question);
    } finally {
      this.#inFlight = false;
      // What waited has waited long enough: the engine computes it while the screen draws this answer.
      if (!this.#frameAsked) void this.#send();
    }
  }
}

/** One animation frame, or soon where the page is hidden and gets no frames. */
export function onFrame(then: () => void): void {
  if (document.visibilityState === 'hidden') setTimeout(then, 16);
  else requestAnimationFrame(then);
}
