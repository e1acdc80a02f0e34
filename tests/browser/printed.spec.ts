// A page printed by the browser's own command comes out whole: on the screen it scrolls inside the window.

import { expect, test } from '@playwright/test';
import { goTo, openDemo } from './app';

test('a page that is longer than the screen is printed to its end', async ({ page }) => {
  await openDemo(page);
  await goTo(page, '#/checks/wind');
  await expect(page.getByTestId('wind-headline').getByText('Lay it down')).toBeVisible({ timeout: 60_000 });
  const end = page.locator('main h2, main h3').last();
  await page.emulateMedia({ media: 'print' });
  const [below, whole, bars] = await Promise.all([
    end.evaluate((heading) => heading.getBoundingClientRect().bottom + scrollY),
    page.evaluate(() => document.documentElement.scrollHeight),
    page.getByRole('navigation', { name: 'Places' }).isVisible(),
  ]);
  expect(whole).toBeGreaterThan(page.viewportSize()!.height * 1.5);
  expect(below).toBeLessThanOrEqual(whole);
  expect(bars).toBe(false);
});
