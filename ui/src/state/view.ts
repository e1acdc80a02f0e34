/** Where the map's metres lie on the screen: `px = (east − centreEast) · scale`, north up. */
export interface View {
  east: number;
  north: number;
  /** Pixels per metre. */
  scale: number;
  width: number;
  height: number;
}

export const LEAST_SCALE = 1;
export const MOST_SCALE = 400;

export function toScreen(view: View, [east, north]: readonly [number, number]): [number, number] {
  return [
    view.width / 2 + (east - view.east) * view.scale,
    view.height / 2 - (north - view.north) * view.scale,
  ];
}

export function toGround(view: View, [x, y]: readonly [number, number]): [number, number] {
  return [view.east + (x - view.width / 2) / view.scale, view.north - (y - view.height / 2) / view.scale];
}

/** The whole of the bounds with a margin. */
export function fitted(
  bounds: { min: [number, number]; max: [number, number] },
  width: number,
  height: number,
  marginPx = 24,
): View {
  const across = Math.max(bounds.max[0] - bounds.min[0], 0.5);
  const up = Math.max(bounds.max[1] - bounds.min[1], 0.5);
  const scale = Math.min((width - 2 * marginPx) / across, (height - 2 * marginPx) / up);
  return {
    east: (bounds.min[0] + bounds.max[0]) / 2,
    north: (bounds.min[1] + bounds.max[1]) / 2,
    scale: clampScale(scale),
    width,
    height,
  };
}

/** Zooms so that the ground under the pixel stays under it. */
export function zoomed(view: View, factor: number, [x, y]: readonly [number, number]): View {
  const scale = clampScale(view.scale * factor);
  const [east, north] = toGround(view, [x, y]);
  return {
    ...view,
    scale,
    east: east - (x - view.width / 2) / scale,
    north: north + (y - view.height / 2) / scale,
  };
}

export function panned(view: View, dx: number, dy: number): View {
  return { ...view, east: view.east - dx / view.scale, north: view.north + dy / view.scale };
}

function clampScale(scale: number): number {
  return Math.min(MOST_SCALE, Math.max(LEAST_SCALE, scale));
}

/** The same view moved down as far as there is room, so that what it was fitted to stands clear of what lies over its
 * upper edge. */
export function clearOfTop(
  view: View,
  bounds: { min: [number, number]; max: [number, number] },
  topPx: number,
): View {
  const above = toScreen(view, bounds.max)[1];
  const below = view.height - toScreen(view, bounds.min)[1];
  const down = Math.max(0, Math.min(topPx - above, below - LEAST_BELOW_PX));
  return { ...view, north: view.north + down / view.scale };
}

const LEAST_BELOW_PX = 12;
