import type { SitingArea, SitingPatterns } from '../../backend/model';

/** How a cell is drawn. */
export type PlaceKind = 'good' | 'possible' | 'closed';

/** What hangs on something that nobody knows is no more than possible. */
const KINDS: Record<SitingArea['states'][number]['state'], PlaceKind> = {
  good: 'good',
  as_far_as_known: 'possible',
  possible: 'possible',
  refused_by_plan: 'closed',
  refused: 'closed',
};

const metres = (value: number) => value.toFixed(3);

/** Cells in runs as one path for each kind, in metres, north up: a rectangle for each run within a row. */
function inPaths<K>(
  area: SitingArea,
  runs: SitingArea['runs'],
  kindOf: (state: number) => K | null,
): Map<K, string> {
  const parts = new Map<K, string[]>();
  let cell = 0;
  for (const [number, count] of runs) {
    const kind = kindOf(number);
    for (let left = count; left > 0;) {
      const column = cell % area.columns;
      const width = Math.min(left, area.columns - column);
      const east = area.from_m[0] + column * area.cell_m;
      const north = area.from_m[1] + Math.floor(cell / area.columns) * area.cell_m;
      if (kind !== null) {
        const path = `M${metres(east)} ${metres(-north)}h${metres(width * area.cell_m)}v${metres(-area.cell_m)}h${metres(-width * area.cell_m)}z`;
        parts.set(kind, [...(parts.get(kind) ?? []), path]);
      }
      cell += width;
      left -= width;
    }
  }
  return new Map([...parts].map(([kind, all]) => [kind, all.join('')]));
}

/** The cells of each kind. */
export function pathsOf(area: SitingArea): Record<PlaceKind, string> {
  const paths = inPaths(area, area.runs, (number) => KINDS[area.states[number]!.state]);
  const of = (kind: PlaceKind) => paths.get(kind) ?? '';
  return { good: of('good'), possible: of('possible'), closed: of('closed') };
}

/** The cells that each of the patterns tried opens, by its number; those that it only may open are not among them. */
export function patternPaths(area: SitingArea, patterns: SitingPatterns): Map<number, string> {
  return inPaths(area, patterns.runs, (number) => {
    const state = patterns.states[number]!;
    return state.state === 'opens' ? state.by : null;
  });
}

/** The number of the state of a place on the ground; none outside the area. */
export function stateAt(area: SitingArea, east: number, north: number, runs = area.runs): number | null {
  const column = Math.floor((east - area.from_m[0]) / area.cell_m);
  const row = Math.floor((north - area.from_m[1]) / area.cell_m);
  if (column < 0 || row < 0 || column >= area.columns || row >= area.rows) return null;
  let cell = row * area.columns + column;
  for (const [number, count] of runs) {
    if (cell < count) return number;
    cell -= count;
  }
  return null;
}
