import { tokens, type JobPattern } from './pointer';
import type { Tab } from './route.svelte';

export const TAB_NAMES: Record<Tab, string> = {
  measure: 'Measure',
  parts: 'Parts',
  map: 'Map',
  build: 'Build',
  checks: 'Checks',
};

/** On which page what lies at or below a place is entered; the first that fits counts. A `*` stands for the item of a
 * list, which has a page of its own. */
const PAGES: readonly (readonly [place: JobPattern, page: string])[] = [
  ['/yard/place', 'measure/place'],
  ['/yard/surveyed_at', 'measure/place'],
  ['/yard/bearings', 'measure/place'],
  ['/yard/tape_held', 'measure/instruments'],
  ['/yard/instruments', 'measure/instruments'],
  ['/yard/marks/*', 'measure/marks/*'],
  ['/yard/marks', 'measure/marks'],
  ['/yard/measurements/*', 'measure/between/*'],
  ['/yard/measurements', 'measure/between'],
  ['/yard/slopes/*', 'measure/slopes/*'],
  ['/yard/slopes', 'measure/slopes'],
  ['/yard/spot_heights/*', 'measure/heights/*'],
  ['/yard/spot_heights', 'measure/heights'],
  ['/yard/obstacles/*', 'measure/things/*'],
  ['/yard/obstacles', 'measure/things'],
  ['/yard/overhead_lines/*', 'measure/wires/*'],
  ['/yard/overhead_lines', 'measure/wires'],
  ['/yard/overhead', 'measure/wires'],
  ['/yard/digging', 'build/calls'],
  ['/yard/buried_services/*', 'measure/buried/*'],
  ['/yard/buried_services', 'measure/buried'],
  ['/yard/underground', 'measure/buried'],
  ['/photos', 'measure/photos'],
  ['/yard/boundary', 'measure/boundary'],
  ['/yard/soil', 'measure/soil'],
  ['/yard/wet_season', 'measure/soil'],
  ['/rig/tubes/*/calliper', 'build/workshop/fit'],
  ['/rig/tubes', 'parts/tubes'],
  ['/rig/guy_levels/*/anchor', 'parts/guys/*/anchor'],
  ['/rig/guy_levels/*/proof_pull_n', 'parts/guys/*/anchor'],
  ['/rig/guy_levels/*/rope', 'parts/guys/*/rope'],
  ['/rig/guy_levels/*/upper_end_m', 'parts/guys/*/rope'],
  ['/rig/guy_levels/*/lower_end_m', 'parts/guys/*/rope'],
  ['/rig/guy_levels/*/collar', 'build/workshop/collars'],
  ['/rig/guy_levels/*', 'parts/guys/*'],
  ['/rig/guy_levels', 'parts/guys'],
  ['/rig/base', 'parts/base'],
  ['/rig/stakes', 'parts/stakes'],
  ['/rig/strands', 'parts/strands'],
  ['/rig/topper', 'parts/topper'],
  ['/units', 'parts/units'],
  ['/wind', 'checks/wind/air'],
  ['/pegging', 'build/peg-out'],
  ['/cards', 'build/cards'],
  ['/workshop/lift/pin_mm', 'build/workshop/stages'],
  ['/workshop/lift/rod_length_m', 'build/workshop/stages'],
  ['/workshop/lift/winch_height_m', 'build/workshop/stages'],
  ['/tensions', 'build/tension'],
  ['/season/packed', 'build/packing'],
  ['/season', 'build/season'],
  ['/lights', 'build/lights'],
  ['/workshop/lift', 'build/workshop/lift'],
  ['/workshop/base', 'build/workshop/base'],
  ['/workshop/winch_plate', 'build/workshop/lift'],
  ['/workshop/stocks', 'build/workshop/cut'],
  ['/workshop/saw_cut_mm', 'build/workshop/cut'],
  ['/workshop/ring', 'build/workshop/circles'],
  ['/workshop/strand', 'build/workshop/circles'],
  ['/workshop/topper_hole_mm', 'build/workshop/circles'],
  ['/workshop', 'build/workshop'],
  ['/raising', 'build/raising'],
  ['/placement', 'map'],
  ['/standpoints/*', 'checks/seen/*'],
  ['/standpoints', 'checks/seen'],
  ['/as_built', 'build/as-built'],
  ['/log', 'measure/log'],
];

/** The address of the page of the same item, wherever it lies now by `to`; of its list, where it is gone. */
export function pageCarried(address: string, to: (pointer: string) => string | null): string {
  const at = address.split('/');
  for (const [place, page] of PAGES) {
    const steps = page.split('/');
    const which = steps.indexOf('*');
    const fits = steps.every((step, i) => step === at[i] || (step === '*' && /^\d+$/.test(at[i] ?? '')));
    if (which < 0 || !fits) continue;
    const now = to(`${place.slice(0, place.indexOf('/*'))}/${at[which]}`);
    if (now === null) return steps.slice(0, which).join('/');
    return at.with(which, now.slice(now.lastIndexOf('/') + 1)).join('/');
  }
  return address;
}

/** The page on which a field of the job is entered. */
export function pageOf(pointer: string): string {
  const at = tokens(pointer);
  for (const [place, page] of PAGES) {
    const steps = tokens(place);
    const fits = steps.every((step, i) => step === at[i] || (step === '*' && /^\d+$/.test(at[i] ?? '')));
    if (fits) return page.replace('*', at[steps.indexOf('*')] ?? '');
  }
  return 'measure';
}
