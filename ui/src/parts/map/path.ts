import type { Geometry } from '../../backend/model';

type Point = readonly [number, number];

/** Millimetres are finer than a pixel at the closest zoom, and keep the texts short. */
const mm = (metres: number) => Math.round(metres * 1000) / 1000;

/** SVG path data of a shape in its own metres; empty for signs and words, which have no size in metres. */
export function pathData(geometry: Geometry): string {
  switch (geometry.kind) {
    case 'line':
      return chain(geometry.points);
    case 'area':
      return geometry.points.length > 0 ? `${chain(geometry.points)}Z` : '';
    case 'circle':
      return oval(geometry.centre, geometry.radius_m, geometry.radius_m, 90);
    case 'ellipse':
      return oval(geometry.centre, geometry.semi_major_m, geometry.semi_minor_m, geometry.bearing_deg);
    default:
      return '';
  }
}

function chain(points: readonly Point[]): string {
  let data = '';
  for (const [x, y] of points) data += `${data === '' ? 'M' : 'L'}${mm(x)} ${mm(y)}`;
  return data;
}

/** Two half turns from one end of the major axis to the other; the axis lies along a bearing, y up. */
function oval([x, y]: Point, major: number, minor: number, bearingDeg: number): string {
  const along = (bearingDeg * Math.PI) / 180;
  const [dx, dy] = [major * Math.sin(along), major * Math.cos(along)];
  const turn = mm(90 - bearingDeg);
  const arc = (toX: number, toY: number) => `A${mm(major)} ${mm(minor)} ${turn} 1 0 ${mm(toX)} ${mm(toY)}`;
  return `M${mm(x + dx)} ${mm(y + dy)}${arc(x - dx, y - dy)}${arc(x + dx, y + dy)}Z`;
}
