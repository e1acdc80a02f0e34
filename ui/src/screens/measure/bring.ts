import type {
  Obstacle,
  GeojsonKind,
  GeojsonShape,
  ImportAs,
  Job,
  ObstacleKind,
  Shape,
} from '../../backend/model';
import { hasMissing, type Begun } from '../../state/doc';
import { Draft } from '../../state/drafts.svelte';
import { jobAt, type Path } from '../../state/pointer';
import { emptyShape } from './things';

export type Use = 'leave_out' | 'boundary' | ObstacleKind;

/** What a shape of a kind can be, the likeliest first. */
export const USES: Record<GeojsonKind, Use[]> = {
  outline: ['keep_off', 'building', 'boundary', 'leave_out'],
  line: ['leave_out', 'path', 'barrier'],
  point: ['leave_out', 'tree', 'post'],
};

type Size =
  Extract<Path<Obstacle>, `/shape/${string}_m`> extends `/shape/${infer Name}`
    ? Exclude<Name, `${string}/${string}` | 'height_sigma_m'>
    : never;

/** The sizes that a map doesn't tell. */
export const SIZES: Record<ObstacleKind, [field: Size, label: string][]> = {
  tree: [
    ['height_m', 'Height'],
    ['crown_base_m', 'Height of the lowest branches'],
    ['crown_radius_m', 'Radius of the crown'],
    ['trunk_radius_m', 'Radius of the trunk'],
  ],
  building: [['height_m', 'Height, to the ridge']],
  barrier: [
    ['thickness_m', 'Thickness'],
    ['height_m', 'Height'],
  ],
  post: [
    ['radius_m', 'Radius'],
    ['height_m', 'Height'],
  ],
  path: [['width_m', 'Width']],
  keep_off: [],
};

export function isThing(use: Use): use is ObstacleKind {
  return use !== 'leave_out' && use !== 'boundary';
}

/** A thing on its way in: its sizes may be missing; its points stay in the file until it is brought in. */
export function thingDraft(shape: GeojsonShape, kind: ObstacleKind, job: Job): Draft<Obstacle> {
  const sizes = Object.entries(emptyShape(kind, job) as object).filter(
    ([field]) => !['at', 'line', 'outline'].includes(field),
  );
  const value = { name: shape.name, shape: Object.fromEntries(sizes) as Begun<Shape> };
  return new Draft<Obstacle>(value, jobAt(`/yard/obstacles/${job.yard.obstacles.length}`), null);
}

/** What a shape comes in as; null while a size is missing. */
export function importAs(use: Use, draft: Draft<Obstacle> | null): ImportAs | null {
  if (!isThing(use)) return { as: use };
  if (!draft || hasMissing(draft.value) || draft.hasProblems) return null;
  return { as: 'thing', name: draft.value.name, shape: draft.value.shape };
}
