import { expect, test, type Locator, type Page } from '@playwright/test';
import { dragByFinger, footHeight, openDemo, savedJob, touchDown } from './app';
import { motionSensor, onSlope } from './sensors';

test('the demo opens with its map, and the engine is the browser’s', { tag: '@desk' }, async ({ page }) => {
  const problems = watchProblems(page);
  await openDemo(page);
  await expect(page.getByTestId('backend')).toHaveText('wasm');
  for (const tab of ['measure', 'parts', 'map', 'build', 'checks']) {
    await page.getByTestId(`tab-${tab}`).tap();
    await expect(page.getByTestId(`tab-${tab}`)).toHaveAttribute('aria-current', 'page');
  }
  expect(problems).toEqual([]);
});

test('dragging the mast redraws the map under the finger and clears stops; undo brings them back', { tag: '@desk' }, async ({
  page,
}) => {
  await openDemo(page);
  const findings = page.getByTestId('findings-count');
  const before = await findings.innerText();
  const foot = await footHeight(page);
  const map = await drawn(page);

  const finger = await touchDown(page, page.getByTestId('mast-handle'));
  await finger.moveBy(-90, 0);
  await expect.poll(() => drawn(page)).not.toBe(map);
  await finger.lift();
  await expect(page.getByTestId('undo')).toBeEnabled();
  await expect(findings).not.toHaveText(before);
  // While the finger drags nobody has judged yet whether it stands.
  await expect(findings).toHaveText(/to look at|stop/);
  const after = await settled(findings);

  await page.getByTestId('undo').tap();
  await expect(findings).toHaveText(before);
  await expect(page.getByTestId('foot-height')).toHaveText(foot);
  await page.getByTestId('redo').tap();
  await expect(findings).toHaveText(after);
});

test('turning the base by its handle changes the foot while the finger moves; undo brings it back', async ({
  page,
}) => {
  await openDemo(page);
  const foot = page.getByTestId('foot-height');
  const before = await footHeight(page);

  const finger = await touchDown(page, page.getByTestId('front-handle'));
  await finger.moveBy(50, 30);
  await expect(foot).not.toHaveText(before);
  await finger.lift();
  const after = await settled(foot);
  expect(after).not.toBe(before);

  await page.getByTestId('undo').tap();
  await expect(foot).toHaveText(before);
  await page.getByTestId('redo').tap();
  await expect(foot).toHaveText(after);
});

test('a push east and a push west cancel out', async ({ page }) => {
  await openDemo(page);
  const east = () => savedMast(page).then((mast) => mast?.east_m);
  await expect.poll(east).not.toBeUndefined();
  const before = (await east()) as number;
  await page.getByTestId('nudge-east').tap();
  await expect.poll(east).toBeGreaterThan(before + 0.05);
  await page.getByTestId('nudge-west').tap();
  await expect.poll(async () => Math.abs(((await east()) as number) - before)).toBeLessThan(1e-9);
});

test('a typed slope reading is kept and changes the plan', { tag: '@desk' }, async ({ page }) => {
  await openDemo(page);
  const before = await footHeight(page);
  await beginSlope(page, '45');
  await page.getByRole('textbox', { name: 'Slope', exact: true }).fill('12.5');
  await page.getByRole('textbox', { name: 'Slope', exact: true }).press('Enter');
  await keepReading(page);
  await expect(page.getByText('12.5', { exact: false }).first()).toBeVisible();
  await page.getByTestId('tab-map').tap();
  await expect(page.getByTestId('foot-height')).not.toHaveText(before);
});

test('nonsense in a field is refused in words, and the job stays', async ({ page }) => {
  await openDemo(page);
  const before = await footHeight(page);
  await beginSlope(page, '45');
  await page.getByRole('textbox', { name: 'Slope', exact: true }).fill('steep');
  await page.getByRole('textbox', { name: 'Slope', exact: true }).press('Enter');
  await expect(page.getByRole('alert').first()).toContainText('Allowed');
  await page.getByTestId('tab-map').tap();
  await expect(page.getByTestId('foot-height')).toHaveText(before);
});

