import answersUrl from '../wasm/first-answers.json?url';

/** An operation, its request and its answer, each as the engine reads and writes it. */
type Answered = readonly [operation: string, request: string, answer: string];

/**
 * What the engine answered when this app was built, to the questions by which the demo is opened
 * (`src-tauri/xtask/first_answers.mjs`). An answer follows from its question alone, so who asks the same, to the letter, is given it
 * while the engine itself is still coming in. Any other question waits for the engine.
 */
export class FirstAnswers {
  #known: Promise<Map<string, string>> | null = null;

  /** The answer; none where the engine has to be asked. Jobs of one's own are not asked about here: all begins with the demo. */
  async to(operation: string, request: string): Promise<string | undefined> {
    if (operation === 'demo') this.#known ??= fetched();
    return this.#known ? (await this.#known).get(key(operation, request)) : undefined;
  }
}

const key = (operation: string, request: string) => `${operation} ${request}`;

async function fetched(): Promise<Map<string, string>> {
  try {
    const answers = (await (await fetch(answersUrl)).json()) as Answered[];
    return new Map(answers.map(([operation, request, answer]) => [key(operation, request), answer]));
  } catch {
    // Without it everything is asked of the engine.
    return new Map();
  }
}
