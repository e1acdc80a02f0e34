import type { Backend } from './backend';

/** What the engine says of a phone that should lie still. */
export interface HoldState {
  motion: 'no_readings' | 'axes_missing' | 'moving' | 'settling' | 'still';
  still: boolean;
  held_ms: number;
  needed_ms: number;
  tilt: { long_edge_deg: number; short_edge_deg: number; standard_uncertainty_deg: number } | null;
}

/** One motion event: gravity with any movement, m/s² in the phone's axes. */
export interface MotionSample {
  time_ms: number;
  acceleration: [number, number, number];
}

/** Which way a resting phone's readings point: browsers on iOS give the opposite of everybody else. */
export type GravitySign = 'up' | 'down';

type Hold = (
  operation: 'hold',
  request: { samples: MotionSample[]; sign: GravitySign },
) => Promise<HoldState>;

export function hold(backend: Backend, samples: MotionSample[], sign: GravitySign): Promise<HoldState> {
  return (backend.call as unknown as Hold)('hold', { samples, sign });
}
