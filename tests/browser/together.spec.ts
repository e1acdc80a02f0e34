import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { entered, goTo, keptRecords, openBlank, savedJob } from './app';
import { picture } from './pictures';
import { ServedProgram } from './served_program';

interface Kept {
  name: string;
  notes: string;
  mastwright_history?: unknown;
  photos: { sha256: string }[];
  yard: { slopes: { id: string; bearing_deg: number; slope_deg: number }[] };
  rig: { base: { front_reach_m: number } };
  log: unknown[];
}

/** Two devices that reach each other take this long at most, edits' rest and a round included. */
const SOON = { timeout: 15_000 };

test.use({ actionTimeout: 15_000 });

let served: ServedProgram;
test.beforeAll(async () => {
  served = await ServedProgram.start();
});
test.afterAll(() => served.stop());

/** Makes an empty job. */
async function begin(page: Page): Promise<void> {
  await page.getByTestId('open-blank').tap();
  await page.getByTestId('begin-blank').tap();
  await expect(page.getByRole('heading', { name: 'Measure the yard' })).toBeVisible();
}

async function addSlope(page: Page, bearing: string, deg: string): Promise<void> {
  await goTo(page, 'measure/slopes/new');
  await entered(page, 'Compass bearing', bearing);
  await page.getByTestId('next-question').tap();
  await entered(page, 'Slope', deg);
  await page.getByTestId('keep-item').tap();
  await expect(page.getByTestId('keep-item')).toHaveCount(0);
  // The step back in the browser's history comes a moment later.
  await page.waitForTimeout(500);
  await expect(page.getByTestId('kept')).toHaveAttribute('data-state', 'kept');
}

async function writeSlope(page: Page, index: number, deg: string): Promise<void> {
  await goTo(page, `measure/slopes/${index}`);
  await entered(page, 'Slope', deg);
  await expect(page.getByTestId('kept')).toHaveAttribute('data-state', 'kept');
}

/** What is kept of the job, without its history, which is checked apart. */
async function kept(page: Page): Promise<Omit<Kept, 'mastwright_history'>> {
  const { mastwright_history: _, ...job } = (await savedJob<Kept>(page)) as Kept;
  return job;
}

const slopesOf = async (page: Page) =>
  (await savedJob<Kept>(page))?.yard.slopes.map(({ bearing_deg, slope_deg }) => [bearing_deg, slope_deg]) ?? [];
const readings = (pairs: number[][]) => [...pairs].sort(([a = 0], [b = 0]) => a - b);
const standing = (page: Page) => page.locator('[data-standing]').first();

/** What the job that a device has in hand is called on all devices. */
const idInHand = (page: Page) => page.evaluate(() => sessionStorage.getItem('mastwright:here') ?? '');

/** Opens on one device the job that another one made: it comes by itself, after those that came before it. */
async function openWhatCame(page: Page, from: Page): Promise<void> {
  await page.getByTestId('jobs-kept').tap(SOON);
  await page.getByTestId(`job-${await idInHand(from)}`).tap(SOON);
  await expect(page.getByTestId('place-map')).toBeVisible();
}

