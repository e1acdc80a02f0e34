import type { LabelSays } from '../../../backend/model';

/** What a label says. */
export const LABEL_SAYS: readonly { value: LabelSays; name: string }[] = [
  { value: 'yes', name: 'Yes' },
  { value: 'no', name: 'No' },
  { value: 'unsaid', name: 'Not looked yet' },
];
