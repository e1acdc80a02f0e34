import { expect, it } from 'vitest';
import { PAGES, pageAt } from './page-table';
import { TAB_NAMES } from './pages';

it.each([
  [['measure', 'slopes', 'flat'], 'measure/slopes/flat', undefined],
  [['measure', 'slopes', '2'], 'measure/slopes/:which', '2'],
  [['parts', 'guys', '1', 'rope'], 'parts/guys/:which/rope', '1'],
  [['build', 'as-built', 'guy:upper-1'], 'build/as-built/:which', 'guy:upper-1'],
  [['measure', 'nowhere', '3'], 'measure', undefined],
  [['nowhere'], 'map', undefined],
  [[], 'map', undefined],
])('%j leads to %s', (path, page, which) => expect(pageAt(path)).toEqual({ page, which }));

it('every page belongs to a tab and is found by its own address', () => {
  for (const page of PAGES) {
    expect([...Object.keys(TAB_NAMES), 'jobs', 'devices', 'codes', 'take']).toContain(page.split('/')[0]);
    expect(pageAt(page.replace(':which', '0').split('/')).page).toBe(page);
  }
});