test('the phone held still on a slope of 6° gives a reading near 6°', async ({ page }) => {
  const sensor = await motionSensor(page);
  await openDemo(page);
  await beginSlope(page, '45');
  await sensor.lies(onSlope(6));
  await page.getByTestId('tilt-start').tap();
  await expect(page.getByTestId('tilt-capture')).toBeEnabled({ timeout: 15_000 });
  await page.getByTestId('tilt-capture').tap();
  const slope = page.getByRole('textbox', { name: 'Slope', exact: true });
  await expect(slope).not.toHaveValue('');
  // Chromium rounds each axis to 0.1 m/s²: sin 6° · 9.81 = 1.025 is seen as 1.0, atan(1.0 / 9.8) = 5.8°.
  const degrees = Number.parseFloat((await slope.inputValue()).replace('−', '-'));
  expect(Math.abs(degrees - 6)).toBeLessThan(0.5);
  await keepReading(page);
});

test('without the sensor the screen says so and takes typing', async ({ page }) => {
  await page.addInitScript(() => Reflect.deleteProperty(window, 'DeviceMotionEvent'));
  await openDemo(page);
  await beginSlope(page, '45');
  await page.getByTestId('tilt-start').tap();
  await expect(page.getByTestId('tilt')).toContainText('Type the slope');
});

test('what was entered is there after closing and opening again', async ({ page }) => {
  await openDemo(page);
  const foot = page.getByTestId('foot-height');
  const before = await footHeight(page);
  await dragByFinger(page, page.getByTestId('front-handle'), 50, 30);
  await expect(foot).not.toHaveText(before);
  const after = await settled(foot);
  const front = async () => (await savedJob<SavedJob>(page))?.placement.front_bearing_deg;
  await expect.poll(front).not.toBe(225);
  await page.reload();
  await page.getByTestId('tab-map').tap();
  await expect(foot).toHaveText(after);
});

