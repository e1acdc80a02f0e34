import { expect, test } from '@playwright/test';
import { goTo, openBlank, openDemo, savedJob } from './app';

const shots = process.env.SHOTS;

test('a place that was found becomes the place of the mast', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'checks/places');
  await page.getByTestId('look-for-places').tap();
  const headline = page.getByTestId('places-headline');
  // The quick rules' picture stands while places are still planned.
  await expect(page.getByTestId('places-picture')).toBeVisible({ timeout: 30_000 });
  await expect(page.getByTestId('cancel')).toBeHidden({ timeout: 150_000 });
  await expect(headline).toContainText(/It can stand on (at least )?[\d.]+ (sq ft|m²)/);
  const found = page.getByTestId('found-place');
  expect(await found.count()).toBeGreaterThan(2);
  if (shots) await page.screenshot({ path: `${shots}/places-page.png` });
  // A corner of the yard is closed, and it says by what.
  await page.getByTestId('places-picture').click({ position: { x: 3, y: 3 } });
  await expect(page.getByTestId('place-says')).toContainText(/boundary|too near|beyond/);
  await page.getByTestId('places-picture').scrollIntoViewIfNeeded();
  if (shots) await page.screenshot({ path: `${shots}/places-picture.png` });
  await page.getByTestId('places-on-map').tap();
  await expect(page.getByTestId('places-layer')).toBeVisible();
  if (shots) await page.screenshot({ path: `${shots}/places-map.png` });
  await goTo(page, 'checks/places');
  // As first placed the demo has stops; in the best place it has none.
  await found.first().scrollIntoViewIfNeeded();
  if (shots) await page.screenshot({ path: `${shots}/places-card.png` });
  await page.getByTestId('take-place').first().tap();
  await expect(page.getByTestId('findings-count')).not.toContainText(/stop/i, { timeout: 20_000 });
  if (shots) await page.screenshot({ path: `${shots}/places-taken.png` });
  // What another pattern of guys opens is taken with its parts in one tap, and one undo takes both back.
  const kept = async () => {
    const job = await savedJob<{ rig: unknown; placement: unknown }>(page);
    return [job?.rig, job?.placement];
  };
  await goTo(page, 'checks/places');
  const pattern = page.getByTestId('patterns').getByTestId('take-place').first();
  await expect(pattern).toContainText('Change the parts');
  const before = await kept();
  await pattern.tap();
  await expect.poll(kept).not.toEqual(before);
  await page.getByRole('button', { name: 'Undo' }).first().tap();
  await expect.poll(kept).toEqual(before);
});

test('a yard without a boundary says what the search waits for', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'checks/places');
  await page.getByTestId('look-for-places').tap();
  await expect(page.getByText(/enter the boundary first|can’t|could not/i).first()).toBeVisible({ timeout: 30_000 });
  if (shots) await page.screenshot({ path: `${shots}/places-waits.png` });
});
