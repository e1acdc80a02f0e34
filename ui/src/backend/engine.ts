import { Calls } from './calls';
import type { EngineAnswer, EngineQuestion, FirstModule } from './engine.worker';
import { mapModule } from './map-module';

/** One engine in a worker of its own. */
export class Engine {
  #worker = new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module' });
  #calls = new Calls<EngineQuestion, EngineAnswer>();
  #broken: Error | null = null;

  constructor() {
    this.#worker.onmessage = ({ data }: MessageEvent<EngineAnswer>) => this.#calls.heard(data);
    this.#worker.onerror = (event) =>
      this.end(new Error(event.message || 'The engine could not be started.'));
    // Where the page can't have it the worker tries for itself, and tells whoever asks.
    const hand = (module: WebAssembly.Module | null) =>
      this.#worker.postMessage({ module } satisfies FirstModule);
    mapModule().then(hand, () => hand(null));
  }

  /** Resolves once it can compute. */
  get loaded(): Promise<void> {
    return this.#calls.loaded;
  }

  get isLoaded(): boolean {
    return this.#calls.isLoaded;
  }

  /** Resolves once it can compute everything. */
  async whole(): Promise<void> {
    await this.#ask({ operation: null, request: '', watched: false });
  }

  /** The answer to a request as JSON text, as JSON text; with `progress` the operation is watched. */
  async ask(operation: string, request: string, progress?: (text: string) => void): Promise<string> {
    const watched = progress !== undefined;
    const { text } = await this.#ask({ operation, request, watched }, progress);
    return text ?? '';
  }

  /** Ends the worker in the middle of whatever it does; everybody who waits is told why. */
  end(why: Error): void {
    this.#broken = why;
    this.#worker.terminate();
    this.#calls.fail(why);
  }

  async #ask(question: Omit<EngineQuestion, 'id'>, progress?: (text: string) => void): Promise<EngineAnswer> {
    if (this.#broken) throw this.#broken;
    return this.#calls.ask(this.#worker, question, progress);
  }
}
