import type { Tab } from './route.svelte';

export const TAB_NAMES: Record<Tab, string> = {
  measure: 'Measure',
  parts: 'Parts',
  map: 'Map',
  build: 'Build',
  checks: 'Checks',
};

const YARD_PAGES: [RegExp, string][] = [
  [/^\/yard\/(place|surveyed_at|bearings)/, 'measure/place'],
  [/^\/yard\/(tape_held|instruments)/, 'measure/instruments'],
  [/^\/yard\/marks(\/\d+)?/, 'measure/marks'],
  [/^\/yard\/measurements(\/\d+)?/, 'measure/between'],
  [/^\/yard\/slopes(\/\d+)?/, 'measure/slopes'],
  [/^\/yard\/spot_heights(\/\d+)?/, 'measure/heights'],
  [/^\/yard\/obstacles(\/\d+)?/, 'measure/things'],
  [/^\/yard\/overhead_lines(\/\d+)?/, 'measure/wires'],
  [/^\/yard\/overhead(?!_)/, 'measure/wires'],
  [/^\/yard\/buried_services(\/\d+)?/, 'measure/buried'],
  [/^\/yard\/underground/, 'measure/buried'],
  [/^\/yard\/boundary/, 'measure/boundary'],
  [/^\/yard\/soil/, 'measure/soil'],
  [/^\/rig\/tubes/, 'parts/tubes'],
  [/^\/rig\/guy_levels(\/\d+)\/(?:holdfast|proof_pull_n)/, 'parts/guys/:which/holdfast'],
  [/^\/rig\/guy_levels(\/\d+)\/(?:rope|upper_end_m|lower_end_m)/, 'parts/guys/:which/rope'],
  [/^\/rig\/guy_levels(\/\d+)?/, 'parts/guys'],
  [/^\/rig\/base/, 'parts/base'],
  [/^\/rig\/stakes/, 'parts/stakes'],
  [/^\/rig\/strands/, 'parts/strands'],
  [/^\/rig\/topper/, 'parts/topper'],
  [/^\/units/, 'parts/units'],
  [/^\/wind/, 'checks/wind/air'],
  [/^\/placement/, 'map'],
  [/^\/as_built/, 'build/as-built'],
  [/^\/log/, 'measure/log'],
];

/** The page on which a field of the job is entered. */
export function pageOf(pointer: string): string {
  for (const [pattern, page] of YARD_PAGES) {
    const match = pattern.exec(pointer);
    if (!match) continue;
    const item = match[1];
    if (!item?.startsWith('/')) return page;
    return page.includes('/:which') ? page.replace('/:which', item) : page + item;
  }
  return 'measure';
}
