import type { Located } from '../../backend/model';

export const LOCATED: readonly { value: Located; name: string; hint: string }[] = [
  { value: 'marked_by_utility', name: 'Marked by a locator', hint: 'Paint or flags on the ground' },
  { value: 'exposed', name: 'Seen', hint: 'In an open trench' },
  { value: 'guessed', name: 'Guessed', hint: 'Remembered, or from an old plan' },
];
