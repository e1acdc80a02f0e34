import { opened, stopped, type Backend } from './backend';
import { Engine } from './engine';
import { Paper } from './paper';
import { hearReplaced, keepOffline } from './offline';
import { browserStore } from './browser-store';
import { Database } from './database';
import { FirstAnswers } from './first-answers';
import { Foreseen } from './foreseen';
import { mapModule, MODULE_NAME } from './map-module';

/** How long the first map may have the processor and the network for itself once the engine is there. */
const FIRST_SHOWN_MS = 800;

/** A plain browser: the engine as WebAssembly in a worker, the jobs in the browser's own database.
 *
 * A watched operation runs in a second worker, so that the plan still follows the finger meanwhile. A worker that
 * computes hears nothing, and memory shared with it would need headers that a plain file server does not send; so
 * stopping ends the worker, and what it had found is lost but for the progress told. One that came to its end is kept
 * for the next. */
export function browserBackend(): Backend {
  let first: Engine | null = null;
  const engine = () => (first ??= new Engine());
  // The module is asked for at once, a worker made in a turn of its own.
  void mapModule().catch(() => undefined);
  setTimeout(engine);
  const firstAnswers = new FirstAnswers();
  const database = new Database();
  const foreseen = new Foreseen(database, MODULE_NAME);
  const paper = new Paper();
  let spare: Engine | null = null;

  return {
    name: 'wasm',
    async call(operation, request) {
      const question = JSON.stringify(request);
      const known = engine().isLoaded ? undefined : await knownAlready(operation, question);
      return opened(known ?? (await engine().ask(operation, question)), operation);
    },
    async foresee(questions) {
      const answers: [string, string, string][] = [];
      await questions(async (operation, request) => {
        const question = JSON.stringify(request);
        const text = await engine().ask(operation, question);
        answers.push([operation, question, text]);
        return opened(text, operation);
      });
      await foreseen.keep(answers);
    },
    async watch(operation, request, onProgress, signal) {
      if (signal.aborted) throw stopped();
      const worker = spare ?? new Engine();
      spare = null;
      const stop = () => worker.end(stopped());
      signal.addEventListener('abort', stop, { once: true });
      try {
        const text = await worker.ask(operation, JSON.stringify(request), (told) => {
          if (!signal.aborted) onProgress(JSON.parse(told));
        });
        if (!signal.aborted) keep(worker);
        return opened(text, operation);
      } finally {
        signal.removeEventListener('abort', stop);
      }
    },
    async sheets(request) {
      return opened((await paper.ask('sheets', request)).text ?? '', 'sheets');
    },
    async sheetsPdf(request) {
      const { bytes, text } = await paper.ask(null, request);
      return bytes ?? opened(text ?? '', 'sheets');
    },
    ready: () => engine().loaded,
    whole: () => engine().whole(),
    async keepOffline(told) {
      const unheard = hearReplaced(() => told.replaced());
      // What is shown first comes first: the rest is fetched when the engine is there.
      await engine().loaded;
      await new Promise((done) => setTimeout(done, FIRST_SHOWN_MS));
      await keepOffline(told, unheard);
    },
    store: browserStore(database),
  };

  async function knownAlready(operation: string, question: string): Promise<string | undefined> {
    return (await firstAnswers.to(operation, question)) ?? foreseen.to(operation, question);
  }

  function keep(worker: Engine): void {
    if (spare === null) spare = worker;
    else worker.end(stopped());
  }
}
