import { readFileSync } from 'node:fs';
import { expect, test, type Page } from '@playwright/test';
import { goTo, openDemo, savedJob } from './app';
import { picture } from './pictures';

const shots = process.env.SHOTS;
const shot = async (page: Page, name: string) => {
  if (shots) await page.screenshot({ path: `${shots}/${name}.png`, fullPage: true });
};

interface Kept {
  photos: { shows: string }[];
  season: { rounds: { id: string; cause: { kind: string }; looked: { item: string; found: string }[]; lean: { to_front_deg: number } | null }[]; packed: { part: string }[] };
}

test('a round: begun, looked at, lean written down, kept; what nobody looked at is not fine', async ({ page }) => {
  await page.addInitScript(() => (navigator.canShare = () => false));
  await openDemo(page);
  await goTo(page, 'build/season');
  await expect(page.getByTestId('season-headline')).toContainText('to be mended', { timeout: 30_000 });
  await expect(page.getByTestId('lean-change')).toContainText('moved since');
  await shot(page, 'season');
  await page.getByTestId('round-rain').tap();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('After lasting rain');
  const anchor = page.getByTestId('thing-anchor:upper-1');
  await expect(anchor).toContainText('wet clay holds about half');
  await expect(anchor.getByRole('radio', { name: 'Not looked at' })).toBeChecked();
  await anchor.getByText('To mend', { exact: true }).tap();
  await page.getByTestId('lean-front').fill('1:200');
  await page.getByTestId('lean-right').fill('-0.1');
  await page.getByTestId('keep-lean').tap();
  await expect(page.getByTestId('round-lean')).toContainText('0.29° towards the front leg', { timeout: 20_000 });
  await shot(page, 'season-round');
  await expect.poll(async () => (await savedJob<Kept>(page))?.season.rounds.length).toBe(3);
  const round = (await savedJob<Kept>(page))!.season.rounds.at(-1)!;
  expect(round).toMatchObject({ cause: { kind: 'rain' }, looked: [{ item: 'anchor:upper-1', found: 'to_mend' }] });
  expect(round.lean!.to_front_deg).toBeCloseTo(0.2865, 3);
  // A photo of the round stands with it.
  await page.getByTestId('photo-file').setInputFiles(await picture(page, 'rgb(90, 60, 30)'));
  await expect(page.getByTestId('photo').locator('img')).toHaveCount(1);
  await expect.poll(async () => (await savedJob<Kept>(page))?.photos.map(({ shows }) => shows)).toEqual([round.id]);
  await page.getByTestId('back').tap();
  await expect(page.getByTestId('to-mend')).toContainText('Anchor of Upper guy 1', { timeout: 20_000 });
  await expect(page.getByTestId('not-looked-at')).toContainText('Not looked at');
  // The next round goes into a calendar: an event with a day and a name (RFC 5545, 3.6.1).
  const coming = page.waitForEvent('download');
  await page.getByTestId('save-calendar').tap();
  const calendar = readFileSync(await (await coming).path(), 'utf8');
  expect(calendar).toMatch(/BEGIN:VEVENT\r\n[\s\S]*DTSTART[^\r]*:\d{8}[\s\S]*SUMMARY:\S/);
});

test('taken down: packed piece by piece, a note kept for next time, and the tapes that show a moved mark', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/packing');
  await expect(page.getByTestId('pack-total')).toContainText('not known yet', { timeout: 30_000 });
  await page.getByTestId('chores').getByText('Holes filled and trodden firm').tap();
  await expect.poll(async () => (await savedJob<Kept>(page))?.season.packed).toEqual([{ part: 'chore:holes-filled' }]);
  await shot(page, 'packing');
  await goTo(page, 'build/cards/raise');
  await page.getByTestId('lesson-text').fill('Two more at the line.');
  await page.getByTestId('keep-lesson').tap();
  await expect(page.getByTestId('card-lessons')).toContainText('Two more at the line.');
  await shot(page, 'lesson');
  await goTo(page, 'build/again');
  await expect(page.getByTestId('mark-tapes')).toContainText('19 times in 20', { timeout: 30_000 });
  await expect(page.getByTestId('changes-since')).toContainText('not known yet');
  await expect(page.getByTestId('lessons')).toContainText('Two more at the line.');
  await shot(page, 'again');
});
