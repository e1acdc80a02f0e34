import { expect, test } from '@playwright/test';
import { entered, goTo, openDemo, savedJob } from './app';

const shots = process.env.SHOTS;

interface Kept {
  rig: { tubes: { length_m: number; calliper: { outside_mm: number | null } }[] };
  workshop: { made: { part: string; measured_mm: number }[]; done: { part: string }[] };
}

test('what was measured on the bench is entered, found and gone on from; a rig is taken over and taken back', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 });
  await openDemo(page);

  // A reading of the calliper that does not go in: the bore below reads 1.642 to 1.650 in.
  await goTo(page, 'build/workshop/fit');
  await page.locator('summary').filter({ hasText: 'Middle tube' }).tap();
  const larger = page.getByTestId('outside-1');
  const smaller = page.locator('details[open]').getByLabel('Outside, the smaller reading');
  const read = [await larger.inputValue(), await smaller.inputValue()];
  const reads = async ([one, other]: string[]) => {
    // One after the other, each kept before the next is typed.
    for (const [field, text] of [[larger, one], [smaller, other]] as const) {
      await field.fill(text ?? '');
      await field.blur();
      await page.waitForTimeout(300);
    }
  };
  await reads(['1.9 in', '1.89 in']);
  await expect(page.getByText(/Middle tube does not enter Lower tube/).first()).toBeVisible();
  if (shots) await page.screenshot({ path: `${shots}/fit.png`, fullPage: true });
  await reads(read);
  await expect(page.getByText(/Middle tube does not enter Lower tube/)).toHaveCount(0);

  // A hole drilled 3 mm off: by hand the demo's stands 314 mm from the lower end.
  await goTo(page, 'build/workshop/stages');
  const card = page.getByTestId('work-card').filter({ hasText: 'Middle tube: holes straight through' });
  const asks = card.locator('details').filter({ has: page.getByLabel(/lower end: pin on which it stands, as made/) });
  await asks.locator('summary').tap();
  await asks.getByRole('textbox').fill('317 mm');
  await asks.getByRole('textbox').blur();
  await asks.getByRole('button', { name: 'Save it' }).tap();
  await expect(page.getByText(/the hole on which Middle tube stands does not meet/).first()).toBeVisible();
  await expect(card).toContainText('1\' 0 1/2" from the lower end, as made');
  await page.getByTestId('made-holes:1').check();
  if (shots) await page.screenshot({ path: `${shots}/stages.png`, fullPage: true });
  await expect.poll(async () => (await savedJob<Kept>(page))?.workshop.made).toEqual([{ part: 'hole-stands:1', measured_mm: 317 }]);
  expect((await savedJob<Kept>(page))?.workshop.done).toEqual([{ part: 'holes:1' }]);
  await card.getByRole('button', { name: 'As planned again' }).tap();
  await expect(page.getByText(/the hole on which Middle tube stands does not meet/)).toHaveCount(0);

  // A timber narrower than its label: the half-lap is as long as the other one is wide.
  await goTo(page, 'build/workshop/base');
  await entered(page, 'Width, as measured', '3 1/4"');
  await expect(page.getByTestId('work-card').first()).toContainText('3 1/4"');

  // Two discs of the topper: what is too small says what works.
  await goTo(page, 'build/workshop/circles');
  await entered(page, 'Discs across', '15 in');
  await expect(page.getByTestId('circle-card').filter({ hasText: 'Topper of two discs' })).toContainText(/Nearest that works:\s(18|1'\s6)\s1\/2"/);
  if (shots) await page.screenshot({ path: `${shots}/topper.png`, fullPage: true });

  // A rig is taken over by one tap, and undone.
  const before = (await savedJob<Kept>(page))?.rig.tubes.map((tube) => tube.length_m);
  await goTo(page, 'parts/rigs');
  await entered(page, 'How high do the lights begin?', '16 ft');
  await entered(page, 'Longest tube you can buy or carry', '10 ft');
  await page.getByTestId('look-for-rigs').tap();
  const offer = page.getByTestId('offered-rig').first();
  await expect(offer).toBeVisible({ timeout: 30_000 });
  await expect(offer).toContainText('Tubes cost');
  await expect(offer).toContainText('Not known yet: no price of');
  if (shots) await page.screenshot({ path: `${shots}/rigs.png`, fullPage: true });
  await offer.getByTestId('take-rig').tap();
  await expect.poll(async () => (await savedJob<Kept>(page))?.rig.tubes.map((tube) => tube.length_m)).not.toEqual(before);
  await page.getByTestId('undo').tap();
  await expect.poll(async () => (await savedJob<Kept>(page))?.rig.tubes.map((tube) => tube.length_m)).toEqual(before);
});
