import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, test, type Page } from '@playwright/test';
import { savedJob } from './app';

/** How often; more for a measurement than for every run. */
const ASKED = process.env.KILLS ? Number(process.env.KILLS) : null;
const CASES = [
  { when: 'called kept', rounds: ASKED ?? 14 },
  { when: 'on the screen', rounds: ASKED ?? 6 },
] as const;

interface Kept {
  placement: { mast: { east_m: number } };
}

/** A browser of its own, as a process that can be killed like a phone kills one: with all that it holds in memory. */
async function startBrowser(profile: string): Promise<{ browser: ChildProcess; page: Page }> {
  const browser = spawn(
    process.env.CHROMIUM ?? '/usr/bin/chromium',
    [
      '--headless=new',
      '--no-sandbox',
      '--no-first-run',
      '--disable-background-networking',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      'about:blank',
    ],
    // A group of its own, so that its helpers go with it and nobody else does.
    { detached: true, stdio: ['ignore', 'ignore', 'pipe'] },
  );
  const address = await new Promise<string>((done, failed) => {
    let said = '';
    browser.once('exit', () => failed(new Error(said)));
    browser.stderr?.on('data', (data: Buffer) => {
      said += data.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(said)?.[1];
      if (found) done(found);
    });
  });
  const connected = await chromium.connectOverCDP(address);
  const context = connected.contexts()[0];
  if (!context) throw new Error('the browser has no window');
  return { browser, page: context.pages()[0] ?? (await context.newPage()) };
}

async function kill(browser: ChildProcess): Promise<void> {
  if (browser.pid === undefined) return;
  const gone = new Promise((done) => browser.once('exit', done));
  process.kill(-browser.pid, 'SIGKILL');
  await gone;
}

async function onTheMap(page: Page, address: string): Promise<number> {
  await page.goto(`${address}/#map`);
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
  await expect(page.getByTestId('kept')).toHaveAttribute('data-state', 'kept');
  return (await savedJob<Kept>(page))?.placement.mast.east_m ?? NaN;
}

/** Moves the mast and tells once that is called kept, or with `shown` once it is on the screen. */
const nudged = (page: Page, shown: boolean) =>
  page.evaluate(
    (onScreen) =>
      new Promise<number>((done) => {
        const begun = performance.now();
        document.querySelector<HTMLElement>('[data-testid="nudge-east"]')?.click();
        const mark = document.querySelector<HTMLElement>('[data-testid="kept"]');
        const look = () => {
          if (onScreen || mark?.dataset.state === 'kept') done(performance.now() - begun);
          else setTimeout(look);
        };
        // What was clicked is drawn in the next turn.
        if (onScreen) requestAnimationFrame(() => setTimeout(look));
        else setTimeout(look);
      }),
    shown,
  );

for (const { when, rounds } of CASES) {
  test(`no edit that was ${when} is lost when the browser is killed`, async ({ baseURL }) => {
    test.setTimeout(60_000 + rounds * 30_000);
    const address = baseURL ?? '';
    const profile = mkdtempSync(join(tmpdir(), 'mastwright-killed-'));
    try {
      let { browser, page } = await startBrowser(profile);
      await page.goto(address);
      await page.getByTestId('open-demo').click();
      let before = await onTheMap(page, address);
      const lost: number[] = [];
      const took: number[] = [];
      for (let round = 0; round < rounds; round += 1) {
        took.push(await nudged(page, when === 'on the screen'));
        await kill(browser);
        ({ browser, page } = await startBrowser(profile));
        const after = await onTheMap(page, address);
        if (!(after > before)) lost.push(round);
        before = after;
      }
      await kill(browser);
      took.sort((a, b) => a - b);
      console.log(`      ${rounds} kills, ${lost.length} lost; from the tap: median ${took[rounds >> 1]?.toFixed(0)} ms`);
      expect(lost).toEqual([]);
    } finally {
      rmSync(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 200 });
    }
  });
}
