import type { ClayFeel, SandFeel, SoilFeel } from '../../backend/model';
import { said } from '../../state/said';

/** Kinds of soil, each with how a neighbour tells it by hand (visual-manual tests as in field guides). */
export const SOILS: readonly { value: SoilFeel['kind']; name: string; hint: string }[] = [
  { value: 'unknown', name: 'Don’t know', hint: 'Nobody has looked' },
  { value: 'clay', name: 'Clay or silt', hint: 'A damp lump rolls into a thin thread' },
  { value: 'sand', name: 'Sand', hint: 'Gritty; a damp lump falls apart' },
  { value: 'loam', name: 'Garden soil', hint: 'A damp lump holds together but makes no thread' },
  { value: 'gravel', name: 'Gravel', hint: 'Stones, or stones and sand' },
  { value: 'rock', name: 'Rock', hint: 'The bar rings and does not go in' },
  { value: 'soft_or_fill', name: 'Mud, peat, loose fill', hint: 'The bar sinks in by itself' },
];

/** What the thumb tells of clay, a spade deep. */
export const CLAYS: readonly { value: ClayFeel; name: string; hint: string }[] = [
  { value: 'very_soft', name: 'Very soft', hint: 'A fist goes in with ease' },
  { value: 'soft', name: 'Soft', hint: 'The thumb goes in with ease' },
  { value: 'firm', name: 'Firm', hint: 'The thumb goes in with an effort' },
  { value: 'stiff', name: 'Stiff', hint: 'The thumb only dents it' },
  { value: 'very_stiff', name: 'Very stiff', hint: 'Only the thumbnail dents it' },
  { value: 'hard', name: 'Hard', hint: 'The thumbnail hardly marks it' },
];

const SANDS: readonly { value: SandFeel; name: string }[] = [
  { value: 'loose', name: 'Loose' },
  { value: 'medium', name: 'Medium' },
  { value: 'dense', name: 'Dense' },
];

/** What a plain bar tells of sand. */
export function sands(): readonly { value: SandFeel; name: string; hint: string }[] {
  const hints = {
    loose: 'The bar goes in by hand',
    medium: 'It goes in under a light hammer',
    dense: `It stops ${said('bar_stops')} down, even under a heavy hammer`,
  };
  return SANDS.map((sand) => ({ ...sand, hint: hints[sand.value] }));
}

/** The soil in a word or two, for a list. */
export function soilName(soil: SoilFeel | undefined): string {
  const kind = soil?.kind ?? 'unknown';
  const name = SOILS.find((one) => one.value === kind)?.name ?? '';
  if (soil?.kind === 'clay') return `${name}, ${find(CLAYS, soil.feel)}`;
  if (soil?.kind === 'sand')
    return `${name}, ${find(SANDS, soil.feel)}${soil.under_water ? ', under water' : ''}`;
  return name;
}

const find = <T>(list: readonly { value: T; name: string }[], value: T) =>
  (list.find((one) => one.value === value)?.name ?? '').toLowerCase();
