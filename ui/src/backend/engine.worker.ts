import init, { call } from '../wasm/engine.js';
import engineUrl from '../wasm/engine_bg.wasm?url';

export interface EngineQuestion {
  id: number;
  operation: string;
  request: string;
}

export interface EngineAnswer {
  id: number;
  text: string;
  /** Set where the engine itself broke; errors in a job come inside `text`. */
  failure?: string;
}

const scope = self as unknown as DedicatedWorkerGlobalScope;
// Named here, because the bundler does not see the address inside the generated module.
const ready = init({ module_or_path: engineUrl });

scope.onmessage = async ({ data }: MessageEvent<EngineQuestion>) => {
  const answer: EngineAnswer = { id: data.id, text: '' };
  try {
    await ready;
    answer.text = call(data.operation, data.request);
  } catch (error) {
    answer.failure = `The engine stopped: ${String(error)}`;
  }
  scope.postMessage(answer);
};
