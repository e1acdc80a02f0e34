import { describe, expect, it } from 'vitest';
import type { SitingArea, SitingPatterns } from '../../backend/model';
import { hatchOf } from './pattern-hatch';
import { pathsOf, patternPaths, stateAt } from './places-path';

/** Two rows of three half-metre cells from (10, 20): good good possible / possible closed closed. */
const area: SitingArea = {
  from_m: [10, 20],
  cell_m: 0.5,
  columns: 3,
  rows: 2,
  states: [{ state: 'good' }, { state: 'possible' }, { state: 'refused', by: 0 }],
  runs: [
    [0, 2],
    [1, 2],
    [2, 2],
  ],
};

describe('the area of places', () => {
  it('is drawn row by row, north up', () => {
    const paths = pathsOf(area);
    expect(paths.good).toBe('M10.000 -20.000h1.000v-0.500h-1.000z');
    // A run that goes on in the next row is two rectangles.
    expect(paths.possible).toBe('M11.000 -20.000h0.500v-0.500h-0.500zM10.000 -20.500h0.500v-0.500h-0.500z');
    expect(paths.closed).toBe('M10.500 -20.500h1.000v-0.500h-1.000z');
  });

  it('tells the state of a place', () => {
    expect(stateAt(area, 10.9, 20.1)).toBe(0);
    expect(stateAt(area, 11.2, 20.1)).toBe(1);
    expect(stateAt(area, 10.2, 20.7)).toBe(1);
    expect(stateAt(area, 10.6, 20.7)).toBe(2);
    expect(stateAt(area, 9.9, 20.7)).toBeNull();
    expect(stateAt(area, 10.2, 21.1)).toBeNull();
  });

  /** nothing nothing nothing / nothing, opened by the second pattern, perhaps by the first. */
  const patterns: SitingPatterns = {
    tried: [],
    states: [{ state: 'nothing' }, { state: 'opens', by: 1 }, { state: 'may_open', by: 0 }],
    runs: [
      [0, 4],
      [1, 1],
      [2, 1],
    ],
    stopped: false,
  };

  it('has the cells of each pattern that a whole plan accepted', () => {
    const paths = patternPaths(area, patterns);
    expect([...paths]).toEqual([[1, 'M10.500 -20.500h0.500v-0.500h-0.500z']]);
    expect(stateAt(area, 11.2, 20.7, patterns.runs)).toBe(2);
  });

  it('hatches no two patterns alike', () => {
    const hatches = [0, 1, 2, 3, 4, 5].map(hatchOf);
    expect(new Set(hatches).size).toBe(6);
  });
});
