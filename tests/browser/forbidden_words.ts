import type { Page } from '@playwright/test';

/** What no screen says. */
const FORBIDDEN: [string, RegExp][] = [
  ['an internal id', /\b(?:height|slope|thing|wire|buried|between|level|reading|guy_level)-\d+\b/],
  ['a pointer into the document', /\/(?:rig|yard|placement)\/\w+/],
  ['null', /\bor null\b|\bnull\b/],
  ['a tail on a row', /\(from memory\)|, from memory\b/],
  ['a number that is as large as what it falls short of', /(?:measured|found) ([^,±]+?)(?: ±[^,]*)?, needed at least \1(?=$|[\s.,])/m],
  ['a button to drop something', /\bDrop it\b|\bDrop this\b/],
  ['Later', /^Later$/m],
  ['Go on', /\bGo on\b/],
  ['a statistician’s word', /\b[Ss]tandard deviation\b/],
];

/** What of it a page says; every_page.spec.ts asks it of all pages. */
export async function forbiddenWords(page: Page, where: string): Promise<string[]> {
  const text = (await page.locator('body').innerText()).replaceAll('\u00a0', ' ');
  return FORBIDDEN.flatMap(([what, pattern]) => {
    const said = pattern.exec(text)?.[0];
    return said === undefined ? [] : [`${where}: ${what}: “${said}”`];
  });
}
