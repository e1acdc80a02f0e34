import { expect, test, type Page } from '@playwright/test';
import { goTo, openBlank, openDemo } from './app';
import { feedCompass } from './phone';

const shots = process.env.SHOTS;
const shot = async (page: Page, name: string) => {
  if (shots) await page.screenshot({ path: `${shots}/${name}.png`, fullPage: true });
};

test('from peg to peg: one at a time, ticked off, taken back, and kept', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/peg-out');
  await expect(page.getByTestId('peg-out-headline')).toContainText('none set yet', { timeout: 30_000 });
  await shot(page, 'peg-out');
  await page.getByTestId('peg-next').tap();
  await expect(page.getByTestId('peg-place')).toContainText('1 of');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Mast');
  await expect(page.getByTestId('peg-ties')).toContainText('of the line');
  await shot(page, 'peg-mast');
  // Targets for gloves, and nothing wider than the phone.
  for (const id of ['peg-back', 'peg-done', 'peg-forward']) {
    const box = await page.getByTestId(id).boundingBox();
    expect(box!.height).toBeGreaterThanOrEqual(60);
  }
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  await page.getByTestId('peg-done').tap();
  await expect(page.getByTestId('peg-place')).toContainText('2 of');
  await page.getByTestId('peg-back').tap();
  await expect(page.getByTestId('peg-place')).toContainText('set');
  await goTo(page, 'build/peg-out');
  await expect(page.getByTestId('peg-out-headline')).toContainText('1 set');
  await page.getByTestId('undo').tap();
  await expect(page.getByTestId('peg-out-headline')).toContainText('none set yet');
  await page.getByTestId('redo').tap();
  await expect(page.getByTestId('peg-out-headline')).toContainText('1 set');
  await page.reload();
  await expect(page.getByTestId('peg-out-headline')).toContainText('1 set', { timeout: 30_000 });
});

test('an anchor says what goes in, and leads to where it really stands', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/peg-out');
  const anchor = page.getByRole('link', { name: /guy 1.* anchor/i }).first();
  await anchor.tap();
  await expect(page.getByTestId('peg-off')).toHaveText(/\d/);
  await expect(page.getByText('What goes in')).toBeVisible();
  await shot(page, 'peg-anchor');
  await page.getByTestId('peg-elsewhere').tap();
  await expect(page.getByTestId('keep-measured')).toBeVisible();
});

test('the compass points roughly, and refuses where there is none', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/peg-out/mast');
  await page.getByTestId('peg-compass-start').tap();
  await feedCompass(page, 10);
  const compass = page.getByTestId('peg-compass');
  await expect(compass).toContainText(/Turn to the (left|right)|That way, roughly/);
  await expect(compass).toContainText('The tapes decide.');
  await shot(page, 'peg-compass');
});

test('without a compass the tapes are pointed to', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/peg-out/mast');
  await page.getByTestId('peg-compass-start').tap();
  await expect(page.getByTestId('peg-compass')).toContainText('Go by the two tapes', { timeout: 10_000 });
});

test('tapes from peg to peg: read, kept, and a wrong one named', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/peg-out/tapes');
  await expect(page.getByTestId('peg-test')).toContainText('Not checked', { timeout: 30_000 });
  const cards = page.getByTestId('peg-tape');
  const count = await cards.count();
  expect(count).toBeGreaterThan(5);
  await shot(page, 'peg-tapes');
  const names = await cards.getByRole('heading').allTextContents();
  for (const name of names) {
    const card = cards.filter({ has: page.getByRole('heading', { name, exact: true }) });
    await card.locator('summary').click();
    const said = (await card.locator('details .number').innerText()).replace(/\s*±.*$/, '');
    // One tape a foot too long: hooked at the one-foot mark.
    const wrong = said.replace(/^(\d+)'/, (_, feet: string) => `${Number(feet) + 1}'`);
    await card.getByLabel('Read').fill(name === names[2] ? wrong : said);
    await card.getByLabel('Read').blur();
    await card.getByTestId('keep-peg-tape').tap();
    await expect(card.getByText('Expected')).toBeVisible();
  }
  await expect(page.getByTestId('peg-test')).toContainText('do not agree');
  await expect(page.getByTestId('peg-suspect').first()).toContainText(names[2]!);
  await shot(page, 'peg-doubted');
});

test('an empty yard says what it can', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'build/peg-out');
  await expect(page.getByTestId('peg-out-headline')).toBeVisible({ timeout: 30_000 });
});
