import { ROUND_FIGURES } from '../backend/round-figures';
import { app } from './app.svelte';

/** A round figure as a sentence says it, in the user's own units. */
export const said = (habit: keyof typeof ROUND_FIGURES): string =>
  ROUND_FIGURES[habit][app.units.system].said;
