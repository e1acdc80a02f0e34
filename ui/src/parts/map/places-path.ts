import type { SitingArea } from '../../backend/model';

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

/** The cells of each kind as one path in metres, north up: a rectangle for each run within a row. */
export function pathsOf(area: SitingArea): Record<PlaceKind, string> {
  const parts: Record<PlaceKind, string[]> = { good: [], possible: [], closed: [] };
  const metres = (value: number) => value.toFixed(3);
  let cell = 0;
  for (const [number, count] of area.runs) {
    const state = area.states[number]!.state;
    const kind = KINDS[state];
    for (let left = count; left > 0;) {
      const column = cell % area.columns;
      const width = Math.min(left, area.columns - column);
      const east = area.from_m[0] + column * area.cell_m;
      const north = area.from_m[1] + Math.floor(cell / area.columns) * area.cell_m;
      parts[kind].push(
        `M${metres(east)} ${metres(-north)}h${metres(width * area.cell_m)}v${metres(-area.cell_m)}h${metres(-width * area.cell_m)}z`,
      );
      cell += width;
      left -= width;
    }
  }
  return { good: parts.good.join(''), possible: parts.possible.join(''), closed: parts.closed.join('') };
}

/** The number of the state of a place on the ground; none outside the area. */
export function stateAt(area: SitingArea, east: number, north: number): number | null {
  const column = Math.floor((east - area.from_m[0]) / area.cell_m);
  const row = Math.floor((north - area.from_m[1]) / area.cell_m);
  if (column < 0 || row < 0 || column >= area.columns || row >= area.rows) return null;
  let cell = row * area.columns + column;
  for (const [number, count] of area.runs) {
    if (cell < count) return number;
    cell -= count;
  }
  return null;
}
