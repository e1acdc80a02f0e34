import type { Angle, HeightReadings, LevelLine } from '../../backend/model';
import type { LooseDoc, LooseNumbers } from '../../state/loose.svelte';
import { within, type Path } from '../../state/pointer';

/** What is measured: a top over its own foot, a wire over the ground below it, or one point over another. */
export type HeightOf = 'top' | 'wire' | 'ground';
export type Method = HeightReadings['by'];

export const METHODS: Record<HeightOf, { value: Method; name: string; hint: string }[]> = {
  top: [
    { value: 'angle_and_tape', name: 'One angle and a tape', hint: 'Its foot can be taped to' },
    { value: 'two_angles', name: 'Two angles', hint: 'Its foot is out of reach' },
  ],
  wire: [
    {
      value: 'angle_and_tape',
      name: 'One angle and a tape',
      hint: 'Tape along the ground to right below it',
    },
    { value: 'two_angles', name: 'Two angles', hint: 'The ground below it is out of reach' },
  ],
  ground: [{ value: 'levelled', name: 'Level line', hint: 'Water level or string' }],
};

/** The readings entered so far; null while one is missing. */
export function readingsOf(
  by: Method,
  doc: LooseDoc,
  zero_sigma_deg: number,
  line: LevelLine,
  turned: boolean,
): HeightReadings | null {
  const n = (path: Path<LooseNumbers>) => doc.number(within(doc.root, path));
  const angle = (path: Path<LooseNumbers>): Angle | null => {
    const value_deg = n(path);
    return value_deg === null ? null : { value_deg, sigma_deg: doc.sigma(within(doc.root, path)) };
  };
  const [tape_m, eye_m, slope] = [n('/tape_m'), n('/eye_m'), angle('/slope_deg')];
  switch (by) {
    case 'angle_and_tape': {
      const top = angle('/top_deg');
      if (!top || tape_m === null || eye_m === null) return null;
      return { by, top, tape_m, slope, eye_m, zero_sigma_deg };
    }
    case 'two_angles': {
      const [near_top, far_top, foot] = [angle('/top_deg'), angle('/far_top_deg'), angle('/foot_deg')];
      if (!near_top || !far_top || !foot || tape_m === null || eye_m === null) return null;
      return { by, near_top, far_top, foot, tape_m, slope, eye_m, zero_sigma_deg };
    }
    case 'levelled': {
      const [known_m, new_m, length_m] = [n('/known_m'), n('/new_m'), n('/length_m')];
      if (known_m === null || new_m === null || length_m === null) return null;
      return { by, line, known_m, new_m, length_m, turned };
    }
  }
}
