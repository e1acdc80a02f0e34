import { expect, test } from '@playwright/test';
import { goTo, openBlank, openDemo } from './app';

const shots = process.env.SHOTS;

test('the wind card says how the guys are made fast when lowered, and how far the top moves', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'checks/wind');
  const runDown = page.getByTestId('run-down').first();
  await expect(runDown).toContainText(/made fast again .* above the foot, each tightened to/, { timeout: 50_000 });
  await expect(page.getByTestId('wind-headline').first()).toContainText('Its top then moves by up to about');
  // How long it takes by the rehearsal stands with it, and the cards by which it is done are one tap away.
  await expect(page.getByTestId('lower-takes').first()).toContainText('9 min with 3 people');
  await expect(page.getByTestId('lay_down-takes').first()).toContainText('14 min with 4 people');
  await expect(page.getByTestId('to-lowering').first()).toHaveAttribute('href', '#/build/cards');
  if (shots) await page.screenshot({ path: `${shots}/windwords-card.png` });
  // A part's source is a small mark, opened by a tap; no row says it in its words.
  const uses = page.getByTestId('uses');
  await expect(uses).not.toContainText('memory');
  const mark = uses.getByTestId('source').first();
  await mark.locator('summary').scrollIntoViewIfNeeded();
  await mark.locator('summary').tap();
  await expect(mark.locator('p').first()).toBeVisible();
  if (shots) await page.screenshot({ path: `${shots}/windwords-source.png` });
});

test('houses all round are counted only as far as they reach, and never against a gust for this place', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'checks/wind/air');
  await page.getByText('Houses or wood all round').tap();
  const asked = page.getByRole('group', { name: /Is it like that for at least \d+ (ft|m) in every direction\?/ });
  await expect(asked).toBeVisible();
  await expect(page.getByTestId('counted-as')).toContainText('open country: nobody has said');
  if (shots) await page.screenshot({ path: `${shots}/windwords-fetch.png` });
  await asked.getByText('Yes').tap();
  await expect(page.getByTestId('counted-as')).toContainText('open country: a gust told for this place');
  await page.getByText('One for open country').tap();
  await expect(page.getByTestId('counted-as')).toContainText('never hold one against this limit');
  await page.getByTestId('counted-as').scrollIntoViewIfNeeded();
  if (shots) await page.screenshot({ path: `${shots}/windwords-counted.png` });
  await asked.getByText('Not sure').tap();
  await expect(page.getByTestId('counted-as')).toContainText('open country: nobody has said');
});

test('what nobody measured of a strand is asked for, and gives no gust', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'checks/wind');
  const missing = page.getByTestId('missing').first();
  await expect(missing).toContainText('How the guys are made fast when the mast is run down');
  await goTo(page, 'parts/strands');
  await page.getByText('Add strands of lights').tap();
  await page.getByLabel('How many strands').fill('12');
  await page.getByLabel('Height of their upper ends').fill('5 m');
  await page.getByLabel('Radius of the ring').fill('2 m');
  await page.getByLabel('Radius of the ring').blur();
  if (shots) await page.screenshot({ path: `${shots}/windwords-strand.png` });
  await page.getByText('Keep these strands').tap();
  await expect(page.getByLabel('Thickness of one strand')).toHaveValue('');
  await page.getByLabel('Thickness of one strand').scrollIntoViewIfNeeded();
  if (shots) await page.screenshot({ path: `${shots}/windwords-cord.png` });
  await goTo(page, 'checks/wind');
  await expect(missing).toContainText('How thick one strand of lights is');
  await expect(missing).toContainText('What one strand of lights weighs');
  await missing.getByText('How thick one strand of lights is').tap();
  await expect(page.getByLabel('Thickness of one strand')).toBeFocused();
});
