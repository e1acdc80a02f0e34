import { Calls } from './calls';
import type { PaperAnswer, PaperQuestion } from './paper.worker';

/** The module that puts jobs on paper, in a worker of its own; it is loaded when somebody first prints. */
export class Paper {
  #worker: Worker | null = null;
  #calls = new Calls<PaperQuestion, PaperAnswer>();

  /** An operation's answer as JSON text, or without one the sheets as PDF. */
  ask(operation: string | null, request: unknown): Promise<PaperAnswer> {
    const worker = (this.#worker ??= this.#start());
    return this.#calls.ask(worker, { operation, request: JSON.stringify(request) });
  }

  #start(): Worker {
    const worker = new Worker(new URL('./paper.worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<PaperAnswer>) => this.#calls.heard(data);
    // It can't be loaded without a signal the first time: the next try starts it anew.
    worker.onerror = () => {
      this.#worker = null;
      worker.terminate();
      this.#calls.fail(new Error('The part that draws sheets could not be loaded. Is there a signal?'));
    };
    return worker;
  }
}
