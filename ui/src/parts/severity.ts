import type { Severity, Verdict } from '../backend/model';

/** Worst first, in our words; each with a mark of its own, so that colour is never alone. */
export const SEVERITIES = ['stop', 'unchecked', 'caution', 'note'] as const satisfies readonly Severity[];

export const SEVERITY_NAMES: Record<Severity, string> = {
  stop: 'Stop',
  unchecked: 'Somebody must check',
  caution: 'Think again',
  note: 'Good to know',
};

/** What is said where there is no verdict, because there is no plan or nobody has judged it yet. */
export const NOT_KNOWN = 'Not known yet';

/** The mark of a verdict. There is none for "all is well": nobody can say that. */
export function verdictSign(verdict: Verdict | null): Severity {
  switch (verdict?.verdict) {
    case 'stop':
      return 'stop';
    case 'look':
      return verdict.cautions > 0 ? 'caution' : 'note';
    default:
      return 'unchecked';
  }
}
