import { expect, test, type Page } from '@playwright/test';
import { goTo, openBlank } from './app';

/** The levels as the list shows them, the highest first. */
const listed = (page: Page) => page.locator('main.pane ul a[href^="#/parts/guys/"]').allInnerTexts();

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press('Enter');
}

/** Nothing to put right, and guys of both levels in the plan. */
async function planned(page: Page, guys: number): Promise<void> {
  await expect(page.getByTestId('job-errors')).toHaveCount(0);
  const address = await page.evaluate(() => location.hash.replace(/^#\/?/, ''));
  await goTo(page, 'build/as-built');
  // An anchor that guys of both levels share is listed once, with all their names.
  const anchors = page.locator('a[href*="as-built/guy"]');
  const named = async () => (await anchors.allInnerTexts()).join(' + ').match(/guy \d/g)?.length ?? 0;
  await expect.poll(named).toBe(guys);
  await goTo(page, address);
}

test('a second level of guys is added below, raised over the first, and removed again', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'parts/guys');
  await planned(page, 3);
  await page.getByTestId('add-level-below').tap();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Lower guy');
  await expect(page.getByRole('heading', { level: 1 })).toBeFocused();
  await planned(page, 6);
  await goTo(page, 'parts/guys');
  await expect.poll(() => listed(page)).toEqual([expect.stringMatching(/^Upper/), expect.stringMatching(/^Lower/)]);

  // Above the first one now: the order follows, nothing breaks.
  await page.getByText('Lower guy').tap();
  await type(page, 'Attachment height', '4.6 m');
  await planned(page, 6);
  await goTo(page, 'parts/guys');
  await expect.poll(() => listed(page)).toEqual([expect.stringMatching(/^Lower/), expect.stringMatching(/^Upper/)]);

  // At the same height it is refused in words, on its own field, and the plan stays.
  await page.getByText('Lower guy').tap();
  await type(page, 'Attachment height', '4 m');
  await expect(page.getByRole('alert')).toContainText('another height than that of Upper guy');
  await planned(page, 6);
  await goTo(page, 'parts/guys');
  await page.getByText('Lower guy').tap();
  await page.getByTestId('remove-level').tap();
  await expect.poll(async () => (await listed(page)).length).toBe(1);
  await planned(page, 3);
});

test('a second level of guys is added above', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'parts/guys');
  await page.getByTestId('add-level-above').tap();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Top guy');
  await planned(page, 6);
  await type(page, 'Attachment height', '5.2 m');
  await planned(page, 6);
  await goTo(page, 'parts/guys');
  await expect.poll(() => listed(page)).toEqual([expect.stringMatching(/^Top/), expect.stringMatching(/^Upper/)]);
  await expect(page.getByTestId('add-level-above')).toHaveCount(0);
});
