import type { AnchorKind, Pickets } from '../../backend/model';
import { MISSING, type Begun } from '../../state/doc';

/** What guys can be made fast to. */
export const ANCHOR_KINDS: readonly { value: AnchorKind['kind']; name: string; hint: string }[] = [
  { value: 'unknown', name: 'Don’t know yet', hint: 'Only a proof pull shows what it holds' },
  { value: 'screw', name: 'Screw anchor', hint: 'Turned in along the line of the guy' },
  { value: 'plate', name: 'Buried plate', hint: 'The hole filled and trodden firm' },
  { value: 'deadman', name: 'Buried log or timber', hint: 'Level, across the pull' },
  { value: 'pickets', name: 'Wooden pickets', hint: 'Driven and lashed in line' },
  { value: 'stake', name: 'One steel bar', hint: 'No rule shows it against being drawn out' },
  { value: 'ballast', name: 'A weight on the ground', hint: 'Blocks, a full barrel' },
];

/** Least size of the pickets that the rule is for. */
export const PICKETS: readonly { value: Pickets; name: string; hint?: string }[] = [
  { value: 'single', name: '1', hint: 'One alone' },
  { value: 'one_one', name: '1–1', hint: 'Two in line' },
  { value: 'one_one_one', name: '1–1–1', hint: 'Three in line' },
  { value: 'two_one', name: '2–1', hint: 'Two, then one' },
  { value: 'three_two_one', name: '3–2–1', hint: 'Three, two, one' },
];

/** An anchor of a kind with its numbers still to be entered; the two first need none. */
export function begunAnchor(kind: AnchorKind['kind']): Begun<AnchorKind> {
  switch (kind) {
    case 'unknown':
      return { kind };
    case 'pickets':
      return { kind, pattern: 'single' };
    case 'screw':
      return { kind, shaft: 'round', shaft_mm: MISSING, torque_nm: null, helix_mm: null, depth_m: null };
    case 'plate':
      return { kind, side_m: MISSING, depth_m: MISSING };
    case 'deadman':
      return { kind, length_m: MISSING, face_m: MISSING, is_log: true, depth_m: MISSING };
    case 'stake':
      return { kind, diameter_mm: MISSING, driven_m: MISSING };
    case 'ballast':
      return { kind, mass_kg: MISSING };
  }
}
