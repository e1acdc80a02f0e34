import { readFileSync } from 'node:fs';
import { expect, test, type Page } from '@playwright/test';
import { goTo, openBlank, savedJob } from './app';
import { ServedProgram } from './served_program';

interface Kept {
  name: string;
  notes: string;
  mastwright_history?: unknown;
  yard: { slopes: { id: string; slope_deg: number }[] };
  log: unknown[];
}

let served: ServedProgram;
test.beforeAll(async () => {
  served = await ServedProgram.start();
});
test.afterAll(() => served.stop());

async function bringTogether(page: Page): Promise<void> {
  await goTo(page, 'jobs');
  await page.getByTestId('bring-together').tap();
  await expect(page.getByTestId('together-did')).toBeVisible();
}

async function writeSlope(page: Page, deg: string): Promise<void> {
  await goTo(page, 'measure/slopes/0');
  await page.getByLabel('Slope', { exact: true }).fill(deg);
  await page.getByLabel('Slope', { exact: true }).blur();
  await expect(page.getByTestId('kept')).toHaveAttribute('data-state', 'kept');
}

const standing = (page: Page) => page.locator('[data-standing]').first();

/** What is kept of the job, once the journal rests; the history is checked apart. */
async function kept(page: Page): Promise<Omit<Kept, 'mastwright_history'>> {
  await page.waitForTimeout(1800);
  const { mastwright_history: _, ...job } = (await savedJob<Kept>(page)) as Kept;
  return job;
}

test('two devices that worked without hearing of each other hold one job, and ask about what both wrote', async ({ browser }) => {
  test.setTimeout(180_000);
  const laptop = await served.pair(browser, 'Laptop');
  const phone = await served.pair(browser, 'Phone');

  // A job is made on the laptop, and is on the phone once both were brought together.
  await laptop.page.getByTestId('open-demo').tap();
  await expect(laptop.page.getByTestId('foot-height')).toHaveText(/\d/);
  await goTo(laptop.page, 'jobs');
  await expect(standing(laptop.page)).toHaveAttribute('data-standing', 'only_here');
  await bringTogether(laptop.page);
  await expect(standing(laptop.page)).toHaveAttribute('data-standing', 'same');
  await goTo(phone.page, 'jobs');
  await expect(phone.page.getByTestId('together')).toContainText('not here yet');
  await bringTogether(phone.page);
  await phone.page.locator('[data-testid^="job-"]').first().tap();
  await expect(phone.page.getByTestId('foot-height')).toHaveText(/\d/);
  const began = await kept(laptop.page);
  expect(await kept(phone.page)).toEqual(began);

  // Neither reaches the other.
  for (const { context } of [laptop, phone]) await context.route('**/jobs*', (route) => route.abort());
  for (const { context } of [laptop, phone]) await context.route('**/jobs/*', (route) => route.abort());
  await writeSlope(laptop.page, '4.25');
  await writeSlope(phone.page, '5.5');
  await goTo(phone.page, 'measure/slopes/1');
  await phone.page.getByLabel('Slope', { exact: true }).fill('6.75');
  await phone.page.getByLabel('Slope', { exact: true }).blur();
  await expect(phone.page.getByTestId('kept')).toHaveAttribute('data-state', 'kept');
  await goTo(phone.page, 'jobs');
  await phone.page.getByTestId('bring-together').tap();
  await expect(phone.page.getByTestId('together').getByRole('alert')).toContainText('Nothing is lost');

  // They hear of each other again.
  for (const { context } of [laptop, phone]) await context.unroute('**/jobs*');
  for (const { context } of [laptop, phone]) await context.unroute('**/jobs/*');
  await bringTogether(laptop.page);
  await goTo(phone.page, 'map');
  await goTo(phone.page, 'jobs');
  await expect(standing(phone.page)).toHaveAttribute('data-standing', 'both_changed');
  await phone.page.screenshot({ path: 'out/together-jobs.png' });
  await bringTogether(phone.page);
  await expect(standing(phone.page)).toHaveAttribute('data-standing', 'same');

  // The one that both wrote is asked about, with who wrote what; left open it is still asked after a reload.
  await goTo(phone.page, 'map');
  await expect(phone.page.getByTestId('asked')).toContainText('One entry was');
  await phone.page.reload();
  await expect(phone.page.getByTestId('asked')).toContainText('One entry was');
  await goTo(phone.page, 'checks/both');
  await expect(phone.page.getByRole('heading', { name: 'Slope reading' })).toBeVisible();
  await expect(phone.page.getByTestId('side-0')).toContainText('Phone');
  await expect(phone.page.getByTestId('side-0')).toContainText('5.5°');
  await expect(phone.page.getByTestId('side-1')).toContainText('Laptop');
  await expect(phone.page.getByTestId('side-1')).toContainText('4.25°');
  await phone.page.screenshot({ path: 'out/together-asked.png' });
  await phone.page.getByTestId('choose-1').tap();
  await expect(phone.page.getByTestId('no-conflicts')).toBeVisible();

  await bringTogether(phone.page);
  await bringTogether(laptop.page);
  await expect(laptop.page.getByTestId('asked')).toHaveCount(0);
  const [here, there] = [await kept(laptop.page), await kept(phone.page)];
  expect(there).toEqual(here);
  expect(here.yard.slopes.slice(0, 2).map(({ slope_deg }) => slope_deg)).toEqual([4.25, 6.75]);
  // Each reading stands in the log of both, also the one that was not chosen.
  expect(JSON.stringify(here.log)).toContain('5.5');
  await goTo(laptop.page, 'jobs');
  await expect(standing(laptop.page)).toHaveAttribute('data-standing', 'same');
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
