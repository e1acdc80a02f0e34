import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, test, type Page } from '@playwright/test';
import { savedJob } from './app';

test.describe.configure({ retries: 0 });

/** How often; more for a measurement than for every run. */
const ASKED = process.env.KILLS ? Number(process.env.KILLS) : null;
const SEED = Number(process.env.KILLS_SEED ?? 1);
const CASES = [
  { when: 'waited for', rounds: ASKED ?? 5 },
  { when: 'on the screen', rounds: ASKED ?? 5 },
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
  // A phone that was busy enough to kill something is slow to open it again: what counts here is what is there then.
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/, { timeout: 30_000 });
  await expect(page.getByTestId('kept')).toHaveAttribute('data-state', 'kept');
  return (await savedJob<Kept>(page))?.placement.mast.east_m ?? NaN;
}

/** Moves the mast and tells once that is called kept, or with `shown` once it is on the screen; with what the mark says then. */
const nudged = (page: Page, shown: boolean) =>
  page.evaluate(
    (onScreen) =>
      new Promise<{ ms: number; called: string }>((done) => {
        const begun = performance.now();
        document.querySelector<HTMLElement>('[data-testid="nudge-east"]')?.click();
        const mark = document.querySelector<HTMLElement>('[data-testid="kept"]');
        const look = () => {
          const called = mark?.dataset.state ?? '';
          if (onScreen || called === 'kept') done({ ms: performance.now() - begun, called });
          else setTimeout(look);
        };
        // What was clicked is drawn in the next turn.
        if (onScreen) requestAnimationFrame(() => setTimeout(look));
        else setTimeout(look);
      }),
    shown,
  );

/** Opens the demo and moves the mast once: where it stands then, and how far one move is. */
async function begun(page: Page, address: string): Promise<{ at: number; step: number }> {
  await page.goto(address);
  await page.getByTestId('open-demo').click();
  const first = await onTheMap(page, address);
  await nudged(page, false);
  const at = (await savedJob<Kept>(page))?.placement.mast.east_m ?? NaN;
  expect(at - first).toBeGreaterThan(0);
  return { at, step: at - first };
}

for (const { when, rounds } of CASES) {
  test(`no edit that was ${when} and called kept is lost when the browser is killed`, async ({ baseURL }) => {
    test.setTimeout(60_000 + rounds * 30_000);
    const address = baseURL ?? '';
    const profile = mkdtempSync(join(tmpdir(), 'mastwright-killed-'));
    try {
      let { browser, page } = await startBrowser(profile);
      const { at, step } = await begun(page, address);
      let before = at;
      const wrong: string[] = [];
      const took: number[] = [];
      let onItsWay = 0;
      for (let round = 0; round < rounds; round += 1) {
        const { ms, called } = await nudged(page, when === 'on the screen');
        took.push(ms);
        await kill(browser);
        ({ browser, page } = await startBrowser(profile));
        const after = await onTheMap(page, address);
        const there = Math.round((after - before) / step);
        if (Math.abs(after - before - there * step) > 1e-6) wrong.push(`round ${round}: half an edit: ${after - before}`);
        // Until it is called kept an edit is on its way to the disk: that much the mark has to say (docs/phone.md).
        if (there < 1 && called === 'keeping') onItsWay += 1;
        else if (there !== 1) wrong.push(`round ${round}: ${there} there, called ${called}`);
        before = after;
      }
      await kill(browser);
      took.sort((a, b) => a - b);
      console.log(
        `      ${rounds} kills, ${wrong.length} wrong, ${onItsWay} still on its way; from the tap: median ${took[rounds >> 1]?.toFixed(0)} ms`,
      );
      expect(wrong).toEqual([]);
    } finally {
      rmSync(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 200 });
    }
  });
}

/** SplitMix32: the same moments again for the same seed. */
function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return ((z ^ (z >>> 15)) >>> 0) / 2 ** 32;
  };
}

/** Makes edit after edit; tells each once it is called kept, in the moment in which it is. */
const keepEntering = (page: Page) =>
  page.evaluate(() => {
    let edits = 0;
    const mark = () => document.querySelector<HTMLElement>('[data-testid="kept"]')?.dataset.state;
    const enter = () => {
      document.querySelector<HTMLElement>('[data-testid="nudge-east"]')?.click();
      edits += 1;
      const look = () => {
        if (mark() !== 'kept') return void setTimeout(look);
        console.log(`kept ${edits}`);
        enter();
      };
      // The mark is drawn anew in the next turn.
      requestAnimationFrame(() => setTimeout(look));
    };
    enter();
  });

test('no edit that was called kept is lost when the browser is killed at any moment while entering', async ({ baseURL }) => {
  const rounds = ASKED ?? 5;
  test.setTimeout(60_000 + rounds * 30_000);
  const address = baseURL ?? '';
  const profile = mkdtempSync(join(tmpdir(), 'mastwright-killed-'));
  const drawn = chance(SEED);
  try {
    let { browser, page } = await startBrowser(profile);
    const { at, step } = await begun(page, address);
    let before = at;
    const wrong: string[] = [];
    let confirmed = 0;
    for (let round = 0; round < rounds; round += 1) {
      let told = 0;
      page.on('console', (message) => {
        const n = /^kept (\d+)$/.exec(message.text())?.[1];
        if (n) told = Number(n);
      });
      await keepEntering(page);
      await new Promise((done) => setTimeout(done, drawn() * 1500));
      await kill(browser);
      const heard = told;
      ({ browser, page } = await startBrowser(profile));
      const after = await onTheMap(page, address);
      const there = Math.round((after - before) / step);
      // One more or two may have got there before they could be told, or while that was on its way.
      if (there < heard) wrong.push(`round ${round}: ${heard} told, ${there} there`);
      if (Math.abs(after - before - there * step) > 1e-6) wrong.push(`round ${round}: half an edit: ${after - before}`);
      confirmed += heard;
      before = after;
    }
    await kill(browser);
    console.log(`      ${rounds} kills (seed ${SEED}), ${confirmed} edits confirmed, ${wrong.length} kills with a loss`);
    expect(wrong).toEqual([]);
    expect(confirmed).toBeGreaterThan(0);
  } finally {
    rmSync(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 200 });
  }
});