test('two devices hold the same job without anything being pressed, and ask about what both wrote', async ({ browser }) => {
  test.setTimeout(240_000);
  const laptop = await served.pair(browser, 'Laptop');
  const phone = await served.pair(browser, 'Phone');
  await begin(laptop.page);
  await addSlope(laptop.page, '40', '3');
  await addSlope(laptop.page, '130', '2');
  await openWhatCame(phone.page, laptop.page);
  // The log of a reading is written a moment after the reading.
  await expect(async () => expect(await kept(phone.page)).toEqual(await kept(laptop.page))).toPass(SOON);

  // A reading of one is on the other, which is looking at another page of the same job; and is said there.
  await addSlope(laptop.page, '170', '7');
  await expect(phone.page.getByTestId('came')).toContainText(/Brought together with Laptop, .*: 1 reading from there\./, SOON);
  await phone.page.screenshot({ path: 'out/together-came.png' });
  await expect.poll(() => slopesOf(phone.page)).toHaveLength(3);

  // The phone is out of reach. Both go on; of one reading both write.
  await phone.context.setOffline(true);
  await addSlope(laptop.page, '200', '5');
  await writeSlope(laptop.page, 0, '4.25');
  await writeSlope(phone.page, 0, '5.5');
  await addSlope(phone.page, '300', '6');
  await goTo(phone.page, 'parts/base');
  await entered(phone.page, 'Front leg, mast to tip', '2.25 m');
  await expect(phone.page.getByTestId('kept')).toHaveAttribute('data-state', 'kept');
  await phone.page.waitForTimeout(3000);
  expect(await slopesOf(laptop.page)).toHaveLength(4);
  expect(await slopesOf(phone.page)).toHaveLength(4);

  // It is back. What each entered is on both, and of what both wrote each still has its own, with a mark.
  await phone.context.setOffline(false);
  const others = [[130, 2], [170, 7], [200, 5], [300, 6]];
  await expect.poll(async () => readings(await slopesOf(phone.page)), SOON).toEqual([[40, 5.5], ...others]);
  await expect.poll(async () => readings(await slopesOf(laptop.page)), SOON).toEqual([[40, 4.25], ...others]);
  for (const { page } of [phone, laptop]) await expect(page.getByTestId('asked')).toContainText('One entry was', SOON);
  await expect.poll(async () => (await kept(laptop.page)).rig.base.front_reach_m).toBe(2.25);
  await expect(phone.page.getByTestId('came')).toContainText(/2 readings/);
  await phone.page.screenshot({ path: 'out/together-mark.png' });
  await goTo(phone.page, 'jobs');
  await expect(phone.page.locator('[data-testid^="asked-"]')).toContainText('One entry');
  await expect(standing(phone.page)).toHaveAttribute('data-standing', 'same', SOON);
  await expect(phone.page.getByTestId('together-did')).toContainText(/Brought together/);
  await phone.page.screenshot({ path: 'out/together-jobs.png' });
  // Left open neither tells the other anything more: the logs do not grow.
  const logs = await Promise.all([phone, laptop].map(async ({ page }) => (await kept(page)).log.length));
  await phone.page.waitForTimeout(6000);
  expect(await Promise.all([phone, laptop].map(async ({ page }) => (await kept(page)).log.length))).toEqual(logs);

  // Undo takes back what was done here, and nothing that came.
  await goTo(phone.page, 'map');
  await phone.page.getByTestId('undo').tap();
  await expect.poll(async () => (await kept(phone.page)).rig.base.front_reach_m).not.toBe(2.25);
  await phone.page.getByTestId('undo').tap();
  const without = [[40, 5.5], [130, 2], [170, 7], [200, 5]];
  await expect.poll(async () => readings(await slopesOf(phone.page))).toEqual(without);
  await phone.page.getByTestId('redo').tap();
  await expect.poll(async () => readings(await slopesOf(laptop.page)), SOON).toEqual([[40, 4.25], ...others]);

  // Asked after a reload, too. Settled on one it is settled on the other.
  await phone.page.reload();
  await expect(phone.page.getByTestId('asked')).toContainText('One entry was');
  await goTo(phone.page, 'checks/both');
  await expect(phone.page.getByRole('heading', { name: 'Slope reading' })).toBeVisible();
  const sides = phone.page.locator('[data-testid^="side-"]');
  await expect(sides.filter({ hasText: 'Phone' })).toContainText('5.5°');
  await expect(sides.filter({ hasText: 'Phone' })).toContainText('used for now');
  await expect(sides.filter({ hasText: 'Laptop' })).toContainText('4.25°');
  await phone.page.screenshot({ path: 'out/together-asked.png' });
  await sides.filter({ hasText: 'Laptop' }).getByRole('button').tap();
  await expect(phone.page.getByTestId('no-conflicts')).toBeVisible();
  await expect(laptop.page.getByTestId('asked')).toHaveCount(0, SOON);
  await expect(async () => expect(await kept(phone.page)).toEqual(await kept(laptop.page))).toPass(SOON);
  const here = await kept(phone.page);
  expect(readings(here.yard.slopes.map(({ bearing_deg, slope_deg }) => [bearing_deg, slope_deg]))).toEqual([[40, 4.25], ...others]);
  // Each reading stands in the log of both, also the one that was not chosen.
  expect(JSON.stringify(here.log)).toContain('5.5');
  await laptop.context.close();
  await phone.context.close();
});

