import { expect, test, type Page } from '@playwright/test';
import { entered, goTo, openDemo } from './app';

test('an anchor measured where it stands changes its rope at once, and clearing it brings the plan back', async ({
  page,
}) => {
  await openDemo(page);
  await page.getByTestId('tab-build').tap();
  await page.getByRole('link', { name: 'Peg out' }).tap();
  await page.getByRole('link', { name: 'What really stands' }).tap();
  await page.getByRole('link', { name: /Anchor of Upper guy 1/ }).tap();
  const keep = page.getByTestId('keep-measured');
  await expect(keep).toBeDisabled();
  await expect(page.getByLabel('From mark')).toHaveValue('mast');
  await entered(page, 'Compass bearing', '223.6');
  await entered(page, 'Tape', '4.97 m');
  await keep.tap();
  const result = page.getByTestId('as-built-result');
  await expect(result).toContainText('longer');
  await expect(result).toContainText('south-west');
  await expect(page.getByText('New since pegged')).toBeVisible();
  await expect(result).toBeInViewport();
  await page.getByRole('button', { name: 'See it on the map' }).tap();
  await expect(page.locator('use[href="#sign-planned_place"]').first()).toBeAttached();
  // What stands is not dragged any more.
  await expect(page.getByTestId('mast-handle')).toHaveCount(0);

  await goTo(page, 'build/as-built');
  await expect(page.getByRole('link', { name: /Anchor of Upper guy 1/ })).toContainText('Farther off');
  await page.getByRole('button', { name: /Clear all/ }).tap();
  await expect(page.getByRole('link', { name: /Anchor of Upper guy 1/ })).toContainText('Not measured');
  await page.getByTestId('undo').tap();
  await expect(page.getByRole('link', { name: /Anchor of Upper guy 1/ })).toContainText('Farther off');
});

test('the front leg and a gap are measured in one field each', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/as-built/leg%3Afront');
  await entered(page, 'Gap', '160 mm');
  await page.getByTestId('keep-measured').tap();
  await expect(page.getByTestId('as-built-result')).toContainText('As planned');
  await goTo(page, 'build/as-built/front');
  await entered(page, 'Compass bearing', '240');
  await page.getByTestId('keep-measured').tap();
  await expect(page.getByTestId('clear-measured')).toBeVisible();
});
