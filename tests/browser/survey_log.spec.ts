import { expect, test, type Page } from '@playwright/test';
import { entered, goTo, openDemo } from './app';

test('every way of editing is logged, and undo takes no entry away', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'measure/slopes/0');
  const slope = page.getByLabel('Slope', { exact: true });
  await slope.fill('4.25');
  await slope.blur();
  await lines(page, 'Slope', '4.25°');
  await goTo(page, 'measure/slopes/0');
  await page.getByTestId('strike').tap();
  await lines(page, 'Slope', 'struck out: 4.25°');
  await expect(page.locator('s', { hasText: '4.25°' })).toBeVisible();
  await page.getByTestId('undo').tap();
  await expect(page.getByText('put back: 4.25°')).toBeVisible();
  await expect(page.locator('s', { hasText: '4.25°' })).toHaveCount(0);
  await page.getByTestId('undo').tap();
  await expect(page.getByText('brought back by undo').first()).toBeVisible();
  // Nothing is gone: the typed value is there still, struck through.
  await expect(page.locator('s', { hasText: '4.25°' }).first()).toBeVisible();
});

test('a slope is struck out of its list, not deleted, and put back by one tap', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'measure/slopes');
  const row = page.locator('main li').first();
  await expect(page.getByRole('button', { name: /^Delete/ })).toHaveCount(0);
  await row.getByRole('button', { name: /^Strike out/ }).tap();
  await expect(row).toContainText('struck out');
  await row.getByRole('button', { name: /^Use .* again/ }).tap();
  await expect(row).not.toContainText('struck out');
  await row.getByRole('link', { name: /^History of/ }).tap();
  await expect(page.getByText('in the job before its log began').first()).toBeVisible();
});

test('the first compass bearing dates the survey, said and undoable', async ({ page }) => {
  await page.goto('/');
  await page.getByTestId('open-blank').tap();
  await page.getByTestId('begin-blank').tap();
  await expect(page.getByTestId('tab-measure')).toBeVisible();
  await goTo(page, 'measure/slopes/new');
  await entered(page, 'Compass bearing', '240');
  await page.getByTestId('next-question').tap();
  await entered(page, 'Slope', '5');
  await page.getByTestId('keep-item').tap();
  const said = page.getByTestId('did');
  await expect(said).toContainText('Date of the survey set to now');
  await said.getByRole('button', { name: 'Undo' }).tap();
  await expect(said).toHaveCount(0);
  await goTo(page, 'measure/place');
  await expect(page.getByLabel('Date and hour')).toHaveValue('');
  await page.getByTestId('redo').tap();
  await expect(page.getByLabel('Date and hour')).not.toHaveValue('');
});

/** The log has an entry of these words about this thing. */
async function lines(page: Page, thing: string, words: string): Promise<void> {
  await goTo(page, 'measure/log');
  const entry = page.locator('li', { hasText: thing }).filter({ hasText: words });
  await expect(entry.first()).toBeVisible({ timeout: 8000 });
}
