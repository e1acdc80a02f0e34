import type { Job, ObstacleKind, Shape } from '../../backend/model';
import { MISSING, type Begun } from '../../state/doc';
import { emptyFix } from '../../state/fix';

export const THING_NAMES: Record<ObstacleKind, string> = {
  tree: 'Tree',
  building: 'Building',
  barrier: 'Hedge, wall or fence',
  post: 'Post',
  path: 'Path or drive',
  keep_off: 'Ground to stay off',
};

/** A shape of a kind with everything still to be entered. */
export function emptyShape(kind: ObstacleKind, job: Job): Begun<Shape> {
  const at = emptyFix('bearing_tape', job);
  switch (kind) {
    case 'tree':
      return {
        kind,
        at,
        trunk_radius_m: MISSING,
        crown_radius_m: MISSING,
        crown_base_m: MISSING,
        height_m: MISSING,
      };
    case 'building':
      return { kind, outline: [], height_m: MISSING };
    case 'barrier':
      return { kind, what: 'hedge', line: [], thickness_m: MISSING, height_m: MISSING };
    case 'post':
      return { kind, at, radius_m: MISSING, height_m: MISSING };
    case 'path':
      return { kind, used_by: 'foot', line: [], width_m: MISSING, headroom_m: null };
    case 'keep_off':
      return { kind, outline: [] };
  }
}
