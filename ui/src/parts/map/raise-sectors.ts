import type { RaiseWays } from '../../backend/model';

export interface Sector {
  /** Degrees clockwise from north; the end may be beyond 360. */
  from: number;
  to: number;
  clear: boolean;
}

/** Runs of whole degrees as sectors that meet half-way between two degrees; what ends at north goes on with what begins
 * there. */
export function sectorsOf(bearings: RaiseWays['bearings']): Sector[] {
  const sectors: Sector[] = [];
  for (const { from_deg, to_deg, refused_by } of bearings) {
    const clear = refused_by === null;
    const last = sectors.at(-1);
    if (last?.clear === clear) last.to = to_deg + 0.5;
    else sectors.push({ from: from_deg - 0.5, to: to_deg + 0.5, clear });
  }
  const [first] = sectors;
  const last = sectors.at(-1);
  if (first && last && first !== last && first.clear === last.clear && last.to >= 359.5) {
    last.to = first.to + 360;
    sectors.shift();
  }
  return sectors;
}
