interface Caller<Answer> {
  done: (answer: Answer) => void;
  failed: (error: Error) => void;
  progress?: (text: string) => void;
}

/** What comes back from a worker: how far it is, any number of times, then the answer. */
interface Heard {
  id: number;
  /** Of an operation under way. */
  progress?: string;
  /** Set where the worker itself broke. */
  failure?: string;
}

/** Under this number, which no question has, a worker says once that it is loaded. */
export const LOADED = 0;

/** The questions that a worker was asked and has not answered. */
export class Calls<Question extends { id: number }, Answer extends Heard> {
  #waiting = new Map<number, Caller<Answer>>();
  #last = LOADED;
  #toldLoaded: () => void = () => undefined;
  isLoaded = false;
  readonly loaded = new Promise<void>((done) => (this.#toldLoaded = done));

  ask(worker: Worker, question: Omit<Question, 'id'>, progress?: (text: string) => void): Promise<Answer> {
    const id = ++this.#last;
    return new Promise((done, failed) => {
      this.#waiting.set(id, { done, failed, progress });
      worker.postMessage({ ...question, id });
    });
  }

  heard(answer: Answer): void {
    if (answer.id === LOADED) {
      this.isLoaded = true;
      return this.#toldLoaded();
    }
    const caller = this.#waiting.get(answer.id);
    if (answer.progress !== undefined) {
      caller?.progress?.(answer.progress);
      return;
    }
    this.#waiting.delete(answer.id);
    if (answer.failure !== undefined) caller?.failed(new Error(answer.failure));
    else caller?.done(answer);
  }

  /** Everybody who waits is told why nothing comes. */
  fail(why: Error): void {
    for (const caller of this.#waiting.values()) caller.failed(why);
    this.#waiting.clear();
  }
}