test('the gust limit is found from every side; an unknown soil is not shown to hold; undo brings it back', async ({
  page,
}) => {
  const problems = watchProblems(page);
  await openDemo(page);
  await page.getByTestId('tab-checks').tap();
  await page.getByTestId('open-wind').tap();
  await expect(page.getByTestId('rose-whole')).toBeVisible({ timeout: 30_000 });
  const headline = page.getByTestId('wind-headline');
  await expect(headline).toContainText(/Lower it\s*before gusts of \d+ mph are forecast/);
  await expect(headline).toContainText(/Lay it down\s*before gusts of \d+ mph are forecast/);
  const before = await headline.innerText();
  const onlyIf = await page.getByTestId('only-if').allInnerTexts();

  await page.evaluate(() => (location.hash = 'measure/soil'));
  await page.getByText('Nobody has looked').tap();
  await page.evaluate(() => (location.hash = 'checks/wind'));
  const missing = page.getByTestId('missing');
  await expect(missing).toContainText('The soil, by thumb and bar', { timeout: 30_000 });
  await expect(missing).toContainText(
    'The soil is not known: whether it softens when wet, and what lies over the helix, decides what a screw holds.',
  );
  await expect(missing).toContainText(
    /Without it nothing shows that these hold: \d+ anchors, \d+ places on the ground, base against sliding\./,
  );
  // No speed to act at, and no rose, while something is not known.
  await expect(headline).toHaveCount(0);
  await expect(page.getByTestId('rose-card')).toHaveCount(0);
  await missing.getByRole('link', { name: /The soil/ }).tap();
  await expect(page).toHaveURL(/#\/measure\/soil/);

  await page.evaluate(() => (location.hash = 'parts/guys/0/anchor'));
  await page.getByText('Only a proof pull shows what it holds').tap();
  await page.evaluate(() => (location.hash = 'checks/wind'));
  await expect(missing).toContainText('What the guys are made fast to', { timeout: 30_000 });
  await expect(page.getByTestId('proof-pull')).toContainText(/Pull the anchor of Upper guy 1 with\s*[\d.]+ lbf/);

  await page.getByTestId('undo').tap();
  await page.getByTestId('undo').tap();
  await expect(headline).toHaveText(before, { useInnerText: true, timeout: 30_000 });
  await expect(page.getByTestId('rose-whole')).toBeVisible({ timeout: 30_000 });
  expect(await page.getByTestId('only-if').allInnerTexts()).toEqual(onlyIf);
  expect(problems).toEqual([]);
});

test('a stronger gust uses every part more, and a side of the rose can be looked at', async ({ page }) => {
  await openDemo(page);
  await page.evaluate(() => (location.hash = 'checks/wind'));
  await expect(page.getByTestId('rose-whole')).toBeVisible({ timeout: 30_000 });
  const head = page.getByTestId('table-head');
  const typed = page.getByRole('textbox', { name: 'Gust', exact: true });
  // One part by its name: what the mast as a whole is used is told as an upper bound, which stays.
  const rope = page.getByTestId('uses').locator('li', { hasText: 'Rope of Upper guy 1' });
  const used = async () => Number.parseFloat(await rope.locator('.number').innerText());
  await typed.fill('10 mph');
  await typed.press('Enter');
  await expect(head).toContainText('10 mph');
  const little = await used();
  await typed.fill('9 m/s');
  await typed.press('Enter');
  await expect(head).toContainText('20.1 mph');
  expect(await used()).toBeGreaterThan(little);

  await page.getByTestId('direction-slider').fill('90');
  await expect(page.getByTestId('direction-said')).toContainText('Wind from the east (090.0°)');
  await expect(head).toContainText('from the east (090.0°)');
  const bearing = page.getByRole('textbox', { name: 'Wind from, true bearing' });
  await expect(bearing).toHaveValue('090.0°');
  await bearing.fill('183');
  await bearing.press('Enter');
  await expect(head).toContainText('from the south (183.0°)');
  await expect(page.getByTestId('direction-said')).toContainText('Wind from the south (185.0°)');
  await bearing.fill('400');
  await bearing.press('Enter');
  await expect(page.getByRole('alert').first()).toContainText('Allowed');
});

test('the gust limit lies on the map with its key', async ({ page }) => {
  await openDemo(page);
  await page.getByTestId('open-legend').tap();
  await page.getByTestId('rose-on-map').check();
  await expect(page.getByText('Gust limit, mast raised')).toBeVisible({ timeout: 30_000 });
  await page.keyboard.press('Escape');
  await expect(page.getByTestId('rose-layer').locator('.r-wind_raised')).toHaveCount(1);
});

async function beginSlope(page: Page, bearing: string): Promise<void> {
  await page.getByTestId('tab-measure').tap();
  await page.getByRole('link', { name: 'Slope of the ground' }).tap();
  await page.getByTestId('add-item').tap();
  const field = page.getByRole('textbox').first();
  await field.fill(bearing);
  await field.press('Enter');
  await page.getByTestId('next-question').tap();
}

async function keepReading(page: Page): Promise<void> {
  await page.getByTestId('keep-item').tap();
}

/** What the engine has drawn of the staking map, without the handles over it. */
const drawn = (page: Page): Promise<string> => page.getByTestId('place-map').locator('.painted').innerHTML();

/** An element's text once two looks a moment apart agree. */
async function settled(element: Locator): Promise<string> {
  let last = await element.innerText();
  await expect(async () => {
    const now = await element.innerText();
    const same = now === last;
    last = now;
    expect(same).toBe(true);
  }).toPass({ intervals: [200, 200, 200] });
  return last;
}

function watchProblems(page: Page): string[] {
  const problems: string[] = [];
  page.on('pageerror', (error) => problems.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') problems.push(message.text());
  });
  return problems;
}

interface SavedJob {
  placement: { front_bearing_deg: number; mast: { east_m: number; north_m: number } };
}

const savedMast = async (page: Page) => (await savedJob<SavedJob>(page))?.placement.mast;

