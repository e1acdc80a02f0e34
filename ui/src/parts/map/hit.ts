import type { Scene, SceneShape, Subject } from '../../backend/model';
import { toScreen, type View } from '../../state/view';

type Pixel = readonly [number, number];

/** How far from a thing a gloved finger may land, in pixels. */
const REACH_PX = 26;
/** A point is meant before a line that runs under it, and a line before an area that it crosses. */
const SIGN_LEAD_PX = 14;
const AREA_LAG_PX = 18;
/** Contours lie everywhere: the ground is meant only where nothing else is near. */
const GROUND_LAG_PX = 18.5;

/** What a tap means: the nearest thing with a subject; null where there is nothing near. */
export function subjectAt(scene: Scene, view: View, tap: Pixel): Subject | null {
  let best: Subject | null = null;
  let least = REACH_PX;
  for (const { subject, geometry } of scene.shapes) {
    if (!subject) continue;
    const lag = subject.kind === 'ground' ? GROUND_LAG_PX : 0;
    const distance = distanceTo(geometry, view, tap) + lag;
    // A later shape lies on top: it wins a tie.
    if (distance <= least) {
      least = distance;
      best = subject;
    }
  }
  return best;
}

function distanceTo(geometry: SceneShape['geometry'], view: View, tap: Pixel): number {
  switch (geometry.kind) {
    case 'sign':
      return between(toScreen(view, geometry.at), tap) - SIGN_LEAD_PX;
    case 'words':
      return between(toScreen(view, geometry.at), tap);
    case 'line':
      return toChain(screen(view, geometry.points), tap, false);
    case 'area': {
      const outline = screen(view, geometry.points);
      return inside(outline, tap) ? AREA_LAG_PX : Math.max(toChain(outline, tap, true), AREA_LAG_PX);
    }
    case 'circle': {
      const fromEdge = between(toScreen(view, geometry.centre), tap) - geometry.radius_m * view.scale;
      return Math.abs(fromEdge) + AREA_LAG_PX / 2;
    }
    case 'ellipse':
      return Math.max(between(toScreen(view, geometry.centre), tap) - geometry.semi_major_m * view.scale, 0);
  }
}

const screen = (view: View, points: readonly [number, number][]) => points.map((p) => toScreen(view, p));

const between = (a: Pixel, b: Pixel) => Math.hypot(a[0] - b[0], a[1] - b[1]);

function toChain(points: Pixel[], tap: Pixel, closed: boolean): number {
  let least = Infinity;
  for (let i = closed ? 0 : 1; i < points.length; i++) {
    const from = points[(i + points.length - 1) % points.length];
    const to = points[i];
    if (from && to) least = Math.min(least, toSegment(from, to, tap));
  }
  return least;
}

function toSegment(from: Pixel, to: Pixel, tap: Pixel): number {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = dx * dx + dy * dy;
  const along = long === 0 ? 0 : ((tap[0] - from[0]) * dx + (tap[1] - from[1]) * dy) / long;
  const at = Math.min(1, Math.max(0, along));
  return between([from[0] + at * dx, from[1] + at * dy], tap);
}

/** Crossings of a ray to the right: odd inside. */
function inside(outline: Pixel[], [x, y]: Pixel): boolean {
  let within = false;
  for (let i = 0; i < outline.length; i++) {
    const a = outline[i] as Pixel;
    const b = outline[(i + 1) % outline.length] as Pixel;
    if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) within = !within;
  }
  return within;
}
