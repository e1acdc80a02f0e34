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
    const noted = Object.assign(page.noted, { locks: 0, released: 0, last: null as object | null });
    const request = () => {
      noted.locks += 1;
      const lock = new EventTarget() as EventTarget & { released: boolean; release: () => Promise<void> };
      lock.released = false;
      lock.release = async () => {
        lock.released = true;
        noted.released += 1;
        lock.dispatchEvent(new Event('release'));
      };
      noted.last = lock;
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
  await expect(page.getByTestId('card-picture').locator('svg')).toBeVisible();
  // One back: that card again, and it is not done.
  await page.getByTestId('card-back-one').tap();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Lay the base with its front leg along');
  await expect(page.getByTestId('card-place')).toContainText('0 of');
  await page.getByTestId('card-done').tap();
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText(/Lay the base/);
  // The phone was looked away from: its screen is kept on anew. The card before has let go by then, and this one holds.
  await expect.poll(async () => ((now) => now.locks - now.released)(await noted(page))).toBe(1);
  await page.evaluate(async () => {
    const { noted } = window as unknown as { noted: { last: { release(): Promise<void> } } };
    await noted.last.release();
  });
  await expect(page.getByTestId('card-awake')).toContainText('may go dark');
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
  await expect(page.getByTestId('card-awake')).toContainText('stays on');
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
  const { locks: asked } = await noted(page);
  expect(asked).toBeGreaterThan(0);
  // Away from the cards the screen may go dark again.
  await expect.poll(async () => (await noted(page)).released).toBe(asked);
  // The bare tube first is a plan of its own; coming down another.
  const bare = page.getByTestId('bare-tube-first');
  const planned = (await page.getByTestId('cards-headline').innerText()).match(/of (\d+)/)?.[1];
  await bare.tap();
  await expect(bare).toHaveAttribute('aria-pressed', 'true');
  await expect(page.getByTestId('cards-headline')).not.toContainText(`of ${planned}`, { timeout: 20_000 });
  await page.getByTestId('comes-down').tap();
  await expect(page.locator('main')).toContainText('Lay it down', { timeout: 20_000 });
  await expect(bare).toHaveCount(0);
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
  await expect(page.getByTestId('day-people')).toHaveText(/\d|one|two|three/i);
  await expect(page.locator('main ul').first().locator('li').first()).toHaveText(/\w/);
  await expect(page.getByTestId('day-stop').first()).toContainText('Stop.');
  await expect(page.getByTestId('day-next')).toHaveCount(0);
  await shot(page, 'cards-base');
});


test('every card, up and down: a number or what is missing for it, a picture, a caution, a stop, and nothing too wide', async ({ page }) => {
  test.setTimeout(180_000);
  await openDemo(page);
  let looked = 0;
  for (const down of [false, true]) {
    await goTo(page, 'build/cards');
    if (down) await page.getByTestId('comes-down').tap();
    const parts = page.locator('main a[href^="#/build/cards/"]').filter({ hasText: /done|Stop/ });
    await expect(page.locator('main')).toContainText(down ? 'Lay it down' : 'Crank', { timeout: 30_000 });
    for (const part of await parts.evaluateAll((all) => all.map((link) => link.getAttribute('href') ?? ''))) {
      await goTo(page, part.slice(2));
      const links = page.locator('main ol a[href^="#/build/cards/"]');
      await expect(links.first()).toBeVisible({ timeout: 20_000 });
      for (const card of await links.evaluateAll((all) => all.map((link) => link.getAttribute('href') ?? ''))) {
        await goTo(page, card.slice(2));
        await expect(page.getByTestId('card-place')).toBeVisible({ timeout: 20_000 });
        await expect(page.getByTestId('card-number').locator('b'), card).toHaveText(/\S/);
        await expect(page.getByTestId('card-picture').locator('svg'), card).toBeVisible();
        await expect(page.getByTestId('card-stop'), card).toContainText('Stop when');
        expect(await page.evaluate(() => document.documentElement.scrollWidth), card).toBeLessThanOrEqual(360);
        if (shots) await page.screenshot({ path: `${shots}/every-${looked}.png`, fullPage: true });
        looked += 1;
      }
    }
  }
  expect(looked).toBeGreaterThan(40);
});
