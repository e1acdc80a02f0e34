import { expect, test, type Page } from '@playwright/test';
import { goTo, openBlank, openDemo, savedJob } from './app';

interface Kept {
  lights: { tested: { strand: string; lit: boolean }[]; circuit: { breaker_amps: number | null } };
}

const testedOf = async (page: Page, strand: string) =>
  (await savedJob<Kept>(page))?.lights.tested.find((test) => test.strand === strand)?.lit;

test('a strand is tapped lit, dark and untried, and what the labels leave open is said', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/lights');
  await expect(page.getByTestId('lights-headline')).toContainText('3 things are not known yet', { timeout: 30_000 });
  const strand = page.getByRole('button', { name: 'Strand 19: not tried' });
  await strand.tap();
  await expect(page.getByRole('button', { name: 'Strand 19: lit' })).toBeVisible({ timeout: 20_000 });
  await expect(page.getByTestId('lights-headline')).toContainText('2 things', { timeout: 20_000 });
  await page.getByRole('button', { name: 'Strand 19: lit' }).tap();
  const dark = page.getByRole('button', { name: 'Strand 19: dark' });
  await expect(dark).toBeVisible({ timeout: 20_000 });
  // A dark strand is a stop, not an open question.
  await expect(page.getByTestId('lights-card').first()).toContainText('19', { timeout: 20_000 });
  await expect(page.getByTestId('lights-headline')).toHaveClass(/stop/, { timeout: 20_000 });
  await expect.poll(() => testedOf(page, '19')).toBe(false);
  await dark.tap();
  await expect(page.getByRole('button', { name: 'Strand 19: not tried' })).toBeVisible({ timeout: 20_000 });
  await expect.poll(() => testedOf(page, '19')).toBeUndefined();
  expect((await strand.boundingBox())!.height).toBeGreaterThanOrEqual(48);
});

test('too small a breaker is a stop; an empty field is not known again, never enough', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/lights');
  const takes = page.getByTestId('lights-card').nth(1);
  await expect(takes).toContainText('100.8 W', { timeout: 30_000 });
  const breaker = page.getByTestId('breaker');
  // 100.8 W at 120 V, a quarter more for long burning, and 2.5 A beside it: 3.55 A by hand.
  await expect(takes).toContainText('3.55 A');
  await breaker.fill('3');
  await breaker.blur();
  await expect(page.getByTestId('lights-headline')).toHaveClass(/stop/, { timeout: 20_000 });
  await breaker.fill('');
  await breaker.blur();
  await expect(page.getByTestId('lights-headline')).toHaveClass(/not_known/, { timeout: 20_000 });
  await expect.poll(async () => (await savedJob<Kept>(page))?.lights.circuit.breaker_amps ?? null).toBeNull();
});

test('the lead lies on its own map with its way and loops', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/lights');
  await expect(page.getByTestId('lead-map').locator('svg')).toBeVisible({ timeout: 30_000 });
  await expect(page.getByTestId('lights-card').nth(2)).toContainText('drip loops');
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
});

test('a mast without strands takes no current, and no sum is shown', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'build/lights');
  await expect(page.locator('main')).toContainText('no strands on this mast', { timeout: 30_000 });
  await expect(page.getByTestId('lights-card')).toHaveCount(0);
});
