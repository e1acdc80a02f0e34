/**
 * Every page of the app by its address, the more particular ones first. `:which` stands for an item of a list, or
 * `new`. The router, the screens and the browser's walk through all pages read this one table.
 */
export const PAGES = [
  'measure',
  'measure/place',
  'measure/marks',
  'measure/marks/:which',
  'measure/slopes',
  'measure/slopes/flat',
  'measure/slopes/:which',
  'measure/soil',
  'measure/things',
  'measure/things/:which',
  'measure/wires',
  'measure/wires/:which',
  'measure/buried',
  'measure/buried/:which',
  'measure/boundary',
  'measure/heights',
  'measure/heights/:which',
  'measure/photos',
  'measure/walk',
  'measure/between',
  'measure/between/:which',
  'measure/bring',
  'measure/instruments',
  'measure/log',
  'measure/log/:which',
  'parts',
  'parts/rigs',
  'parts/tubes',
  'parts/guys',
  'parts/guys/:which',
  'parts/guys/:which/anchor',
  'parts/guys/:which/rope',
  'parts/base',
  'parts/stakes',
  'parts/strands',
  'parts/topper',
  'parts/units',
  'map',
  'build',
  'build/phase/:which',
  'build/calls',
  'build/workshop',
  'build/workshop/fit',
  'build/workshop/stages',
  'build/workshop/lift',
  'build/workshop/buy',
  'build/workshop/cut',
  'build/workshop/drawings',
  'build/workshop/circles',
  'build/workshop/base',
  'build/workshop/collars',
  'build/peg-out',
  'build/peg-out/:which',
  'build/cards',
  'build/cards/:which',
  'build/raising',
  'build/plumb',
  'build/lights',
  'build/tension',
  'build/tension/:which',
  'build/packing',
  'build/again',
  'build/season',
  'build/season/:which',
  'build/as-built',
  'build/as-built/:which',
  'checks',
  'checks/wind',
  'checks/wind/air',
  'checks/spread',
  'checks/shares',
  'checks/both',
  'checks/places',
  'checks/seen',
  'checks/seen/:which',
  // Of no job, and without the five places.
  'jobs',
  'jobs/:which',
  'devices',
  'codes',
  'take',
  'take/:which',
] as const;

export type PagePath = (typeof PAGES)[number];

export interface FoundPage {
  page: PagePath;
  /** What stands for `:which`. */
  which: string | undefined;
}

/** The page of an address; of one that is not there, the nearest page above it, and the map above all. */
export function pageAt(path: readonly string[]): FoundPage {
  for (let length = path.length; length > 0; length -= 1) {
    const parts = path.slice(0, length);
    for (const page of PAGES) {
      const names = page.split('/');
      const fits =
        names.length === length && names.every((name, i) => name === ':which' || name === parts[i]);
      if (fits) return { page, which: parts[names.indexOf(':which')] };
    }
  }
  return { page: 'map', which: undefined };
}
