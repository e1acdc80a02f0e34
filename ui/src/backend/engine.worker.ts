import init, { call } from '../wasm/engine.js';

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
const ready = init();

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
