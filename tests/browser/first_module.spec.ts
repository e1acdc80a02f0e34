import { expect, test } from '@playwright/test';
import { openDemo, touchDown } from './app';

/** The whole engine is held back: the map is there, a finger drags the mast, and nothing is said to be well. */
test('the map and a drag need the first module alone', async ({ page }) => {
  let release = () => {};
  const held = new Promise<void>((done) => (release = done));
  let asked = false;
  await page.route(/engine_bg.*\.wasm/, async (route) => {
    asked = true;
    await held;
    await route.continue();
  });
  await openDemo(page);
  await expect.poll(() => asked).toBe(true);

  const anchor = page.locator('[data-testid="place-map"] .signs .s-anchor').first();
  const before = await anchor.getAttribute('transform');
  const finger = await touchDown(page, page.getByTestId('mast-handle'));
  await finger.moveBy(40, -20, 5);
  await expect(anchor).not.toHaveAttribute('transform', before ?? '');
  await finger.lift();
  await page.getByTestId('tab-checks').tap();
  await expect(page.getByTestId('verdict')).toContainText('Not known yet');
  await expect(page.getByText('How sure is it?')).toHaveCount(0);

  release();
  await expect(page.getByText('How sure is it?')).toBeVisible();
});
