// The demo is shown by the engine's own answers, made when the app was built, before the engine itself has come in.
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { footHeight, openDemo, savedJob, touchDown } from './app';

const anchor = (page: Page) => page.locator('[data-testid="place-map"] .signs .s-anchor').first();
/** What is drawn, but for what finds its place by the size of the lettering, which is another at a desk. */
const placed = (page: Page, isDesk: boolean) =>
  page.locator('[data-testid="place-map"] .painted path, [data-testid="place-map"] .painted text').evaluateAll(
    (all, isDesk) =>
      all
        .filter((one) => !isDesk || (one.tagName === 'path' && !/scale_bar|fall_line|dimension|leader/.test(one.getAttribute('class') ?? '')))
        .map((one) => `${one.getAttribute('d') ?? one.getAttribute('transform')} ${one.textContent}`),
    isDesk,
  );

/** Holds the first module back; the returned function lets it go. */
async function heldBack(page: Page): Promise<() => void> {
  let release = () => {};
  const held = new Promise<void>((done) => (release = done));
  await page.route(/map_bg.*\.wasm/, async (route) => {
    await held;
    await route.continue();
  });
  return release;
}

test('the demo is shown before the engine is there, and it is what the engine draws', { tag: '@desk' }, async ({ page, viewport }) => {
  const isDesk = (viewport?.width ?? 0) > 1000;
  const release = await heldBack(page);
  await page.goto('/');
  await page.getByTestId('open-demo').tap();
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
  await expect(page.getByTestId('mast-handle')).toBeVisible();
  await expect(page.getByTestId('engine-coming')).toBeVisible();
  const foot = await page.getByTestId('foot-height').innerText();
  const before = await placed(page, isDesk);
  expect(before.length).toBeGreaterThan(10);
  // Nothing is said to be well by anybody who has not looked at all of it.
  await expect(page.getByTestId('findings-count')).not.toContainText(/all|well|good/i);

  release();
  await expect(page.getByTestId('engine-coming')).toHaveCount(0);
  await page.waitForTimeout(500);
  expect(await placed(page, isDesk)).toEqual(before);
  await expect(page.getByTestId('foot-height')).toHaveText(foot);
});

test('a drag, a push and a tap made before the engine is there are kept, and answered when it is', async ({ page }) => {
  const release = await heldBack(page);
  await page.goto('/');
  await page.getByTestId('open-demo').tap();
  await expect(page.getByTestId('mast-handle')).toBeVisible();
  await expect.poll(() => savedJob(page)).not.toBeNull();
  const mast = () => savedJob<{ placement: { mast: { east_m: number; north_m: number } } }>(page).then((job) => job?.placement.mast);
  const was = await mast();
  const [drawn, handle] = [await anchor(page).getAttribute('transform'), await page.getByTestId('mast-handle').boundingBox()];
  const finger = await touchDown(page, page.getByTestId('mast-handle'));
  await finger.moveBy(40, -20, 5);
  await finger.lift();
  // Kept at once, and the handle stays where it was let go of though nothing has been worked out yet.
  await expect.poll(mast).not.toEqual(was);
  const dragged = await mast();
  const now = await page.getByTestId('mast-handle').boundingBox();
  expect(Math.abs((now?.x ?? 0) - (handle?.x ?? 0) - 40)).toBeLessThan(3);
  expect(await anchor(page).getAttribute('transform')).toBe(drawn);
  await page.getByTestId('nudge-east').tap();
  await expect.poll(async () => (await mast())?.east_m).toBeGreaterThan((dragged?.east_m ?? 0) + 0.05);

  release();
  await expect(anchor(page)).not.toHaveAttribute('transform', drawn ?? '');
  await expect(page.getByTestId('engine-coming')).toHaveCount(0);
  await page.getByTestId('tab-checks').tap();
  await expect(page.getByText('How sure is it?')).toBeVisible();
});

/** What is kept of the answers to the next start's questions; with `engine` they are from then on that engine's. */
const foreseen = (page: Page, engine: string | null = null): Promise<string> =>
  page.evaluate(
    (engine) =>
      new Promise<string>((done, failed) => {
        const open = indexedDB.open('mastwright');
        open.onerror = () => failed(open.error);
        open.onsuccess = () => {
          const meta = open.result.transaction('meta', 'readwrite').objectStore('meta');
          const read = meta.get('foreseen');
          read.onsuccess = () => {
            const kept = (read.result as string | undefined) ?? '';
            if (engine) meta.put(JSON.stringify({ ...JSON.parse(kept), engine }), 'foreseen');
            meta.transaction.oncomplete = () => {
              open.result.close();
              done(kept);
            };
          };
        };
      }),
    engine,
  );

test('a job of one’s own is shown at the next start before the engine is there, and never by another engine’s answers', async ({ page }) => {
  await openDemo(page);
  await page.getByTestId('nudge-east').tap();
  await expect(page.getByTestId('engine-coming')).toHaveCount(0);
  const mast = JSON.stringify((await savedJob<{ placement: { mast: unknown } }>(page))?.placement.mast);
  // Once it rests: the questions of the next start with their answers, of the job as it is now.
  const east = (JSON.parse(mast) as { east_m: number }).east_m;
  await expect.poll(() => foreseen(page), { timeout: 20_000 }).toContain(`${east}`);
  const foot = await footHeight(page);

  const release = await heldBack(page);
  await page.reload();
  await expect(page.getByTestId('mast-handle')).toBeVisible();
  await expect(page.getByTestId('engine-coming')).toBeVisible();
  await expect(page.getByTestId('foot-height')).toHaveText(foot);
  const before = await placed(page, false);
  expect(before.length).toBeGreaterThan(10);
  release();
  await expect(page.getByTestId('engine-coming')).toHaveCount(0);
  await page.waitForTimeout(500);
  expect(await placed(page, false)).toEqual(before);

  await foreseen(page, 'another');
  const again = await heldBack(page);
  await page.reload();
  await page.waitForTimeout(1500);
  await expect(page.getByTestId('mast-handle')).toHaveCount(0);
  again();
  await expect(page.getByTestId('mast-handle')).toBeVisible();
});

test('where the file of answers is missing the engine is waited for, as for any job', async ({ page }) => {
  await page.route(/first-answers.*\.json/, (route) => route.abort());
  await page.goto('/');
  await page.getByTestId('open-demo').tap();
  await expect(page.getByTestId('mast-handle')).toBeVisible();
  await expect(page.getByTestId('engine-coming')).toHaveCount(0);
});

test('the built app holds the answers of the engine that it was built with', () => {
  const [source, built] = [join(import.meta.dirname, '../../ui/src/wasm'), join(import.meta.dirname, '../../ui/dist/assets')];
  const name = readdirSync(built).find((file) => /^first-answers-.*\.json$/.test(file));
  expect(readFileSync(join(built, name ?? ''), 'utf8')).toBe(readFileSync(join(source, 'first-answers.json'), 'utf8'));
});
