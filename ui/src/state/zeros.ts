import type { RestsOn, ZeroError } from '../backend/model';
import { keep, kept } from './kept';

/** The zero errors found for this device, one for each side it may rest on. They belong to the device, not to the
 * job: the browser, or the app's window, keeps them beside it. */
export const keptZeros = (): ZeroError[] => kept<ZeroError[]>('zeros') ?? [];

export function keepZero(zero: ZeroError): void {
  keep('zeros', [...keptZeros().filter((old) => old.rests_on !== zero.rests_on), zero]);
}

export function forgetZeros(): void {
  keep('zeros', null);
}

export const SIDE_NAMES: Record<RestsOn, string> = {
  back: 'on its back',
  screen: 'on its screen',
  left_edge: 'on its left edge',
  right_edge: 'on its right edge',
  bottom: 'upright',
  top: 'upside down',
};
