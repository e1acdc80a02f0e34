import type { Database } from './database';

/** A question, to the letter, and what the engine answered. */
type Answered = readonly [operation: string, request: string, answer: string];

/** Under this name the answers are kept beside the jobs. */
const NAME = 'foreseen';

/**
 * Answers to the questions that the next start will ask, kept while there is nothing else to do. An answer follows from its
 * question and from the engine alone, so whoever asks the same, to the letter, of the same engine is given it while that engine
 * still comes in (`docs/decisions/0042-*`). Losing them loses nothing but time.
 */
export class Foreseen {
  #known: Promise<readonly Answered[]> | null = null;

  /** `engine` names the build of the engine, so that no answer outlives it. */
  constructor(
    private readonly database: Database,
    private readonly engine: string,
  ) {}

  /** The answer; none where that was not foreseen. */
  async to(operation: string, request: string): Promise<string | undefined> {
    this.#known ??= this.#read();
    return (await this.#known).find(([of, asked]) => of === operation && asked === request)?.[2];
  }

  /** Keeps what is answered to these questions in place of what was kept before. */
  async keep(answers: readonly Answered[]): Promise<void> {
    const before = await this.#known;
    // Who starts next reads it anew.
    this.#known = Promise.resolve([]);
    if (JSON.stringify(before) === JSON.stringify(answers)) return;
    const db = await this.database.open();
    await db.put('meta', JSON.stringify({ engine: this.engine, answers }), NAME);
  }

  async #read(): Promise<readonly Answered[]> {
    try {
      const text = await (await this.database.open()).get('meta', NAME);
      const kept = JSON.parse(text ?? 'null') as { engine: string; answers: Answered[] } | null;
      return kept?.engine === this.engine ? kept.answers : [];
    } catch {
      // The engine is asked then.
      return [];
    }
  }
}
