import type { Units } from '../../backend/model';

/** One step of the gust's slider: a mile an hour (exactly 0.44704 m/s), or half a metre a second. */
export function gustStep(units: Units): { m_per_s: number } {
  return { m_per_s: units.system === 'imperial' ? 0.44704 : 0.5 };
}

/** The slider's far end, 90 steps on: 90 mph, or 45 m/s. */
export const STEPS = 90;
