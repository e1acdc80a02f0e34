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

type Hold = (operation: 'hold', request: { samples: MotionSample[] }) => Promise<HoldState>;

export function hold(backend: Backend, samples: MotionSample[]): Promise<HoldState> {
  return (backend.call as unknown as Hold)('hold', { samples });
}
