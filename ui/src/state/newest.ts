/** Asks for answers, `most` at a time: while so many are on their way only the newest question waits; the ones between
 * are dropped. A finger that drags faster than the engine answers never builds up a queue. An answer that comes after that
 * to a later question is dropped, too. */
export class Newest<Question, Answer> {
  #waiting: Question | undefined;
  #inFlight = 0;
  #frameAsked = false;
  #sent = 0;
  #heard = 0;

  constructor(
    private readonly ask: (question: Question) => Promise<Answer>,
    private readonly answered: (answer: Answer, question: Question) => void,
    private readonly failed: (error: unknown, question: Question) => void,
    private readonly nextFrame: (then: () => void) => void,
    private readonly most = 1,
  ) {}

  get idle(): boolean {
    return this.#inFlight === 0 && this.#waiting === undefined;
  }

  want(question: Question): void {
    this.#waiting = question;
    this.#schedule();
  }

  #schedule(): void {
    if (this.#inFlight >= this.most || this.#frameAsked || this.#waiting === undefined) return;
    this.#frameAsked = true;
    this.nextFrame(() => {
      this.#frameAsked = false;
      void this.#send();
    });
  }

  async #send(): Promise<void> {
    const question = this.#waiting;
    if (question === undefined || this.#inFlight >= this.most) return;
    this.#waiting = undefined;
    this.#inFlight += 1;
    this.#sent += 1;
    const number = this.#sent;
    try {
      const answer = await this.ask(question);
      if (this.#newer(number)) this.answered(answer, question);
    } catch (error) {
      if (this.#newer(number)) this.failed(error, question);
    } finally {
      this.#inFlight -= 1;
      // What waited has waited long enough: the engine computes it while the screen draws this answer.
      if (!this.#frameAsked) void this.#send();
    }
  }

  #newer(number: number): boolean {
    if (number < this.#heard) return false;
    this.#heard = number;
    return true;
  }
}

/** One animation frame, or soon where the page is hidden and gets no frames. */
export function onFrame(then: () => void): void {
  if (document.visibilityState === 'hidden') setTimeout(then, 16);
  else requestAnimationFrame(then);
}
