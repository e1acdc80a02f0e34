import { expect, test, type Page } from '@playwright/test';
import { goTo, openBlank, openDemo, savedJob } from './app';
import { fakeVoice } from './voice';

const shots = process.env.SHOTS;
const shot = async (page: Page, name: string) => {
  if (shots) await page.screenshot({ path: `${shots}/${name}.png`, fullPage: true });
};

/** A voice and a lock on the screen that note what they are asked. */
async function fakes(page: Page): Promise<void> {
  await fakeVoice(page);
  await page.addInitScript(() => {
    const page = window as unknown as { noted: object };
    const noted = Object.assign(page.noted, { locks: 0, released: 0 });
    const request = () => {
      noted.locks += 1;
      const lock = new EventTarget() as EventTarget & { released: boolean; release: () => Promise<void> };
      lock.released = false;
      lock.release = async () => {
        lock.released = true;
        noted.released += 1;
        lock.dispatchEvent(new Event('release'));
      };
      return Promise.resolve(lock);
    };
    Object.defineProperty(navigator, 'wakeLock', { value: { request } });
  });
}

const noted = (page: Page) =>
  page.evaluate(() => (window as unknown as { noted: { said: string[]; locks: number; released: number } }).noted);

test('a card at a time: done, read aloud, taken back with what rested on it, kept', async ({ page }) => {
  await fakes(page);
  await openBlank(page);
  await goTo(page, 'build/cards');
  await expect(page.getByTestId('cards-headline')).toContainText('none done yet', { timeout: 30_000 });
  await shot(page, 'cards');
  await page.getByTestId('cards-next').tap();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Lay the base with its front leg along');
  await expect(page.getByTestId('card-number')).toContainText('°');
  await expect(page.getByTestId('card-stop')).toContainText('Stop when');
  await shot(page, 'card-base');
  // The screen is kept on, and a voice reads all of the card.
  await expect(page.getByTestId('card-awake')).toContainText('stays on');
  await page.getByTestId('card-aloud').tap();
  const { said, locks } = await noted(page);
  expect(locks).toBe(1);
  expect(said[0]).toMatch(/^Lay the base.*true bearing of the front leg.*Stop when/);
  for (const id of ['card-back-one', 'card-done', 'card-next', 'card-aloud']) {
    expect((await page.getByTestId(id).boundingBox())!.height).toBeGreaterThanOrEqual(48);
  }
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  await page.getByTestId('card-done').tap();
  // What may come now is shown; the level of the base waits for nothing else, or for its feet.
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText(/Lay the base/);
  await page.getByTestId('card-done').tap();
  await expect.poll(async () => (await savedJob<{ cards: { done: unknown[] } }>(page))?.cards.done.length).toBe(2);
  // A dead battery in the middle: what was done is still done.
  await page.reload();
  await goTo(page, 'build/cards');
  await expect(page.getByTestId('cards-headline')).toContainText('2 of', { timeout: 30_000 });
  // The first one taken back opens again what rested on it.
  await goTo(page, 'build/cards/base:lay');
  await page.getByTestId('card-not-done').tap();
  await expect(page.getByTestId('card-place')).toContainText('0 of');
  await goTo(page, 'build/cards');
  await expect(page.getByTestId('cards-headline')).toContainText('none done yet');
  expect((await noted(page)).locks).toBeGreaterThan(0);
});

test('a card that waits says for what and why, and a stop keeps a part of the day closed', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/cards/raise:walk-up');
  const waits = page.getByTestId('card-waits');
  await expect(waits.filter({ hasText: 'the hinge is held' })).toContainText('else the foot kicks out', {
    timeout: 30_000,
  });
  await expect(page.getByTestId('card-done')).toBeDisabled();
  await expect(page.getByTestId('card-number')).toContainText('lb');
  await shot(page, 'card-walk-up');
  await goTo(page, 'build/cards/crank:2-1-crank');
  await expect(page.getByTestId('card-number')).toContainText('comes up in this pull');
  await shot(page, 'card-crank');
  await goTo(page, 'build/cards/base');
  await expect(page.getByTestId('day-stop').first()).toContainText('Stop.');
  await expect(page.getByTestId('day-next')).toHaveCount(0);
  await shot(page, 'cards-base');
});
