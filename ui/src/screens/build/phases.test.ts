import { expect, it } from 'vitest';
import { pageAt } from '../../state/page-table';
import { PHASES, phaseAt } from './phases';

it('leads from every phase to pages that there are', () => {
  for (const phase of PHASES) {
    expect(pageAt(phaseAt(phase.id).split('/')).page).not.toBe('build');
    for (const { to } of phase.pages) {
      // Of an item, too: what stands for `:which` is the rest of its address.
      const { page, which } = pageAt(to.split('/'));
      expect(page.replace(':which', which ?? '')).toBe(to);
    }
  }
});

it('shows each part of the plan in one phase', () => {
  const shown = PHASES.flatMap(({ sections }) => sections.map(({ id }) => id));
  expect(new Set(shown).size).toBe(shown.length);
  // What the engine calls the parts of its report (`ReportSection.id`), but for what is missing, which Checks has.
  const parts = ['as_built', 'base', 'clearance', 'ground', 'guy', 'mast', 'north', 'peg', 'ring'];
  expect(shown.toSorted()).toEqual(parts);
});
