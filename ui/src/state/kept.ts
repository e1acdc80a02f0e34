/** Small things kept in the browser beside the job: texts not accepted yet, half-entered items, the skin. */
export function kept<T>(key: string): T | null {
  try {
    const text = localStorage.getItem(`mastwright:${key}`);
    return text === null ? null : (JSON.parse(text) as T);
  } catch {
    return null; // Private windows may refuse storage: then nothing is kept beside the job.
  }
}

export function keep(key: string, value: unknown): void {
  try {
    if (value === null) localStorage.removeItem(`mastwright:${key}`);
    else localStorage.setItem(`mastwright:${key}`, JSON.stringify(value));
  } catch {
    // See above.
  }
}

/** Forgets everything whose key begins so. */
export function forgetBelow(prefix: string): void {
  try {
    for (const key of Object.keys(localStorage)) {
      if (key.startsWith(`mastwright:${prefix}`)) localStorage.removeItem(key);
    }
  } catch {
    // See above.
  }
}
