import type { Plan, Scene, Subject } from '../../backend/model';
import { sameSubject } from '../../state/subjects';

/** Where on the scene a subject lies: its sign, else the middle of its first shape. */
export function anchorOf(scene: Scene, subject: Subject): [number, number] | null {
  // The base has no sign of its own: it lies under the mast.
  if (subject.kind === 'base') return anchorOf(scene, { kind: 'mast' });
  const shapes = scene.shapes.filter((shape) => sameSubject(shape.subject, subject));
  for (const { geometry } of shapes) if (geometry.kind === 'sign') return geometry.at;
  for (const { geometry } of shapes) {
    if (geometry.kind === 'circle' || geometry.kind === 'ellipse') return geometry.centre;
    if (geometry.kind === 'line' || geometry.kind === 'area') return middle(geometry.points);
  }
  return null;
}

function middle(points: readonly [number, number][]): [number, number] | null {
  if (points.length === 0) return null;
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
}

/** The mast with its guys and the circle it could fall in. */
export function workBounds({ mast, guys }: Plan): { min: [number, number]; max: [number, number] } {
  const reach = 1.25 * Math.max(1, mast.fall_radius_m, ...guys.map((guy) => guy.radius_m));
  return {
    min: [mast.east_m - reach, mast.north_m - reach],
    max: [mast.east_m + reach, mast.north_m + reach],
  };
}
