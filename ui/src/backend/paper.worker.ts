import init, { call_on_paper, sheets_pdf } from '../wasm/paper.js';
import paperUrl from '../wasm/paper_bg.wasm?url';

/** Asks for an operation's answer as JSON, or for the sheets as the bytes of a PDF. */
export interface PaperQuestion {
  id: number;
  operation: string | null;
  request: string;
}

export interface PaperAnswer {
  id: number;
  text?: string;
  bytes?: Uint8Array<ArrayBuffer>;
  /** Set where the module itself broke; errors in a job come inside `text`. */
  failure?: string;
}

const scope = self as unknown as DedicatedWorkerGlobalScope;
const ready = init({ module_or_path: paperUrl });

scope.onmessage = async ({ data }: MessageEvent<PaperQuestion>) => {
  const answer: PaperAnswer = { id: data.id };
  try {
    await ready;
    if (data.operation === null) Object.assign(answer, pdf(data.request));
    else answer.text = call_on_paper(data.operation, data.request);
  } catch (error) {
    answer.failure = `The sheets could not be drawn: ${String(error)}`;
  }
  scope.postMessage(answer, answer.bytes ? [answer.bytes.buffer] : []);
};

/** The module throws what is wrong with the job as its answer's text. */
function pdf(request: string): Partial<PaperAnswer> {
  try {
    return { bytes: sheets_pdf(request) as Uint8Array<ArrayBuffer> };
  } catch (error) {
    if (typeof error === 'string') return { text: error };
    throw error;
  }
}
