import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, test, type BrowserContext, type Page } from '@playwright/test';
import { OwnServer } from './own_server';
import config from './playwright.config';

test.use({ serviceWorkers: 'allow' });

let server: OwnServer;
test.beforeEach(async () => {
  // Not the root of its host: a folder among others.
  server = await OwnServer.start('/sites/of-a-club/mast/');
});
test.afterEach(() => server.stop());

async function visit(page: Page): Promise<void> {
  await page.goto(server.address);
  await page.getByTestId('open-demo').tap();
  await page.getByTestId('tab-map').tap();
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
}

/** What the menu says of use without a signal. */
async function readyOffline(page: Page): Promise<void> {
  await page.getByTestId('job-menu').tap();
  await expect(page.getByTestId('offline')).toHaveAttribute('data-state', 'ready', { timeout: 30_000 });
  await page.getByRole('dialog').getByRole('button', { name: 'Close' }).tap();
}

async function cutOff(context: BrowserContext): Promise<number> {
  await context.setOffline(true);
  await server.stop();
  await expect(fetch(server.address)).rejects.toThrow();
  return server.requests;
}

test('after one visit all of it works without a signal: map, new window, wind, sheets and PDF', { tag: '@desk' }, async ({ context, page }) => {
  await visit(page);
  await readyOffline(page);
  const foot = await page.getByTestId('foot-height').innerText();
  const before = await cutOff(context);

  await page.reload();
  await expect(page.getByTestId('foot-height')).toHaveText(foot);

  await page.getByTestId('tab-build').tap();
  await page.evaluate(() => (navigator.canShare = () => false));
  const saved = page.waitForEvent('download');
  await page.getByTestId('save-map').tap();
  expect(readFileSync(await (await saved).path()).subarray(0, 5).toString('latin1')).toBe('%PDF-');
  await page.getByTestId('print-map').tap();
  await expect(page.frameLocator('#print-frame').locator('section > svg').first()).toContainText('Page 1 of');

  await page.close();
  const another = await context.newPage();
  await another.goto(`${server.address}#/checks/wind`);
  await expect(another.getByTestId('wind-headline')).toHaveText(/\d/, { timeout: 30_000 });
  expect(server.requests).toBe(before);
});

test('without what is kept for it the same reload fails', async ({ browser }) => {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto(server.address);
  await expect(page.getByTestId('open-demo')).toBeVisible();
  await context.setOffline(true);
  await expect(page.reload()).rejects.toThrow(/ERR_INTERNET_DISCONNECTED/);
  await context.close();
});

test('a newer app is offered while a sheet is open, interrupts nothing, and comes when asked for', { tag: '@desk' }, async ({ context, page }) => {
  await visit(page);
  await readyOffline(page);
  const second = await context.newPage();
  await second.goto(server.address);
  await page.bringToFront();
  await page.getByTestId('job-menu').tap();
  const name = page.getByRole('dialog').getByLabel('Name', { exact: true });
  await name.fill('Behind the chapel');
  server.becomeNewer();
  // As a page that stays open asks from time to time.
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
  await expect(page.getByTestId('newer')).toBeAttached();
  await expect(name).toHaveValue('Behind the chapel');
  expect(await page.locator('html').getAttribute('data-newer')).toBeNull();

  await page.getByRole('dialog').getByRole('button', { name: 'Close' }).tap();

  await page.getByTestId('use-newer').tap();
  await expect(page.locator('html')).toHaveAttribute('data-newer', 'yes');
  await expect(page.getByTestId('job-menu')).toContainText('Behind the chapel');
  // The other window is told and left alone.
  await expect(second.getByTestId('replaced')).toBeAttached();
  expect(await second.locator('html').getAttribute('data-newer')).toBeNull();
});

test('the browser is asked to keep what is entered at the first entry, not before, and its answer is told', async ({ page }) => {
  await page.addInitScript(() => {
    const asked = { times: 0 };
    Object.assign(window, { asked });
    navigator.storage.persisted = () => Promise.resolve(false);
    navigator.storage.persist = () => Promise.resolve((asked.times += 1) < 0);
  });
  const asked = () => page.evaluate(() => (window as unknown as { asked: { times: number } }).asked.times);
  await visit(page);
  expect(await asked()).toBe(0);
  await page.getByTestId('nudge-east').tap();
  await expect.poll(asked).toBe(1);
  await page.getByTestId('nudge-east').tap();
  await page.getByTestId('job-menu').tap();
  await expect(page.getByTestId('promised')).toContainText('did not promise');
  await expect(page.getByTestId('promised')).toHaveAttribute('data-state', 'no');
  expect(await asked()).toBe(1);
});

test('Chromium itself finds nothing against putting it on the home screen', { tag: '@desk' }, async ({ viewport }) => {
  // Not a private window, which refuses on its own account.
  const folder = mkdtempSync(join(tmpdir(), 'mastwright-profile-'));
  const context = await chromium.launchPersistentContext(folder, { ...config.use?.launchOptions, serviceWorkers: 'allow', viewport });
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    await page.goto(server.address);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    const browser = await context.newCDPSession(page);
    const { installabilityErrors } = await browser.send('Page.getInstallabilityErrors');
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => !/headless|incognito/i.test(id))).toEqual([]);
    const read = await browser.send('Page.getAppManifest');
    expect(read.errors).toEqual([]);
    const manifest = JSON.parse(read.data ?? '') as { icons: { src: string; sizes: string; purpose: string }[]; scope: string };
    expect(new URL(manifest.scope, read.url).href).toBe(server.address);
    expect(manifest.icons.map(({ purpose }) => purpose)).toContain('maskable');
    for (const { src, sizes } of manifest.icons) {
      const size = await page.evaluate(async (url) => {
        const image = await createImageBitmap(await (await fetch(url)).blob());
        return `${image.width}x${image.height}`;
      }, new URL(src, read.url).href);
      expect(size, src).toBe(sizes);
    }
  } finally {
    await context.close();
    rmSync(folder, { recursive: true, force: true });
  }
});
