import { readFileSync } from 'node:fs';
import { expect, test, type Page } from '@playwright/test';
import { footHeight, openDemo } from './app';

/** As on a device whose share sheet takes no links. */
const noShare = () => (navigator.canShare = () => false);

async function linkOf(page: Page): Promise<string> {
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.getByTestId('job-menu').tap();
  await page.getByTestId('send-link').tap();
  await expect(page.getByTestId('link-told')).toContainText('The link is copied');
  return page.evaluate(() => navigator.clipboard.readText());
}

test('a job goes from one device to another inside a link, and no server is told of it', async ({ browser, page }) => {
  await page.addInitScript(noShare);
  await openDemo(page);
  const before = await footHeight(page);
  await page.getByTestId('nudge-east').tap();
  await page.getByTestId('turn-right').tap();
  const link = await linkOf(page);
  expect(link.length).toBeLessThan(16_000);
  expect(link).toMatch(/#\/take\/[\w-]+$/);

  const other = await (await browser.newContext({ viewport: { width: 360, height: 740 }, hasTouch: true })).newPage();
  const asked: string[] = [];
  other.on('request', (request) => asked.push(request.url()));
  await other.goto(link);
  await expect(other.getByTestId('taken-name')).toHaveText('Lantern Green');
  await other.getByTestId('keep-taken').tap();
  // The plan of the job as it was sent, not of the demo: what the first device shows once it has answered, too.
  await expect.poll(() => footHeight(page)).not.toBe(before);
  await expect.poll(async () => (await footHeight(other)) === (await footHeight(page))).toBe(true);
  await expect(other.getByTestId('foot-height')).not.toHaveText(before);
  expect(asked.filter((url) => url.includes('take'))).toEqual([]);
  // Back does not lead to it again.
  await other.goBack();
  await expect(other.getByTestId('taken-name')).toHaveCount(0);

  const cut = link.slice(0, -40);
  const third = await (await browser.newContext()).newPage();
  await third.goto(cut);
  await expect(third.getByTestId('taken-problem')).toContainText('not whole');
  await other.context().close();
  await third.context().close();
});

test('a file that the system hands over at the start is opened; one that is no job says so', async ({ page }) => {
  const text = readFileSync('../data/yardstick-53a387c.json', 'utf8');
  await page.addInitScript(() => {
    // The browser's own can't be filled by a page.
    Object.defineProperty(window, 'launchQueue', {
      value: { setConsumer: (take: unknown) => Object.assign(window, { take }) },
    });
  });
  await page.goto('/');
  await expect(page.getByTestId('open-demo')).toBeVisible();
  const hand = (name: string, body: string) =>
    page.evaluate(
      ([name, body]) => {
        const handle = { getFile: () => Promise.resolve(new File([body ?? ''], name ?? '')) };
        (window as unknown as { take(launch: object): void }).take({ files: [handle] });
      },
      [name, body],
    );
  await hand('notes.json', '[1, 2');
  await expect(page.getByRole('alert')).toContainText('notes.json can’t be opened');
  await hand('yard.json', text);
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
  await expect(page.getByTestId('job-menu')).toContainText((JSON.parse(text) as { name: string }).name.slice(0, 8));
});
