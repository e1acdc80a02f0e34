import { LOADED } from './calls';
import initMap, { call_at_first } from '../wasm/map.js';
import mapUrl from '../wasm/map_bg.wasm?url';
import initEngine, { call, call_watched } from '../wasm/engine.js';
import engineUrl from '../wasm/engine_bg.wasm?url';

export interface EngineQuestion {
  id: number;
  /** Without one the whole engine is loaded, and no more. */
  operation: string | null;
  request: string;
  /** Whether to tell how far it is. */
  watched: boolean;
}

/** What the worker says to a question: how far it is, any number of times, then one answer. */
export interface EngineAnswer {
  id: number;
  /** Of a watched operation under way: `Progress` as JSON. */
  progress?: string;
  text?: string;
  /** Set where the engine itself broke; errors in a job come inside `text`. */
  failure?: string;
}

/** What the worker is handed before it can answer: the compiled module of the first map, if the page could have it. */
export interface FirstModule {
  module: WebAssembly.Module | null;
}

const scope = self as unknown as DedicatedWorkerGlobalScope;
// Named here, because the bundler does not see the addresses inside the generated modules.
let hand: (first: FirstModule) => void = () => undefined;
const handed = new Promise<FirstModule>((done) => (hand = done));
const ready = handed.then(({ module }) => initMap({ module_or_path: module ?? mapUrl }));
let whole: Promise<unknown> | null = null;

ready.then(
  () => scope.postMessage({ id: LOADED } satisfies EngineAnswer),
  () => undefined, // Told to whoever asks.
);

scope.onmessage = async ({ data }: MessageEvent<EngineQuestion | FirstModule>) => {
  if ('module' in data) return hand(data);
  const answer: EngineAnswer = { id: data.id };
  try {
    answer.text = await answered(data);
  } catch (error) {
    answer.failure = `The engine stopped: ${String(error)}`;
  }
  scope.postMessage(answer);
};

/** By the first module where it has such an operation, else by the whole engine. */
async function answered({ id, operation, request, watched }: EngineQuestion): Promise<string | undefined> {
  if (operation !== null && !watched) {
    await ready;
    const text = call_at_first(operation, request);
    if (text !== undefined) return text;
  }
  await wholeEngine();
  if (operation === null) return undefined;
  return watched ? callWatched(id, operation, request) : call(operation, request);
}

/** All that the first map does not need, loaded when it is first asked for; after the first module, which a finger waits for. */
function wholeEngine(): Promise<unknown> {
  whole ??= handed
    .then(() => initEngine({ module_or_path: engineUrl }))
    .catch((error: unknown) => {
      // Without a signal just now: the next question tries again.
      whole = null;
      throw error;
    });
  return whole;
}

/** Messages go out while the engine runs, but none comes in: it is stopped by ending the whole worker. */
function callWatched(id: number, operation: string, request: string): string {
  const progress = (text: string) => {
    scope.postMessage({ id, progress: text } satisfies EngineAnswer);
    return true;
  };
  return call_watched(operation, request, { progress });
}