test('yards drawn by chance: stopped, drawn, and drawn the same again', async ({ page }) => {
  const problems = watchProblems(page);
  await openDemo(page);
  await page.getByTestId('tab-checks').tap();
  await page.getByRole('link', { name: /How sure is it/ }).tap();
  const rows = page.getByTestId('spread-row');

  // Stopped at once: a machine may be quicker than a finger.
  await page.evaluate(() => {
    const press = (id: string) => document.querySelector<HTMLElement>(`[data-testid=${id}]`)?.click();
    press('draw-yards');
    requestAnimationFrame(() => press('cancel'));
  });
  await expect(page.getByTestId('draw-yards')).toBeVisible();
  await expect(rows).toHaveCount(0);

  await page.getByTestId('draw-yards').tap();
  await expect(page.getByTestId('spread-headline')).toContainText('10,000 yards');
  const found = await rows.allInnerTexts();
  const seed = await page.getByTestId('seed').innerText();
  await page.getByTestId('same-draws').tap();
  await expect(page.getByTestId('draw-yards')).toBeVisible();
  await expect(page.getByTestId('seed')).toHaveText(seed);
  expect(await rows.allInnerTexts()).toEqual(found);

  await page.getByTestId('draw-yards').tap();
  await expect(page.getByTestId('seed')).not.toHaveText(seed);
  await expect.poll(() => rows.allInnerTexts()).not.toEqual(found);
  expect(problems).toEqual([]);
});

test('a map of another program comes in as one step; metres are left out and said; points go out', async ({ page }) => {
  await openDemo(page);
  await page.evaluate(() => (location.hash = 'measure/bring'));
  const file = page.getByTestId('bring-file');
  const document = (geometry: unknown) => ({
    name: 'yard.geojson',
    mimeType: 'application/geo+json',
    buffer: Buffer.from(JSON.stringify({ type: 'Feature', properties: { name: 'Duck pond' }, geometry })),
  });
  await file.setInputFiles(document({ type: 'Point', coordinates: [692345.1, 4885321.7] }));
  await expect(page.getByTestId('bring-skipped')).toContainText('WGS 84 degrees');

  const [west, south, east, north] = [-72.9001, 44.0999, -72.90002, 44.09996];
  const ring = [[west, south], [east, south], [east, north], [west, north], [west, south]];
  await file.setInputFiles(document({ type: 'Polygon', coordinates: [ring] }));
  await expect(page.getByTestId('bring-shape')).toContainText('Duck pond');
  await page.getByTestId('bring-in').tap();
  await expect(page.getByTestId('place-map')).toBeVisible();
  await page.evaluate(() => (location.hash = 'measure/things'));
  await expect(page.getByText('Duck pond')).toBeVisible();
  await page.getByTestId('undo').tap();
  await expect(page.getByText('Duck pond')).toBeHidden();

  await page.getByTestId('tab-build').tap();
  await page.getByText('Points for other programs').tap();
  for (const [button, end] of [['save-csv', '.csv'], ['save-geojson', '.geojson']] as const) {
    const saved = page.waitForEvent('download');
    await page.evaluate(() => (navigator.canShare = () => false));
    await page.getByTestId(button).tap();
    expect((await saved).suggestedFilename()).toContain(end);
  }
});

test('a line is walked step by step, its last step taken off, and kept as spot heights in one change', async ({
  page,
}) => {
  await openDemo(page);
  await page.evaluate(() => (location.hash = 'measure/walk'));
  const enter = async (pointer: string, text: string) => {
    const field = page.locator(`input[data-pointer="${pointer}"]`);
    await field.fill(text);
    await field.blur();
  };
  const steps = page.getByTestId('walk-steps').locator('li');
  await enter('/walk/along/bearing_deg', '238');
  const read = [
    ['2 m', '-0.2 m'],
    ['2 m', '0.5 m'],
    ['2 m', '-0.9 m'],
    ['2 m', '-0.2 m'],
  ] as const;
  for (const [i, [tape, rise]] of read.entries()) {
    await enter('/next/tape_m', tape);
    await enter('/next/rise/rise_m', rise);
    await expect(page.getByTestId('walk-add')).toBeEnabled();
    await page.getByTestId('walk-add').tap();
    await expect(steps).toHaveCount(i + 1);
    await expect(page.getByTestId('walk-tape')).toHaveValue('');
  }
  await expect(page.getByTestId('walk-plane')).toContainText('departs by');
  await expect(page.getByTestId('walk-plane')).toContainText('triangles');
  await page.getByTestId('walk-back').tap();
  await expect(steps).toHaveCount(3);

  const heights = page.locator('a[href^="#/measure/heights/"]:not(.button)');
  await page.getByTestId('walk-keep').tap();
  await expect(page.getByRole('heading', { name: 'Spot heights' })).toBeVisible();
  const kept = await heights.count();
  await page.getByTestId('undo').tap();
  await expect(heights).toHaveCount(kept - 3);
});
