import { expect, test, type Page } from '@playwright/test';
import { goTo, openBlank, openDemo } from './app';

const heading = (page: Page) => page.getByRole('heading', { level: 1 });
/** The phone's own back gesture. */
const back = (page: Page) => page.evaluate(() => history.back());

async function addMark(page: Page, east: string): Promise<void> {
  await page.getByTestId('add-item').tap();
  await page.getByTestId('next-question').tap();
  await page.getByText('On the map', { exact: true }).tap();
  await page.getByLabel('East of the first mark').fill(east);
  await page.getByLabel('North of it').fill('2 m');
  await page.getByLabel('North of it').blur();
  await page.getByTestId('keep-item').tap();
  await expect(heading(page)).toHaveText('Marks');
}

test('Back closes an open sheet first, then leaves the page', async ({ page }) => {
  await openBlank(page);
  await page.getByRole('link', { name: 'Slope of the ground' }).tap();
  await page.getByTestId('job-menu').tap();
  await expect(page.getByRole('dialog')).toBeVisible();
  await back(page);
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await expect(heading(page)).toHaveText('Slope of the ground');
  await back(page);
  await expect(heading(page)).toHaveText('Measure the yard');

  // A sheet that is closed by its own button leaves no step behind, and can be opened at once again.
  await page.getByRole('link', { name: 'Slope of the ground' }).tap();
  for (let i = 0; i < 3; i += 1) {
    await page.getByTestId('job-menu').tap();
    await page.getByRole('button', { name: 'Close' }).tap();
    await expect(page.getByRole('dialog')).toHaveCount(0);
  }
  await back(page);
  await expect(heading(page)).toHaveText('Measure the yard');
});

test('adding marks leaves one list in the history', async ({ page }) => {
  await openBlank(page);
  await page.getByRole('link', { name: /^\d*\s*Marks/ }).tap();
  const before = await page.evaluate(() => history.length);
  for (const east of ['1 m', '3 m', '5 m']) await addMark(page, east);
  await expect(page.locator('a[href^="#/measure/marks/"]:not(.button)')).toHaveCount(4);
  // At most the one step of the last new mark lies ahead.
  expect(await page.evaluate(() => history.length)).toBeLessThanOrEqual(before + 1);
  await back(page);
  await expect(heading(page)).toHaveText('Measure the yard');
});

test('a page goes back to where it was opened from, and the focus goes to its heading', async ({ page }) => {
  await openDemo(page);
  await page.getByTestId('tab-checks').tap();
  await expect(heading(page)).toHaveText('Checks');
  await expect(heading(page)).toBeFocused();
  const change = page.getByRole('link', { name: 'Change it' }).first();
  await change.tap();
  await expect(heading(page)).not.toHaveText('Checks');
  await expect(heading(page)).toBeFocused();
  await page.getByTestId('back').tap();
  await expect(heading(page)).toHaveText('Checks');
  await expect(heading(page)).toBeFocused();

  await page.getByTestId('tab-measure').tap();
  await page.getByText('Things in the yard').tap();
  await page.locator('a[href="#/measure/things/1"]').tap();
  await page.getByTestId('history').tap();
  await expect(heading(page)).toHaveText('Survey log');
  await page.getByTestId('back').tap();
  await expect(page).toHaveURL(/#\/measure\/things\/1$/);
  // What is deleted goes back, too.
  await page.getByRole('button', { name: /^Delete this/ }).tap();
  await expect(heading(page)).toHaveText('Things in the yard');
  await expect(heading(page)).toBeFocused();

  // A page that was opened by its address alone goes to the one above it.
  await page.goto('about:blank');
  await page.goto('/#measure/marks/0');
  await page.getByTestId('back').tap();
  await expect(heading(page)).toHaveText('Marks');
});

test('a list comes back scrolled as it was left', async ({ page }) => {
  await openDemo(page);
  await page.getByTestId('tab-measure').tap();
  const pane = page.locator('main.pane');
  await page.getByText('Survey log').scrollIntoViewIfNeeded();
  const top = await pane.evaluate((element) => element.scrollTop);
  expect(top).toBeGreaterThan(50);
  await page.getByText('Survey log').tap();
  await expect(heading(page)).toHaveText('Survey log');
  expect(await pane.evaluate((element) => element.scrollTop)).toBe(0);
  await back(page);
  await expect(heading(page)).toHaveText('Measure the yard');
  await expect.poll(() => pane.evaluate((element) => element.scrollTop)).toBe(top);
});

test('a point is put on the map and its page comes back; Back puts none', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'measure/marks');
  await page.getByTestId('add-item').tap();
  await page.getByTestId('next-question').tap();
  await page.getByRole('button', { name: 'Place on the map' }).tap();
  await expect(page.getByTestId('pick-here')).toBeVisible();
  await back(page);
  await expect(heading(page)).toHaveText('New mark');
  await page.getByTestId('tab-map').tap();
  await expect(page.getByTestId('pick-here')).toHaveCount(0);
  await back(page);
  await page.getByRole('button', { name: 'Place on the map' }).tap();
  await page.getByTestId('pick-here').tap();
  await expect(heading(page)).toHaveText('New mark');
  await page.getByTestId('keep-item').tap();
  await expect(heading(page)).toHaveText('Marks');
});

test('from the map to the jobs, one of them and an earlier version, and back the same way', async ({ page }) => {
  await openDemo(page);
  await page.getByTestId('tab-map').tap();
  await page.getByTestId('job-menu').tap();
  await page.getByTestId('all-jobs').tap();
  await expect(heading(page)).toHaveText('Jobs');
  await page.locator('[data-testid^="more-"]').first().tap();
  await expect(heading(page)).toHaveText('Lantern Green');
  await page.getByTestId('version-0').tap();
  await expect(page.getByRole('dialog')).toBeVisible();
  await back(page);
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await expect(heading(page)).toHaveText('Lantern Green');
  await back(page);
  await expect(heading(page)).toHaveText('Jobs');
  await back(page);
  await expect(page.getByTestId('place-map')).toBeVisible();
});

test('a job’s own page opened by its address leads back to the list, and an old address still opens', async ({ page }) => {
  await openDemo(page);
  await page.goto('/#jobs');
  await expect(heading(page)).toHaveText('Jobs');
  const link = await page.locator('[data-testid^="more-"]').first().getAttribute('href');
  expect(link).toMatch(/^#\/jobs\//);
  await page.goto(`/${link}`);
  await page.reload();
  await expect(heading(page)).toHaveText('Lantern Green');
  await page.getByTestId('back').tap();
  await expect(heading(page)).toHaveText('Jobs');
});

test('what was done is told where it was done and on the next page, not for ever', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'measure/slopes/new');
  await page.getByLabel('Compass bearing', { exact: true }).fill('240');
  await page.getByTestId('next-question').tap();
  await page.getByLabel('Slope', { exact: true }).fill('5');
  await page.getByTestId('keep-item').tap();
  const told = page.getByTestId('did');
  await expect(told).toContainText('Date of the survey set to now');
  await goTo(page, 'parts');
  await expect(told).toBeVisible();
  await goTo(page, 'parts/tubes');
  await expect(told).toHaveCount(0);
});
