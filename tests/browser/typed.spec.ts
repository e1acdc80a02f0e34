import { expect, test, type Page } from '@playwright/test';
import { goTo, openBlank, savedJob } from './app';

const field = (page: Page, name: string) => page.getByRole('textbox', { name, exact: true });

/** Types as a thumb does, and stays in the field. */
async function type(page: Page, name: string, text: string): Promise<void> {
  await field(page, name).tap();
  await field(page, name).fill('');
  await field(page, name).pressSequentially(text);
  await expect(field(page, name)).toBeFocused();
}

const height = async (page: Page) =>
  (await savedJob<{ rig: { guy_levels: { attach_height_m: number }[] } }>(page))?.rig.guy_levels[0]?.attach_height_m;

test('what is typed counts without leaving the field, and one tap keeps the item', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'measure/slopes');
  await page.getByTestId('add-item').tap();
  await expect(page.getByTestId('next-question')).toHaveText('Skip for now');
  await type(page, 'Compass bearing', '45');
  await expect(page.getByTestId('next-question')).toHaveText('Next');
  await page.getByTestId('next-question').tap();
  await type(page, 'Slope', '6.5');
  await page.getByTestId('keep-item').tap();
  await expect(page.getByText(/6\.50?° along 045/)).toBeVisible();
});

test('what can’t be read is not kept in silence', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'measure/slopes/new');
  await type(page, 'Compass bearing', '45');
  await page.getByTestId('next-question').tap();
  await type(page, 'Slope', '6x');
  await expect(page.getByTestId('keep-item')).toBeDisabled();
  await field(page, 'Slope').blur();
  await expect(page.getByRole('alert')).toContainText('Allowed');
});

test('a draft counts after a reload', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'measure/slopes/new');
  await type(page, 'Compass bearing', '45');
  await page.getByTestId('next-question').tap();
  await type(page, 'Slope', '6.5');
  await page.reload();
  await expect(field(page, 'Slope')).toHaveValue('6.5');
  await page.getByTestId('keep-item').tap();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Measure the yard');
  await goTo(page, 'measure/slopes');
  await expect(page.getByText(/6\.50?° along 045/)).toBeVisible();
});

test('a number of the job counts after a reload in the middle of typing, and after Back', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'parts/guys/0');
  // The engine's wording of what stands there comes a moment after the page.
  await expect(field(page, 'Attachment height')).toHaveValue(/m$/);
  await type(page, 'Attachment height', '4.25 m');
  await page.reload();
  await expect.poll(() => height(page)).toBe(4.25);
  await expect(field(page, 'Attachment height')).toHaveValue(/^4\.25/);
  await type(page, 'Attachment height', '4.5 m');
  await goTo(page, 'parts/guys');
  await expect(page.getByText(/3 at 4\.5/)).toBeVisible();
  await expect.poll(() => height(page)).toBe(4.5);
  // Typing is one change, however many keys it took.
  await page.getByTestId('undo').tap();
  await expect(page.getByText(/3 at 4\.25/)).toBeVisible();
});

test('a text that is left half typed takes nothing away', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'parts/guys/0');
  await type(page, 'Attachment height', '');
  await field(page, 'Attachment height').blur();
  await expect(field(page, 'Attachment height')).toHaveValue(/^4/);
  await type(page, 'Attachment height', '3 metres and a bit');
  await field(page, 'Attachment height').blur();
  await expect(page.getByRole('alert').first()).toContainText('Allowed');
  await expect(page.getByTestId('job-errors')).toHaveCount(0);
  await page.reload();
  await expect(field(page, 'Attachment height')).toHaveValue('3 metres and a bit');
  await expect.poll(() => height(page)).toBe(4);
});

test('a corner joins its list by one tap, not while its last number is being typed', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'measure/boundary');
  await page.getByRole('button', { name: 'Draw the boundary' }).tap();
  for (const [i, east, north] of [
    [1, '0', '0'],
    [2, '8', '0'],
    [3, '8', '12'],
  ] as const) {
    await page.getByRole('button', { name: 'Add by tape' }).tap();
    await page.getByText('On the map', { exact: true }).last().tap();
    await type(page, 'East of the first mark', east);
    await type(page, 'North of it', north);
    await expect(page.getByText(`corner ${i}`)).toBeVisible();
  }
  await page.getByRole('button', { name: 'Keep this boundary' }).tap();
  await page.getByRole('button', { name: 'Add by tape' }).tap();
  await page.getByText('On the map', { exact: true }).tap();
  await type(page, 'East of the first mark', '-1');
  await type(page, 'North of it', '12.5');
  await expect(field(page, 'North of it')).toHaveValue('12.5');
  await page.getByRole('button', { name: 'Keep this corner' }).tap();
  await expect(page.getByText('corner 4')).toBeVisible();
  await expect(page.getByText('Keep this corner')).toHaveCount(0);
});
