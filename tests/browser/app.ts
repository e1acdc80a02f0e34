import { expect, type CDPSession, type Locator, type Page } from '@playwright/test';

/** Opens Mastwright with the demo job and shows its map. */
export async function openDemo(page: Page): Promise<void> {
  await page.goto('/');
  await expect(page.locator('html')).toHaveAttribute('data-backend', 'wasm');
  await page.getByTestId('open-demo').tap();
  await page.getByTestId('tab-map').tap();
  await expect(page.getByTestId('place-map')).toBeVisible();
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
}

/** Opens Mastwright with an empty yard, in metres. */
export async function openBlank(page: Page): Promise<void> {
  await page.goto('/');
  await expect(page.locator('html')).toHaveAttribute('data-backend', 'wasm');
  await page.getByTestId('open-blank').tap();
  await page.getByTestId('begin-blank').tap();
  await expect(page.getByRole('heading', { name: 'Measure the yard' })).toBeVisible();
}

/** Goes to a page by its address, as a link to it does. */
export async function goTo(page: Page, address: string): Promise<void> {
  await page.evaluate((hash) => (location.hash = hash), address);
}

export const footHeight = (page: Page): Promise<string> => page.getByTestId('foot-height').innerText();

/** Drags with one finger, in steps as a screen reports them. */
export async function dragByFinger(page: Page, handle: Locator, dx: number, dy: number): Promise<void> {
  const finger = await touchDown(page, handle);
  await finger.moveBy(dx, dy);
  await finger.lift();
}

/** Puts a finger on the middle of an element. */
export async function touchDown(page: Page, element: Locator) {
  const box = await element.boundingBox();
  if (!box) throw new Error('the element to touch is not on the screen');
  const from = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  const browser: CDPSession = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: { x: number; y: number }[]) =>
    browser.send('Input.dispatchTouchEvent', { type, touchPoints: points });
  await touch('touchStart', [from]);
  return {
    async moveBy(dx: number, dy: number, steps = 20) {
      for (let step = 1; step <= steps; step += 1) {
        await touch('touchMove', [{ x: from.x + (dx * step) / steps, y: from.y + (dy * step) / steps }]);
      }
    },
    /** A finger that leaves while it moves flings, and Chromium swallows the tap that stops a fling: rest first. */
    async lift() {
      await page.waitForTimeout(200);
      await touch('touchEnd', []);
    },
  };
}

/** The job as the browser has kept it; null before the first save. */
export async function savedJob<Kept>(page: Page): Promise<Kept | null> {
  const text = await page.evaluate(
    () =>
      new Promise<string | null>((done, failed) => {
        const open = indexedDB.open('mastwright');
        open.onerror = () => failed(open.error);
        open.onsuccess = () => {
          const newest = open.result.transaction('saves').objectStore('saves').openCursor(null, 'prev');
          newest.onsuccess = () => {
            open.result.close();
            done(newest.result ? (newest.result.value as { text: string }).text : null);
          };
          newest.onerror = () => failed(newest.error);
        };
      }),
  );
  return text === null ? null : (JSON.parse(text) as Kept);
}
