/** A short id that no item of the list has yet: `slope-3`. */
export function freeId(list: readonly { id: string }[], stem: string): string {
  const taken = new Set(list.map((item) => item.id));
  for (let n = list.length + 1; ; n++) {
    const id = `${stem}-${n}`;
    if (!taken.has(id)) return id;
  }
}

/** The next free letter for a mark: A, B, … Z, then M27, M28, … */
export function freeLetter(list: readonly { id: string }[]): string {
  const taken = new Set(list.map((item) => item.id));
  for (let n = 0; ; n++) {
    const id = n < 26 ? String.fromCharCode(65 + n) : `M${n + 1}`;
    if (!taken.has(id)) return id;
  }
}
