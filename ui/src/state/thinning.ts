import type { Version } from '../backend/store';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** Of versions this much older than the newest, the first one of each such stretch of time is kept. Each stretch is
 * whole stretches of the next finer step, so that what was kept for one is there for the other. */
const STEPS: readonly (readonly [olderThan: number, stretch: number])[] = [
  [30 * DAY, 7 * DAY],
  [DAY, DAY],
  [2 * HOUR, HOUR],
  [0, 5 * MINUTE],
];
/** The newest ones stay however close: they are what is left when the last one can't be read. */
const ALWAYS = 3;
const AT_MOST = 60;

/** Which versions are let go once the newest one stands: the older, the more thinly they are kept. */
export function letGo(versions: readonly Version[]): number[] {
  const oldestFirst = [...versions].sort((a, b) => a.n - b.n);
  const newest = oldestFirst.at(-1);
  const taken = new Set<string>();
  const kept = oldestFirst.filter((version, index) => {
    if (index >= oldestFirst.length - ALWAYS || !newest) return true;
    const stretch = STEPS.find(([age]) => newest.at - version.at >= age)?.[1];
    // Written after the newest one, by a clock that was set back since.
    if (stretch === undefined) return true;
    const name = `${stretch}/${Math.floor(version.at / stretch)}`;
    if (taken.has(name)) return false;
    taken.add(name);
    return true;
  });
  const left = new Set(kept.slice(-AT_MOST).map(({ n }) => n));
  return versions.filter(({ n }) => !left.has(n)).map(({ n }) => n);
}
