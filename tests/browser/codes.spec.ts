// A job goes from one screen to another device's camera as QR codes: in any order, with what is missing told, and nothing asked of a server.
import { expect, test, type Browser, type Page } from '@playwright/test';
import { footHeight, openDemo } from './app';

interface Picture {
  side: number;
  path: string;
}

/** Every code that a device shows, looked at one after the other. */
async function shown(page: Page): Promise<Picture[]> {
  await page.getByTestId('job-menu').tap();
  await page.getByTestId('show-codes').tap();
  await page.getByTestId('code-pause').tap();
  await expect(page.getByTestId('code-pause')).toHaveText('Go on');
  const count = Number(/of (\d+)/.exec(await page.getByTestId('code-count').innerText())?.[1]);
  expect(count).toBeGreaterThan(2);
  const pictures: Picture[] = [];
  for (let taken = 0; taken < count; taken += 1) {
    await page.getByTestId('code-next').tap();
    await page.waitForTimeout(150);
    const code = page.getByTestId('code');
    const [box, path] = [await code.getAttribute('viewBox'), await code.locator('path').getAttribute('d')];
    pictures.push({ side: Number(box?.split(' ')[2]), path: path ?? '' });
  }
  expect(new Set(pictures.map(({ path }) => path)).size).toBe(count);
  return pictures;
}

/** A camera that sees what is held before it: `hold` shows it a code, small, on grey and not quite upright. */
const madeUpCamera = () => {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [1280, 720];
  const pen = canvas.getContext('2d')!;
  const hold = ({ side, path }: { side: number; path: string }) => {
    pen.resetTransform();
    pen.fillStyle = '#777';
    pen.fillRect(0, 0, canvas.width, canvas.height);
    const scale = 620 / side;
    pen.setTransform(scale, 0, 0, scale, 330, 40);
    pen.rotate(0.03);
    pen.fillStyle = '#e8e8e0';
    pen.fillRect(0, 0, side, side);
    pen.fillStyle = '#2a2a30';
    pen.fill(new Path2D(path));
  };
  Object.assign(window, { hold });
  navigator.mediaDevices.getUserMedia = () => Promise.resolve(canvas.captureStream(30));
};

const hold = (page: Page, picture: Picture) =>
  page.evaluate((one) => (window as unknown as { hold(picture: Picture): void }).hold(one), picture);

async function otherDevice(browser: Browser, baseURL: string | undefined, init: () => void): Promise<Page> {
  const context = await browser.newContext({ baseURL, viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
  const page = await context.newPage();
  await page.addInitScript(init);
  return page;
}

test('a job is read off another screen in any order, and the codes still missing are named', async ({ browser, page, baseURL }) => {
  test.setTimeout(120_000);
  await openDemo(page);
  await page.getByTestId('nudge-east').tap();
  await page.getByTestId('turn-right').tap();
  await page.waitForTimeout(400);
  const foot = await footHeight(page);
  const pictures = await shown(page);
  const first = pictures[0]!;

  const other = await otherDevice(browser, baseURL, madeUpCamera);
  const asked: string[] = [];
  await other.goto('/#/take');
  await expect(other.locator('video')).toBeVisible();
  await expect(other.getByTestId('codes-read')).toContainText('Hold the camera');
  other.on('request', (request) => asked.push(`${request.method()} ${request.url()} ${request.postData() ?? ''}`));
  // Backwards, and the first not at all.
  for (const picture of pictures.slice(1).reverse()) {
    const before = await other.getByTestId('codes-read').innerText();
    await hold(other, picture);
    await expect(other.getByTestId('codes-read')).not.toHaveText(before, { timeout: 20_000 });
  }
  // Counted as they were shown: the pictures were taken from the second on.
  await expect(other.getByTestId('codes-read')).toContainText(/^\d+ of \d+ codes read\. Still to come: \d+\.$/);
  await expect(other.getByTestId('keep-taken')).toHaveCount(0);
  await hold(other, first);
  await expect(other.getByTestId('taken-name')).toHaveText('Lantern Green', { timeout: 20_000 });
  await expect(other.getByTestId('taken-how')).toContainText('beside the other jobs');
  await other.getByTestId('keep-taken').tap();
  await expect(other.getByTestId('foot-height')).toHaveText(foot);
  expect(asked.filter((request) => !/^GET .*\.(wasm|js|css|json|svg|png|webmanifest) $/.test(request))).toEqual([]);

  // Moved on there and handed back, it is the same job: both are brought together.
  await other.getByTestId('nudge-north').tap();
  await other.waitForTimeout(400);
  const back = await shown(other);
  await page.addInitScript(madeUpCamera);
  await page.goto('/#/take');
  await page.reload();
  await expect(page.getByTestId('codes-read')).toBeVisible();
  for (const picture of back) {
    await hold(page, picture);
    await page.waitForTimeout(600);
  }
  for (const picture of back) {
    if (await page.getByTestId('keep-taken').isVisible()) break;
    await hold(page, picture);
    await page.waitForTimeout(1500);
  }
  await expect(page.getByTestId('taken-how')).toContainText('This job is here already');
  await page.getByTestId('keep-taken').tap();
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
  await page.goto('/#/jobs');
  await expect(page.getByTestId('jobs').locator('li')).toHaveCount(1);
  await other.context().close();
});

test('a device without a camera, or one that is refused, says so and leads to the file', async ({ browser, baseURL }) => {
  for (const init of [
    () => {
      navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('Permission denied', 'NotAllowedError'));
    },
    () => Object.defineProperty(navigator, 'mediaDevices', { value: undefined }),
  ]) {
    const page = await otherDevice(browser, baseURL, init);
    await page.goto('/#/take');
    await expect(page.getByTestId('no-camera')).toBeVisible();
    await expect(page.getByTestId('import-job')).toBeVisible();
    await page.context().close();
  }
});

test('a code of something else is left out and told; a job too long for one link is still shown as codes', async ({ browser, page, baseURL }) => {
  await openDemo(page);
  const pictures = await shown(page);
  const other = await otherDevice(browser, baseURL, madeUpCamera);
  await other.goto('/#/take');
  await expect(other.getByTestId('codes-read')).toBeVisible();
  // Half of it covered: nothing is read, and nothing breaks.
  const torn = pictures[0]!.path.split('M').filter((run) => Number(run.split(' ')[0]) < 50).join('M');
  await hold(other, { side: pictures[0]!.side, path: torn });
  await other.waitForTimeout(1000);
  await expect(other.getByTestId('codes-read')).toContainText('Hold the camera');
  await hold(other, pictures[0]!);
  await expect(other.getByTestId('codes-read')).toContainText('1 of', { timeout: 20_000 });
  await other.context().close();
});
