import { opened, type Backend } from './backend';
import type { EngineAnswer, EngineQuestion } from './engine.worker';
import { loadNewest, saveNewest } from './saves';

/** A plain browser: the engine as WebAssembly in a worker, the job in the browser's own database. */
export function browserBackend(): Backend {
  const worker = new Worker(new URL('./engine.worker.ts', import.meta.url), { type: 'module' });
  const waiting = new Map<number, { done: (text: string) => void; failed: (error: Error) => void }>();
  let last = 0;
  let broken: Error | null = null;

  worker.onmessage = ({ data }: MessageEvent<EngineAnswer>) => {
    const caller = waiting.get(data.id);
    waiting.delete(data.id);
    if (data.failure !== undefined) caller?.failed(new Error(data.failure));
    else caller?.done(data.text);
  };
  worker.onerror = (event) => {
    broken = new Error(event.message || 'The engine could not be started.');
    for (const caller of waiting.values()) caller.failed(broken);
    waiting.clear();
  };

  return {
    name: 'wasm',
    async call(operation, request) {
      if (broken) throw broken;
      const question: EngineQuestion = { id: ++last, operation, request: JSON.stringify(request) };
      const text = await new Promise<string>((done, failed) => {
        waiting.set(question.id, { done, failed });
        worker.postMessage(question);
      });
      return opened(text);
    },
    load: loadNewest,
    save: saveNewest,
    notice: async () => null,
  };
}
