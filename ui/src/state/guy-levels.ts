import type { GuyLevel, Units } from '../backend/model';
import { freeId } from './ids';

/** Least height of an attachment that the job takes. */
const LEAST_M = 0.3;

export interface PlacedLevel {
  level: GuyLevel;
  /** Where in the job's list it stands: that is the order of entry. */
  index: number;
}

/** The levels as they sit on the mast, the highest first. */
export function topDown(levels: readonly GuyLevel[]): PlacedLevel[] {
  return levels
    .map((level, index) => ({ level, index }))
    .toSorted((a, b) => b.level.attach_height_m - a.level.attach_height_m);
}

/** Another level above or below the one there is, a copy in all else; null where there is no room for it. */
export function anotherLevel(
  levels: readonly GuyLevel[],
  where: 'above' | 'below',
  top_m: number,
  system: Units['system'],
): GuyLevel | null {
  const [only] = levels;
  if (!only) return null;
  const at = only.attach_height_m;
  const height = roundDown(where === 'below' ? at / 2 : top_m, system);
  const fits =
    where === 'below' ? height >= LEAST_M && height > only.anchor_eye_height_m : height > at + 0.005;
  if (!fits) return null;
  return {
    ...only,
    id: freeId(levels, 'level'),
    name: freeName(levels, where),
    attach_height_m: Math.min(height, top_m),
    // What was pulled were the other level's anchors.
    proof_pull_n: null,
    // What a thing may be pulled with is said of all guys on it.
    to_thing: null,
  };
}

/** To a length that is round on the user's own tape, never above it: the top is the most that the job takes. */
function roundDown(metres: number, system: Units['system']): number {
  const step_m = system === 'imperial' ? 0.0254 : 0.01;
  return Math.round(Math.floor(metres / step_m + 1e-6) * step_m * 1e6) / 1e6;
}

/** A guy is called by its level and its number: `Lower guy 2`. */
function freeName(levels: readonly GuyLevel[], where: 'above' | 'below'): string {
  const taken = new Set(levels.map((level) => level.name));
  const names = where === 'below' ? ['Lower guy', 'Lowest guy'] : ['Upper guy', 'Top guy'];
  return names.find((name) => !taken.has(name)) ?? `${names[0]} ${levels.length + 1}`;
}
