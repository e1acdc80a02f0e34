import { expect, test, type Page } from '@playwright/test';
import { goTo, openBlank, openDemo } from './app';
import { everyAddress, walk } from './every_page';

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

async function forbidden(page: Page, where: string): Promise<string[]> {
  const text = (await page.locator('body').innerText()).replaceAll('\u00a0', ' ');
  return FORBIDDEN.flatMap(([what, pattern]) => {
    const said = pattern.exec(text)?.[0];
    return said === undefined ? [] : [`${where}: ${what}: “${said}”`];
  });
}

test('no page of the demo says what only its makers understand', async ({ page }) => {
  test.setTimeout(240_000);
  await openDemo(page);
  const found: string[] = [];
  const seen = new Set<string>();
  for (const address of await everyAddress(page)) {
    await walk(page, address, seen, async (where) => void found.push(...(await forbidden(page, where))));
  }
  expect([...new Set(found)]).toEqual([]);
});

test('nor does a yard with things begun, refused and at odds with one another', async ({ page }) => {
  test.setTimeout(120_000);
  await openBlank(page);
  // Two slopes that do not go together, a spot height off the plane, a tube too wide for its neighbour.
  const slope = async (bearing: string, degrees: string) => {
    await goTo(page, 'measure/slopes/new');
    await page.getByLabel('Compass bearing').fill(bearing);
    await page.getByTestId('next-question').tap();
    await page.getByRole('textbox', { name: 'Slope', exact: true }).fill(degrees);
    await page.getByTestId('keep-item').tap();
    await expect(page.getByTestId('keep-item')).toHaveCount(0);
  };
  for (const [bearing, degrees] of [['0', '2'], ['90', '1'], ['180', '3'], ['270', '9']] as const) {
    await slope(bearing, degrees);
  }
  await goTo(page, 'measure/heights/new');
  await page.getByText('On the map', { exact: true }).tap();
  await page.getByLabel('East of the first mark').fill('3');
  await page.getByLabel('North of it').fill('2');
  await page.getByTestId('next-question').tap();
  await page.getByLabel('Higher by').fill('-1.9');
  await page.getByTestId('keep-item').tap();
  const found: string[] = [];
  for (const address of ['measure', 'measure/slopes', 'measure/heights', 'checks', 'build', 'build/phase/pegs', 'build/phase/base', 'measure/log']) {
    await goTo(page, address);
    await page.waitForTimeout(1000);
    found.push(...(await forbidden(page, address)));
  }
  // A text that is refused, in a field that may be left empty.
  await goTo(page, 'parts/guys/0/anchor');
  const proof = page.getByLabel('Proof pull, if one was made');
  await proof.fill('0');
  await proof.blur();
  await expect(page.getByRole('alert').first()).toContainText('Allowed');
  found.push(...(await forbidden(page, 'a refused text')));
  expect(found).toEqual([]);
});
