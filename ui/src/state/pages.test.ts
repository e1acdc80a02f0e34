import { expect, it } from 'vitest';
import text from '../../../docs/job.schema.json?raw';
import { pageCarried, pageOf } from './pages';

it.each([
  ['/yard/obstacles/3/shape/height_m', 'measure/things/3'],
  ['/yard/bearings/bearing_deg', 'measure/place'],
  ['/rig/guy_levels/1/attach_height_m', 'parts/guys/1'],
  ['/rig/guy_levels/0/rope/diameter_mm', 'parts/guys/0/rope'],
  ['/rig/guy_levels/1/anchor/depth_m', 'parts/guys/1/anchor'],
  ['/rig/guy_levels/1/collar/held', 'build/workshop/collars'],
  ['/rig/tubes/1/calliper/coupling_mm', 'build/workshop/fit'],
  ['/rig/tubes/1/pin_hole_mm', 'parts/tubes'],
  ['/workshop/lift/pin_mm', 'build/workshop/stages'],
  ['/rig/guy_levels', 'parts/guys'],
  ['/yard/soil/feel', 'measure/soil'],
  ['/rig/topper/width_m', 'parts/topper'],
  ['/wind/margin_percent', 'checks/wind/air'],
  ['/placement/mast/east_m', 'map'],
  ['/yard/overhead/distance_m', 'measure/wires'],
  ['/yard/overhead_lines/2/sag_m', 'measure/wires/2'],
  ['', 'measure'],
])('%s is entered on %s', (pointer, page) => expect(pageOf(pointer)).toBe(page));

it.each([
  ['measure/slopes/2', 'measure/slopes/5'],
  ['parts/guys/2/rope', 'parts/guys/5/rope'],
  ['measure/slopes/1', 'measure/slopes'],
  ['parts/guys/1/rope', 'parts/guys'],
  ['measure/slopes/new', 'measure/slopes/new'],
  ['measure/slopes', 'measure/slopes'],
  ['map', 'map'],
])('what %s is about has moved to %s, or is gone', (address, now) => {
  const to = (pointer: string) => (pointer.endsWith('/1') ? null : pointer.replace('/2', '/5'));
  expect(pageCarried(address, to)).toBe(now);
});

interface Schema {
  properties: Record<string, { $ref?: string }>;
}

it('every field of the job has its page', () => {
  const schema = JSON.parse(text) as Schema & { $defs: Record<string, Schema> };
  const below = (part: string) =>
    Object.keys(schema.$defs[part]?.properties ?? {}).map((name) => `/${part.toLowerCase()}/${name}`);
  const places = [...below('Yard'), ...below('Rig'), '/units', '/placement', '/wind', '/as_built', '/log'];
  expect(places.length).toBeGreaterThan(25);
  expect(places.filter((place) => pageOf(place) === 'measure')).toEqual([]);
});
