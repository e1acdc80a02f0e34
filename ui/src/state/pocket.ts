const PREFIX = 'mastwright:journal:';

/** A small store that is written at once, without waiting: it outlives the page, though perhaps not the program. It
 * holds only edits that are on their way into the real store. */
export interface Pocket {
  put(job: string, by: string, n: number, line: string): void;
  /** Forgets the edits of a sitting up to `n`. */
  drop(job: string, by: string, n: number): void;
  /** Lines of all sittings of a job. */
  of(job: string): string[];
  /** Forgets all of a job. */
  empty(job: string): void;
}

/** The browser's local storage. Where it refuses, the real store alone has to do. */
export const pocket: Pocket = {
  put(job, by, n, line) {
    try {
      localStorage.setItem(`${PREFIX}${job}:${by}:${n}`, line);
    } catch {
      // Full or forbidden.
    }
  },
  drop(job, by, n) {
    for (const key of keysOf(`${job}:${by}:`)) if (Number(key.split(':').at(-1)) <= n) forget(key);
  },
  of: (job) => keysOf(`${job}:`).map((key) => localStorage.getItem(key) ?? ''),
  empty(job) {
    for (const key of keysOf(`${job}:`)) forget(key);
  },
};

function keysOf(rest: string): string[] {
  try {
    return Object.keys(localStorage).filter((key) => key.startsWith(PREFIX + rest));
  } catch {
    return [];
  }
}

function forget(key: string): void {
  localStorage.removeItem(key);
}