test('nothing comes under the hands of who is entering something', async ({ browser }) => {
  test.setTimeout(120_000);
  const laptop = await served.pair(browser, 'Laptop 2');
  const phone = await served.pair(browser, 'Phone 2');
  await begin(laptop.page);
  for (const bearing of ['20', '80']) await addSlope(laptop.page, bearing, '3');
  await openWhatCame(phone.page, laptop.page);
  await expect.poll(() => slopesOf(phone.page), SOON).toHaveLength(2);

  // A thing that is begun, with a text that is not read yet.
  await goTo(phone.page, 'measure/slopes/new');
  await phone.page.getByLabel('Compass bearing', { exact: true }).fill('110');
  await phone.page.getByTestId('next-question').tap();
  await phone.page.getByLabel('Slope', { exact: true }).fill('5');
  await addSlope(laptop.page, '250', '4');
  await phone.page.waitForTimeout(6000);
  expect(await slopesOf(phone.page)).toHaveLength(2);
  await expect(phone.page.getByLabel('Slope', { exact: true })).toHaveValue('5');
  await phone.page.getByTestId('keep-item').tap();
  const all = [[20, 3], [80, 3], [110, 5], [250, 4]];
  for (const { page } of [phone, laptop]) await expect.poll(async () => readings(await slopesOf(page)), SOON).toEqual(all);

  // Who looks at a reading goes on looking at that one, wherever it stands in its list then.
  const ids = (await kept(phone.page)).yard.slopes;
  const last = ids.length - 1;
  await goTo(phone.page, `measure/slopes/${last}`);
  const bearing = await phone.page.getByLabel('Compass bearing', { exact: true }).inputValue();
  // What is refused stays with its field.
  await entered(phone.page, 'Slope', '6x');
  await goTo(phone.page, 'map');
  await goTo(phone.page, `measure/slopes/${last}`);
  await goTo(laptop.page, 'measure/things');
  await phone.page.waitForTimeout(500);
  await goTo(laptop.page, 'measure/slopes');
  await laptop.page.getByRole('button', { name: /^Strike out/ }).first().tap();
  await expect.poll(async () => JSON.stringify(await kept(phone.page)).includes('"struck":true'), SOON).toBe(true);
  await expect(phone.page.getByLabel('Compass bearing', { exact: true })).toHaveValue(bearing);
  await expect(phone.page.getByLabel('Slope', { exact: true })).toHaveValue('6x');
  await laptop.context.close();
  await phone.context.close();
});

test('a job that came by itself is not opened in place of the one that was worked on last', async ({ browser }) => {
  const laptop = await served.pair(browser, 'Laptop 6');
  const phone = await served.pair(browser, 'Phone 6');
  await begin(phone.page);
  await addSlope(phone.page, '33', '7');
  const ids = async (page: Page) => (await keptRecords(page))?.cards.map(({ id }) => id);
  const phones = await idInHand(phone.page);
  await expect.poll(() => ids(laptop.page), SOON).toContain(phones);
  // Made when the rounds are over, and nothing is entered into it: it goes to the other device all the same.
  await laptop.page.waitForTimeout(3000);
  await begin(laptop.page);
  const came = await idInHand(laptop.page);
  await expect.poll(() => ids(phone.page), SOON).toContain(came);
  await phone.page.close();
  const again = await phone.context.newPage();
  await again.goto(`${served.origin}/#/measure/slopes`);
  await expect(again.getByText('7° along 033°')).toBeVisible(SOON);
  await laptop.context.close();
  await phone.context.close();
});

