import { expect, test } from '@playwright/test';
import { goTo, openBlank, openDemo } from './app';

test('every ± is parted among readings and setting out, and a name leads to its reading', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'checks/shares');
  await page.getByTestId('look-at-readings').tap();
  await expect(page.getByTestId('shares-headline')).toBeVisible({ timeout: 60_000 });
  const rows = page.getByTestId('shares-row');
  expect(await rows.count()).toBeGreaterThan(10);
  // The parts of each are hundredths of its own square: with what is left they make all of it.
  for (const text of (await rows.allInnerTexts()).slice(0, 12)) {
    const parts = [...text.matchAll(/(\d+) of 100/g)].map(([, part]) => Number(part));
    expect(Math.abs(parts.reduce((sum, part) => sum + part, 0) - 100), text).toBeLessThanOrEqual(parts.length);
  }
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  const reading = page.getByRole('link', { name: 'spot height 4' }).first();
  await reading.tap();
  await expect(page).toHaveURL(/#\/measure\/heights\/3/);
});

test('on ground that nobody measured no part is told, but what to measure first', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'checks/shares');
  await page.getByTestId('look-at-readings').tap();
  await expect(page.getByTestId('shares-headline')).toContainText('nobody measured the ground', { timeout: 60_000 });
  await expect(page.getByTestId('shares-row')).toHaveCount(0);
});
