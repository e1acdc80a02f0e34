import type { Located, ServiceKind } from '../../backend/model';

/** Classes and colours of the APWA Uniform Color Code (ANSI Z535.1), which has none for what nobody knows. */
export const SERVICES: readonly { value: ServiceKind; name: string; colour?: string }[] = [
  { value: 'potable_water', name: 'Drinking water', colour: '#0a6edb' },
  { value: 'electric', name: 'Electric', colour: '#e3241b' },
  { value: 'gas_oil_steam', name: 'Gas, oil, steam', colour: '#ffd900' },
  { value: 'communications', name: 'Telephone, data', colour: '#ff7a00' },
  { value: 'sewer_drain', name: 'Sewer, drain', colour: '#149238' },
  { value: 'reclaimed_water', name: 'Reclaimed water', colour: '#8a3ffc' },
  { value: 'unknown', name: 'Nobody knows' },
];

export const LOCATED: readonly { value: Located; name: string; hint: string }[] = [
  { value: 'marked_by_utility', name: 'Marked by a locator', hint: 'Paint or flags on the ground' },
  { value: 'exposed', name: 'Seen', hint: 'In an open trench' },
  { value: 'guessed', name: 'Guessed', hint: 'Remembered, or from an old plan' },
];
