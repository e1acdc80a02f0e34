import { renamed } from './renamed';

/** Small things kept in the browser beside the jobs: texts not accepted yet, half-entered items, the skin. Those that
 * belong to a job are kept apart for each. */
const OF_A_JOB = /^(typed$|draft:)/;
let job = '';

/** Whose texts and half-entered items are meant from now on. */
export function scopeTo(id: string): void {
  job = id;
  bringUpDrafts(`mastwright:job:${id}:draft:`);
}

/** Half-entered items are found by their places: those that have other names by now go on under these. */
function bringUpDrafts(prefix: string): void {
  try {
    for (const key of Object.keys(localStorage)) {
      const now = prefix + renamed(key.slice(prefix.length));
      if (!key.startsWith(prefix) || now === key) continue;
      localStorage.setItem(now, localStorage.getItem(key) ?? '');
      localStorage.removeItem(key);
    }
  } catch {
    // See below: nothing is kept where storage is refused.
  }
}

export function kept<T>(key: string): T | null {
  try {
    const text = localStorage.getItem(nameOf(key));
    return text === null ? null : (JSON.parse(text) as T);
  } catch {
    return null; // Private windows may refuse storage: then nothing is kept beside the job.
  }
}

export function keep(key: string, value: unknown): void {
  try {
    if (value === null) localStorage.removeItem(nameOf(key));
    else localStorage.setItem(nameOf(key), JSON.stringify(value));
  } catch {
    // See above.
  }
}

/** Everything whose key begins so, by its key. */
export function keptBelow<T>(prefix: string): [string, T][] {
  const own = nameOf(prefix);
  try {
    const keys = Object.keys(localStorage).filter((key) => key.startsWith(own));
    return keys.flatMap((key): [string, T][] => {
      const name = prefix + key.slice(own.length);
      const value = kept<T>(name);
      return value === null ? [] : [[name, value]];
    });
  } catch {
    return []; // See above.
  }
}

/** Forgets everything whose key begins so. */
export function forgetBelow(prefix: string): void {
  forgetNames(nameOf(prefix));
}

/** Forgets all that was kept beside a job. */
export function forgetJob(id: string): void {
  forgetNames(`mastwright:job:${id}:`);
}

/** What was kept when there was one job now belongs to this one. */
export function adoptUnscoped(id: string): void {
  try {
    for (const key of Object.keys(localStorage)) {
      const name = key.slice('mastwright:'.length);
      if (!key.startsWith('mastwright:') || !OF_A_JOB.test(name)) continue;
      localStorage.setItem(`mastwright:job:${id}:${name}`, localStorage.getItem(key) ?? '');
      localStorage.removeItem(key);
    }
  } catch {
    // See above.
  }
}

function nameOf(key: string): string {
  return OF_A_JOB.test(key) ? `mastwright:job:${job}:${key}` : `mastwright:${key}`;
}

function forgetNames(prefix: string): void {
  try {
    for (const key of Object.keys(localStorage)) if (key.startsWith(prefix)) localStorage.removeItem(key);
  } catch {
    // See above.
  }
}