test('a photo goes to the other device, and until then the job says that it has not come', async ({ browser }) => {
  test.setTimeout(120_000);
  const laptop = await served.pair(browser, 'Laptop 3');
  const phone = await served.pair(browser, 'Phone 3');
  await phone.context.route('**/photos/*', (route) => route.abort());
  await begin(laptop.page);
  await goTo(laptop.page, 'measure/photos');
  await laptop.page.getByTestId('photo-file').setInputFiles(await picture(laptop.page, 'rgb(200, 40, 40)'));
  await expect(laptop.page.getByTestId('photo').locator('img')).toHaveCount(1);
  await expect.poll(async () => (await kept(laptop.page)).photos.length).toBe(1);
  const { sha256 = '' } = (await kept(laptop.page)).photos[0] ?? {};
  const onMachine = () => readFileSync(join(served.folder, 'photos', sha256));
  await expect.poll(() => readdirSync(join(served.folder)).includes('photos') && onMachine().length > 0, SOON).toBe(true);
  expect(createHash('sha256').update(onMachine()).digest('hex')).toBe(sha256);

  await phone.page.getByTestId('jobs-kept').tap(SOON);
  const row = phone.page.locator('[data-testid^="job-"]').filter({ hasText: 'photo' });
  await expect(row).toContainText('One photo has not come yet', SOON);
  await phone.page.screenshot({ path: 'out/together-photo-missing.png' });
  await row.tap();
  await expect(phone.page.getByTestId('place-map')).toBeVisible();
  await goTo(phone.page, 'measure/photos');
  await expect(phone.page.getByTestId('photo')).toContainText('has not come yet');
  // In reach again it comes by itself, and is shown where it is looked at.
  await phone.context.unroute('**/photos/*');
  await phone.page.evaluate(() => dispatchEvent(new Event('online')));
  await expect(phone.page.getByTestId('photo').locator('img')).toHaveCount(1, SOON);
  await phone.page.getByTestId('photo').tap();
  await expect(phone.page.getByTestId('large-photo')).toHaveJSProperty('naturalWidth', 1600);
  await phone.page.keyboard.press('Escape');
  await goTo(phone.page, 'jobs');
  await expect(phone.page.getByTestId('together-did')).toContainText('photo');
  await laptop.context.close();
  await phone.context.close();
});

test('a job that was deleted for good comes back when somebody wishes it, and not before', async ({ browser }) => {
  test.setTimeout(120_000);
  const laptop = await served.pair(browser, 'Laptop 4');
  await begin(laptop.page);
  await addSlope(laptop.page, '40', '3');
  await goTo(laptop.page, 'jobs');
  await expect(standing(laptop.page)).toHaveAttribute('data-standing', 'same', SOON);
  const jobs = laptop.page.locator('[data-testid^="job-"]');
  const id = ((await jobs.first().getAttribute('data-testid')) ?? '').slice('job-'.length);
  const before = await jobs.count();
  await goTo(laptop.page, `jobs/${id}`);
  await laptop.page.getByTestId('bin-job').tap();
  await laptop.page.getByTestId(`binned-${id}`).tap();
  await laptop.page.getByTestId('delete-job').tap();
  await laptop.page.getByTestId('really-delete').tap();
  await expect(laptop.page.getByRole('heading', { name: 'Jobs', exact: true })).toBeVisible();
  await expect(laptop.page.getByTestId(`elsewhere-${id}`)).toContainText('deleted here', SOON);
  await laptop.page.getByTestId('bring-together').tap();
  await expect(laptop.page.getByTestId('bring-together')).toBeEnabled();
  expect(await jobs.count()).toBe(before - 1);
  await laptop.page.getByTestId(`take-in-${id}`).tap();
  await expect(laptop.page.getByTestId(`job-${id}`)).toBeVisible();
  await laptop.context.close();
});

/** Deletes a job for good on one device. */
async function deleteJob(page: Page, id: string): Promise<void> {
  await goTo(page, 'jobs');
  await page.getByTestId(`more-${id}`).tap();
  await page.getByTestId('bin-job').tap();
  await page.getByTestId(`binned-${id}`).tap();
  await page.getByTestId('delete-job').tap();
  await page.getByTestId('really-delete').tap();
  await expect(page.getByTestId('really-delete')).toHaveCount(0);
}

const slopesKept = async (page: Page, id: string) =>
  (await savedJob<Kept>(page, id))?.yard.slopes.map(({ bearing_deg, slope_deg }) => [bearing_deg, slope_deg]) ?? [];

