import { expect, test } from '@playwright/test';
import { goTo, openBlank } from './app';
import { forbiddenWords } from './forbidden_words';

// The demo's pages are asked by every_page.spec.ts.
test('no yard with things begun, refused and at odds with one another says what only its makers understand', async ({ page }) => {
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
    found.push(...(await forbiddenWords(page, address)));
  }
  // A text that is refused, in a field that may be left empty.
  await goTo(page, 'parts/guys/0/anchor');
  const proof = page.getByLabel('Proof pull, if one was made');
  await proof.fill('0');
  await proof.blur();
  await expect(page.getByRole('alert').first()).toContainText('Allowed');
  found.push(...(await forbiddenWords(page, 'a refused text')));
  expect(found).toEqual([]);
});
