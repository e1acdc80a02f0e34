import { expect, it } from 'vitest';
import { pageOf } from './pages';

it.each([
  ['/yard/obstacles/3/shape/height_m', 'measure/things/3'],
  ['/yard/bearings/bearing_deg', 'measure/place'],
  ['/rig/guy_levels/1/attach_height_m', 'parts/guys/1'],
  ['/rig/guy_levels/0/rope/diameter_mm', 'parts/guys/0/rope'],
  ['/rig/guy_levels/1/holdfast/depth_m', 'parts/guys/1/holdfast'],
  ['/rig/guy_levels', 'parts/guys'],
  ['/yard/soil/feel', 'measure/soil'],
  ['/rig/topper/width_m', 'parts/topper'],
  ['/wind/margin_percent', 'checks/wind/air'],
  ['/placement/mast/east_m', 'map'],
  ['', 'measure'],
])('%s is entered on %s', (pointer, page) => expect(pageOf(pointer)).toBe(page));
