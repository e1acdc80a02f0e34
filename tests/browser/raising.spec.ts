import { expect, test } from '@playwright/test';
import { goTo, openBlank, openDemo } from './app';

const shots = process.env.SHOTS;

test('the way up is found, shown on the map and taken', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/raising');
  if (shots) await page.screenshot({ path: `${shots}/raising-page.png`, fullPage: true });
  await page.getByTestId('look-for-ways').tap();
  await expect(page.getByTestId('ways-headline')).toContainText(/of 360 bearings/, { timeout: 60_000 });
  const way = page.getByTestId('raise-way');
  expect(await way.count()).toBe(2);
  await way.first().scrollIntoViewIfNeeded();
  if (shots) await page.screenshot({ path: `${shots}/raising-way.png` });
  // Each guy tells its length at every 5°, and what is done with it.
  await way.first().locator('summary').first().click();
  await expect(way.first().locator('tbody tr').last()).toContainText('90.0°');
  if (shots) await page.screenshot({ path: `${shots}/raising-guy.png` });
  await page.getByTestId('ways-on-map').tap();
  await expect(page.getByTestId('raise-layer')).toBeVisible();
  if (shots) await page.screenshot({ path: `${shots}/raising-map.png` });
});

test('a job that has not said how it turns up is asked', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'build/raising');
  await page.getByTestId('look-for-ways').tap();
  await expect(page.getByTestId('ways-headline')).toContainText('say first how it turns', { timeout: 30_000 });
  await expect(page.getByTestId('finding').first()).toContainText('about what the mast turns up');
  if (shots) await page.screenshot({ path: `${shots}/raising-open.png` });
});
