import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import ICAL from 'ical.js';
import { goTo, openBlank, openDemo } from './app';

const shots = process.env.SHOTS;

test('calls get their last days, are ticked off, and go into a calendar that another program reads', async ({ page }) => {
  await page.clock.setFixedTime(new Date('2026-11-23T09:00:00'));
  await openDemo(page);
  await goTo(page, 'build/calls');
  await page.getByLabel('When the digging begins').fill('2026-12-04T09:00');
  await page.getByTestId('notice-days').fill('2');
  await page.getByTestId('notice-days').blur();
  // Two whole days between: Wednesday and Thursday (Alabama and Illinois count so).
  const service = page.getByTestId('call').filter({ hasText: 'Call the locate service' });
  await expect(service).toContainText('Tuesday 1 December 2026');
  if (shots) await page.screenshot({ path: `${shots}/calls.png`, fullPage: true });
  const forecast = page.getByTestId('call').filter({ hasText: 'Look at the forecast' });
  await forecast.getByRole('checkbox').check();
  await expect(forecast).toContainText('made');
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByTestId('save-calendar').tap()]);
  expect(download.suggestedFilename()).toMatch(/\.ics$/);
  const calendar = new ICAL.Component(ICAL.parse(readFileSync(await download.path(), 'utf8')));
  const events = calendar.getAllSubcomponents('vevent').map((event) => new ICAL.Event(event));
  const shown = await page.getByTestId('call').filter({ has: page.locator('text=/^(to do|late)/') }).count();
  expect(events.length).toBe(shown);
  expect(events.length).toBeGreaterThan(1);
  for (const event of events) {
    expect(event.startDate.isDate).toBe(true);
    expect(event.endDate.subtractDate(event.startDate).toSeconds()).toBe(86_400);
    expect(event.summary).toContain('Lantern Green');
    expect(event.component.getAllSubcomponents('valarm')).toHaveLength(1);
  }
  const titles = await page.getByTestId('call').getByRole('heading').allTextContents();
  for (const event of events) expect(titles.some((title) => event.summary.startsWith(title))).toBe(true);
});

test('without a day nothing has a last day', async ({ page }) => {
  await openBlank(page);
  await goTo(page, 'build/calls');
  await expect(page.getByTestId('calls-wait')).toContainText('Say when the digging begins');
  await expect(page.getByTestId('save-calendar')).toBeHidden();
});
