import { expect, test } from '@playwright/test';
import { goTo, openBlank, openDemo } from './app';

const shots = process.env.SHOTS;

test('the demo is seen from its step, turned, by night, and a thing tells what it is', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'checks/seen');
  if (shots) await page.screenshot({ path: `${shots}/seen-list.png` });
  await goTo(page, 'checks/seen/0');
  const picture = page.getByTestId('seen-picture');
  await expect(picture.locator('path.r-seen_mast').first()).toBeAttached({ timeout: 30_000 });
  await expect(page.getByTestId('seen-cone')).toContainText('% of the lit cone shows');
  if (shots) await page.screenshot({ path: `${shots}/seen-day.png` });
  if (shots) await page.screenshot({ path: `${shots}/seen-page.png`, fullPage: true });
  // The mast is somewhere else once one has turned, and comes back.
  const mast = () => picture.locator('path.r-seen_mast').first().getAttribute('d');
  const before = await mast();
  await page.getByTestId('seen-right').tap();
  await expect.poll(mast).not.toBe(before);
  await page.getByTestId('seen-mast').tap();
  await expect.poll(mast).toBe(before);
  // Pulled to the right, the picture shows what is farther left.
  const box = (await picture.boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.8, box.y + box.height / 2, { steps: 4 });
  await page.mouse.up();
  await expect.poll(mast).not.toBe(before);
  await page.getByTestId('seen-mast').tap();
  // Keys turn, too.
  await picture.focus();
  await expect.poll(mast).toBe(before);
  await page.keyboard.press('ArrowLeft');
  await expect.poll(mast).not.toBe(before);
  await page.getByTestId('seen-mast').tap();
  await expect.poll(mast).toBe(before);
  // A tap on the mast's name says how far and how high it is.
  const name = picture.locator('text', { hasText: 'Mast' });
  const at = (await name.boundingBox())!;
  await page.mouse.click(at.x + at.width / 2, at.y + at.height / 2);
  await expect(page.getByTestId('seen-named')).toContainText(/Mast: .* away to the .* high/);
  await page.getByTestId('seen-night').tap();
  await expect(picture.locator('path.r-night_lit').first()).toBeAttached();
  if (shots) await page.screenshot({ path: `${shots}/seen-night.png` });
  // Beside the picture all of it stands in words.
  expect(await page.getByTestId('seen-list').locator('li').count()).toBeGreaterThan(8);
  await expect(page.getByTestId('seen-list')).toContainText('height not known yet');
});

test('a standpoint is put on the map, raised to a window, and taken back', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'checks/seen/new');
  if (shots) await page.screenshot({ path: `${shots}/seen-new.png` });
  await page.getByTestId('stand-on-map').tap();
  await page.getByTestId('pick-here').tap();
  await expect(page.locator('main h1')).toContainText('Seen from Standpoint 3');
  await expect(page.getByTestId('seen-picture').locator('path.r-seen_sky')).toBeAttached({ timeout: 30_000 });
  const floor = page.getByLabel('Floor over the ground');
  await floor.fill("9'");
  await floor.blur();
  await expect(page.getByText("over a floor that is 9' up")).toBeVisible();
  if (shots) await page.screenshot({ path: `${shots}/seen-window.png` });
  await goTo(page, 'checks/seen');
  await expect(page.locator('main li')).toHaveCount(3);
  await page.getByRole('button', { name: 'Delete Standpoint 3' }).tap();
  await expect(page.locator('main li')).toHaveCount(2);
});

test('a standpoint on the map opens its picture', async ({ page }) => {
  await openDemo(page);
  await page.getByTestId('fit-map').tap();
  await page.getByTestId('standpoint-0').tap();
  await expect(page.locator('main h1')).toContainText('Seen from');
  await expect(page.getByTestId('seen-cone')).toContainText('% of the lit cone shows', { timeout: 30_000 });
});

test('on one of the marks of an empty job', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'checks/seen/new');
  await page.getByTestId('stand-on-A').tap();
  await expect(page.locator('main h1')).toContainText('Seen from Mark A');
  await expect(page.getByTestId('seen-picture').locator('path.r-seen_mast').first()).toBeAttached({ timeout: 30_000 });
  if (shots) await page.screenshot({ path: `${shots}/seen-blank.png` });
});

test('on a large screen the picture stands beside the map, and follows the mast @desk', async ({ page }) => {
  test.skip((page.viewportSize()?.width ?? 0) < 1280, 'a phone has no room beside its map');
  await openDemo(page);
  await goTo(page, 'map');
  const card = page.getByTestId('seen-card');
  await expect(card.locator('path.r-seen_mast').first()).toBeAttached({ timeout: 30_000 });
  const mast = () => card.locator('path.r-seen_mast').first().getAttribute('d');
  const before = await mast();
  await page.getByTestId('nudge-north').click();
  await expect.poll(mast).not.toBe(before);
  if (shots) await page.screenshot({ path: `${shots}/seen-desk.png` });
});
