const sameYear = (a: Date, b: Date) => a.getFullYear() === b.getFullYear();

/** A moment in the words of the device's own language: `26 Nov, 18:40`. */
export function when(at: number): string {
  if (at === 0) return 'at a time not known';
  const [moment, now] = [new Date(at), new Date()];
  return moment.toLocaleString(undefined, {
    day: 'numeric',
    month: 'short',
    ...(sameYear(moment, now) ? {} : { year: 'numeric' }),
    hour: '2-digit',
    minute: '2-digit',
  });
}

/** Whether a version says it is older than one made before it. `versions`, newest first; a time not known says nothing. */
export function setBack(versions: readonly { at: number }[]): boolean {
  const known = versions.filter(({ at }) => at > 0);
  return known.some(({ at }, i) => at < (known[i + 1]?.at ?? 0));
}