test('a job that is deleted on one device goes into the bin of the other, and is asked about where it was changed', async ({ browser }) => {
  test.setTimeout(180_000);
  const laptop = await served.pair(browser, 'Laptop 7');
  const phone = await served.pair(browser, 'Phone 7');
  await begin(laptop.page);
  await addSlope(laptop.page, '40', '3');
  const id = await idInHand(laptop.page);
  await phone.page.getByTestId('jobs-kept').tap(SOON);
  await expect(phone.page.getByTestId(`standing-${id}`)).toHaveAttribute('data-standing', 'same', SOON);
  await expect.poll(() => slopesKept(phone.page, id), SOON).toEqual([[40, 3]]);

  // Nothing of it was changed on the phone: there it goes, and says so; and it can be had back, on both.
  await deleteJob(laptop.page, id);
  await expect(phone.page.getByTestId(`binned-${id}`)).toContainText('It was deleted on Laptop 7', SOON);
  await expect(phone.page.getByTestId('together-did')).toContainText('was deleted on Laptop 7: it lies in the bin here');
  await phone.page.screenshot({ path: 'out/together-deleted.png' });
  await phone.page.getByTestId(`binned-${id}`).tap();
  await phone.page.getByTestId('restore-job').tap();
  await expect(laptop.page.getByTestId(`job-${id}`)).toBeVisible(SOON);
  await expect.poll(() => slopesKept(laptop.page, id)).toEqual([[40, 3]]);

  // The phone is out of reach and goes on with it while it is deleted on the laptop: nothing goes, and the phone is asked.
  await phone.page.getByTestId(`job-${id}`).tap();
  await expect(phone.page.getByTestId('place-map')).toBeVisible();
  await phone.context.setOffline(true);
  await addSlope(phone.page, '130', '6');
  await deleteJob(laptop.page, id);
  await phone.page.waitForTimeout(3000);
  await phone.context.setOffline(false);
  await phone.page.getByTestId('deleted').tap(SOON);
  await expect(phone.page.getByTestId('deleted-there')).toContainText(/It was deleted on Laptop 7, .*Is it still wanted\?/);
  await phone.page.screenshot({ path: 'out/together-deleted-asked.png' });
  expect(readings(await slopesKept(phone.page, id))).toEqual([[40, 3], [130, 6]]);
  await phone.page.getByTestId('keep-deleted').tap();
  await expect(phone.page.getByTestId('deleted-there')).toHaveCount(0);
  await expect(laptop.page.getByTestId(`job-${id}`)).toBeVisible(SOON);
  await expect.poll(async () => readings(await slopesKept(laptop.page, id)), SOON).toEqual([[40, 3], [130, 6]]);

  await goTo(phone.page, 'map');
  // And once more, and now it goes, with what was entered since; into the bin, where it can be looked at.
  await phone.context.setOffline(true);
  await addSlope(phone.page, '220', '5');
  await deleteJob(laptop.page, id);
  await phone.page.waitForTimeout(3000);
  await phone.context.setOffline(false);
  await phone.page.getByTestId('deleted').tap(SOON);
  await phone.page.getByTestId('agree-deleted').tap();
  await expect(phone.page.getByTestId(`binned-${id}`)).toBeVisible();
  expect(readings(await slopesKept(phone.page, id))).toHaveLength(3);
  // Wanted back is what one knows to be deleted: the phone's deletion has to have come.
  await expect(laptop.page.getByTestId(`elsewhere-${id}`)).toContainText('deleted on Phone 7', SOON);
  await laptop.page.getByTestId(`take-in-${id}`).tap();
  await expect.poll(async () => readings(await slopesKept(laptop.page, id)), SOON).toHaveLength(3);
  await expect(phone.page.getByTestId(`job-${id}`)).toBeVisible(SOON);
  await laptop.context.close();
  await phone.context.close();
});

