import type { PaperAnswer, PaperQuestion } from './paper.worker';

interface Caller {
  done: (answer: PaperAnswer) => void;
  failed: (error: Error) => void;
}

/** The module that puts jobs on paper, in a worker of its own; it is loaded when somebody first prints. */
export class Paper {
  #worker: Worker | null = null;
  #waiting = new Map<number, Caller>();
  #last = 0;

  /** An operation's answer as JSON text, or without one the sheets as PDF. */
  ask(operation: string | null, request: unknown): Promise<PaperAnswer> {
    const worker = (this.#worker ??= this.#start());
    const question: PaperQuestion = { id: ++this.#last, operation, request: JSON.stringify(request) };
    return new Promise((done, failed) => {
      this.#waiting.set(question.id, { done, failed });
      worker.postMessage(question);
    });
  }

  #start(): Worker {
    const worker = new Worker(new URL('./paper.worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<PaperAnswer>) => {
      const caller = this.#waiting.get(data.id);
      this.#waiting.delete(data.id);
      if (data.failure !== undefined) caller?.failed(new Error(data.failure));
      else caller?.done(data);
    };
    // It can't be loaded without a signal the first time: the next try starts it anew.
    worker.onerror = () => {
      this.#worker = null;
      worker.terminate();
      const why = new Error('The part that draws sheets could not be loaded. Is there a signal?');
      for (const caller of this.#waiting.values()) caller.failed(why);
      this.#waiting.clear();
    };
    return worker;
  }
}
