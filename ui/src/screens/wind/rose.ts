import type { DirectionLimit } from '../../backend/model';

type Place = readonly [number, number];

/** The bearing from the middle of a rose to a tap, to the next of its directions: where the wind comes from. */
export function fromOf([east, north]: Place, [toEast, toNorth]: Place): number {
  const degrees = (Math.atan2(toEast - east, toNorth - north) * 180) / Math.PI;
  return ((Math.round(degrees / 5) * 5 + 360) % 360) + 0;
}

/** A place so far from the middle in a bearing. */
export function pointed([east, north]: Place, bearingDeg: number, far: number): [number, number] {
  const angle = (bearingDeg * Math.PI) / 180;
  return [east + far * Math.sin(angle), north + far * Math.cos(angle)];
}

/** Which of the directions looks at a bearing; −1 where none within half a step has been looked at. */
export function nearest(directions: readonly DirectionLimit[], fromDeg: number): number {
  return directions.findIndex((one) => Math.abs(((one.from_deg - fromDeg + 540) % 360) - 180) <= 2.5);
}
