import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { goTo, openDemo } from './app';

const shots = process.env.SHOTS;

test('a length on sale makes a cut list, what is in the cart stays ticked, the list goes out as a table', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 });
  await openDemo(page);
  await goTo(page, 'build/workshop/cut');
  const scaffold = page.getByTestId('lot').filter({ hasText: '48.3x3.2' });
  await expect(scaffold.getByTestId('lot-missing')).toContainText('lengths that your shop sells');
  await scaffold.getByTestId('usual').first().tap();
  // One tube of 2.36 m from one of 10 ft.
  await expect(scaffold.getByTestId('buy')).toContainText("1 × 10'");
  await expect(scaffold).toContainText('proven');
  if (shots) await page.screenshot({ path: `${shots}/cut.png`, fullPage: true });
  await goTo(page, 'build/workshop/buy');
  const bar = page.getByTestId('buy-item').filter({ hasText: '48.3x3.2' });
  await expect(bar).toContainText("10'");
  await bar.getByRole('checkbox').check();
  await expect(page.getByText(/^1 of \d+ things in the cart/)).toBeVisible();
  await page.getByTestId('begin-day').fill('2026-12-04');
  await expect(page.getByText('Friday 4 December 2026').first()).toBeVisible();
  if (shots) await page.screenshot({ path: `${shots}/buy.png`, fullPage: true });
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByTestId('save-csv').tap()]);
  const rows = readFileSync(await download.path(), 'utf8').trim().split('\r\n');
  expect(rows.length).toBe(1 + (await page.getByTestId('buy-item').count()));
  expect(rows.filter((row) => row.endsWith(',x'))).toHaveLength(1);
  await goTo(page, 'build/workshop/circles');
  // By hand: 21 holes on a circle of 220 mm: 2 · 220 · sin(180° / 21) = 65.579 mm, 2.5818 in; 2 37/64 in are 2.5781.
  await expect(page.getByTestId('circle-card').first()).toContainText('2 37/64" and 0.004" more');
  if (shots) await page.screenshot({ path: `${shots}/circles.png`, fullPage: true });
});
