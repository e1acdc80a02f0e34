import { HABITS } from '../backend/habits';
import { app } from './app.svelte';

/** A round figure as a sentence says it, in the user's own units. */
export const said = (habit: keyof typeof HABITS): string => HABITS[habit][app.units.system].said;
