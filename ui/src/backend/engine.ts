import type { EngineAnswer, EngineQuestion } from './engine.worker';

interface Caller {
  done: (text: string) => void;
  failed: (error: Error) => void;
  progress?: (text: string) => void;
}

/** One engine in a worker of its own. */
export class Engine {
  #worker = new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module' });
  #waiting = new Map<number, Caller>();
  #last = 0;
  #broken: Error | null = null;

  constructor() {
    this.#worker.onmessage = ({ data }: MessageEvent<EngineAnswer>) => this.#heard(data);
    this.#worker.onerror = (event) =>
      this.end(new Error(event.message || 'The engine could not be started.'));
  }

  /** The answer as JSON text; with `progress` the operation is watched. */
  ask(operation: string, request: unknown, progress?: (text: string) => void): Promise<string> {
    if (this.#broken) return Promise.reject(this.#broken);
    const id = ++this.#last;
    const watched = progress !== undefined;
    const question: EngineQuestion = { id, operation, request: JSON.stringify(request), watched };
    return new Promise((done, failed) => {
      this.#waiting.set(id, { done, failed, progress });
      this.#worker.postMessage(question);
    });
  }

  /** Ends the worker in the middle of whatever it does; everybody who waits is told why. */
  end(why: Error): void {
    this.#broken = why;
    this.#worker.terminate();
    for (const caller of this.#waiting.values()) caller.failed(why);
    this.#waiting.clear();
  }

  #heard(data: EngineAnswer): void {
    const caller = this.#waiting.get(data.id);
    if (data.progress !== undefined) {
      caller?.progress?.(data.progress);
      return;
    }
    this.#waiting.delete(data.id);
    if (data.failure !== undefined) caller?.failed(new Error(data.failure));
    else caller?.done(data.text ?? '');
  }
}