test('taken out here and changed there is asked about with both, and undo takes the answer back on both', async ({ browser }) => {
  test.setTimeout(120_000);
  const laptop = await served.pair(browser, 'Laptop 8');
  const phone = await served.pair(browser, 'Phone 8');
  await begin(laptop.page);
  await addSlope(laptop.page, '40', '3');
  await openWhatCame(phone.page, laptop.page);
  await expect.poll(() => slopesOf(phone.page), SOON).toEqual([[40, 3]]);
  await phone.context.setOffline(true);
  await writeSlope(laptop.page, 0, '4.25');
  await goTo(phone.page, 'measure/slopes/0');
  await phone.page.getByTestId('strike').tap();
  await phone.page.getByRole('button', { name: 'Take it off the list' }).tap();
  await expect.poll(() => slopesOf(phone.page)).toEqual([]);
  await phone.context.setOffline(false);
  for (const { page } of [phone, laptop]) {
    await expect(page.getByTestId('asked')).toContainText('One entry was', SOON);
    await expect.poll(() => slopesOf(page), SOON).toEqual([[40, 4.25]]);
  }
  await goTo(phone.page, 'checks/both');
  await expect(phone.page.getByTestId('asks')).toHaveText('One device took it out, another changed it. Is it still there?');
  const side = (who: string) => phone.page.locator('[data-testid^="side-"]').filter({ hasText: who });
  await expect(side('Phone 8')).toContainText('Taken out');
  await expect(side('Laptop 8')).toContainText('4.25°');
  for (const who of ['Phone 8', 'Laptop 8']) await expect(side(who)).toContainText(/\d\d:\d\d/);
  await phone.page.screenshot({ path: 'out/together-taken-out.png' });
  await side('Phone 8').getByRole('button').tap();
  await expect(phone.page.getByTestId('no-conflicts')).toBeVisible();
  for (const { page } of [phone, laptop]) await expect.poll(() => slopesOf(page), SOON).toEqual([]);
  await expect(laptop.page.getByTestId('asked')).toHaveCount(0, SOON);

  // It was the wrong one.
  await phone.page.getByTestId('undo').tap();
  await expect(side('Phone 8')).toContainText('Taken out');
  await expect(side('Laptop 8')).toContainText('4.25°');
  for (const { page } of [phone, laptop]) {
    await expect(page.getByTestId('asked')).toContainText('One entry was', SOON);
    await expect.poll(() => slopesOf(page), SOON).toEqual([[40, 4.25]]);
  }
  await phone.page.getByTestId('redo').tap();
  for (const { page } of [phone, laptop]) await expect.poll(() => slopesOf(page), SOON).toEqual([]);
  await phone.page.getByTestId('undo').tap();
  // The other side was shown already: an answer that changes nothing in the job is one step, too.
  await side('Laptop 8').getByRole('button').tap();
  for (const { page } of [phone, laptop]) await expect(page.getByTestId('asked')).toHaveCount(0, SOON);
  await phone.page.getByTestId('undo').tap();
  for (const { page } of [phone, laptop]) await expect(page.getByTestId('asked')).toContainText('One entry was', SOON);
  expect(await slopesOf(phone.page)).toEqual([[40, 4.25]]);
  await laptop.context.close();
  await phone.context.close();
});

test('a file of a job that is here is brought together with it', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'map');
  await page.getByTestId('job-menu').tap();
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByTestId('export-job').tap()]);
  const file = JSON.parse(readFileSync(await download.path(), 'utf8')) as Kept & { mastwright_history: object };
  expect(file.mastwright_history).toBeTruthy();
  await page.keyboard.press('Escape');
  const opened = async (job: object) => {
    await page.getByTestId('job-menu').tap();
    await page
      .getByTestId('import-file')
      .first()
      .setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(job)) });
  };
  // The very same: nothing is doubled, nothing asked.
  await opened(file);
  await expect(page.getByText('This job was here already')).toBeVisible();
  await expect(page.getByTestId('asked')).toHaveCount(0);
  // Changed by a program that keeps no history: both are kept, and asked about.
  await opened({ ...file, notes: 'by hand' });
  await expect(page.getByTestId('asked')).toBeVisible();
  await goTo(page, 'jobs');
  await expect(page.locator('[data-testid^="job-"]')).toHaveCount(1);
});
