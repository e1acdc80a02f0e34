import type { Severity } from '../backend/model';

/** Worst first, in our words; each with a mark of its own, so that colour is never alone. */
export const SEVERITIES = ['stop', 'unchecked', 'caution', 'note'] as const satisfies readonly Severity[];

export const SEVERITY_NAMES: Record<Severity, string> = {
  stop: 'Stop',
  unchecked: 'Somebody must check',
  caution: 'Think again',
  note: 'Good to know',
};
