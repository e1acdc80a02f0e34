import type { Side } from '../backend/model';

/** Left and right as choices. */
export const sides: readonly { value: Side; name: string }[] = [
  { value: 'left', name: 'Left' },
  { value: 'right', name: 'Right' },
];
