import { expect, type Page } from '@playwright/test';
import { PAGES } from '../../ui/src/state/page-table';
import { goTo } from './app';

/** How many items of one kind are looked at. Things in the yard differ more than others. */
const ITEMS = { 'measure/things/:which': 9, 'build/as-built/:which': 4, 'build/phase/:which': 7, 'build/cards/:which': 7 } as Record<string, number>;
const FEW = 2;

/**
 * Opens every page of the router's table, those of items by the links of the pages before, and hands each over once it
 * is there: one way through the app, since opening it costs more than looking at it.
 */
export async function eachPage(page: Page, look: (address: string) => Promise<void>, items = (pattern: string) => ITEMS[pattern] ?? FEW) {
  const waiting = PAGES.filter((one) => !one.includes(':')).map(String);
  // Nothing inside the app leads to a job that comes with a link.
  waiting.push('take/cut-off');
  const known = new Set(waiting);
  const perPage = new Map<string, number>();
  for (let address = waiting.shift(); address !== undefined; address = waiting.shift()) {
    await open(page, address);
    for (const link of await linksOf(page)) {
      const pattern = patternOf(link);
      if (!pattern?.includes(':') || known.has(link)) continue;
      if (!link.endsWith('/new')) {
        const count = perPage.get(pattern) ?? 0;
        if (count >= items(pattern)) continue;
        perPage.set(pattern, count + 1);
      }
      known.add(link);
      waiting.push(link);
    }
    await look(address);
  }
  const reached = new Set([...known].map(patternOf));
  expect(PAGES.filter((one) => !reached.has(one)), 'pages that no link leads to').toEqual([]);
}

const linksOf = (page: Page): Promise<string[]> =>
  page
    .locator('a[href^="#"]')
    .evaluateAll((all) => all.map((link) => (link.getAttribute('href') ?? '').replace(/^#\/?/, '')));

/**
 * Walks every page as a person meets it: as it opens, each question of a new item, each kind of thing, each sheet once.
 * `look` is told where it is.
 */
export async function walkEveryPage(page: Page, look: (where: string) => Promise<void>) {
  const seen = new Set<string>();
  await eachPage(page, async (address) => {
    await look(address);
    if (address.endsWith('/new')) await walkQuestions(page, address, look);
    await walkSheets(page, address, seen, look);
  });
}

/** The entry of the table that an address belongs to. */
function patternOf(address: string): string | undefined {
  const parts = address.split('/');
  const fits = (entry: string) => {
    const names = entry.split('/');
    return names.length === parts.length && names.every((name, i) => name === ':which' || name === parts[i]);
  };
  return PAGES.find(fits);
}

/** Opens a page and waits for its heading, and for what the engine is asked by it. */
export async function open(page: Page, address: string): Promise<void> {
  await goTo(page, address);
  await expect(page.locator('main h1').first()).toBeAttached();
  await expect(page.getByTestId('being-found')).toHaveCount(0, { timeout: 30_000 });
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

async function walkQuestions(page: Page, address: string, look: (where: string) => Promise<void>) {
  const next = page.getByTestId('next-question');
  const kinds = page.locator('main.pane fieldset').first().locator('label');
  if (address === 'measure/things/new' || address === 'measure/buried/new') await kinds.first().tap();
  for (let step = 2; (await next.count()) > 0; step += 1) {
    await next.tap({ timeout: 5_000 });
    await look(`${address}, question ${step}`);
    if (step > 9) throw new Error(`${address} never comes to its end`);
  }
}

async function walkSheets(page: Page, address: string, seen: Set<string>, look: (where: string) => Promise<void>) {
  const openers = page.locator('[aria-haspopup="dialog"]:visible');
  const names = await openers.evaluateAll((all) =>
    all.map((one) => `${one.getAttribute('data-testid')}: ${one.textContent?.trim() ?? ''}`),
  );
  for (const [i, name] of names.entries()) {
    const key = name.startsWith('job-menu') ? 'job-menu' : name;
    if (seen.has(key)) continue;
    seen.add(key);
    await openers.nth(i).tap({ timeout: 5_000 });
    await expect(page.getByRole('dialog')).toBeVisible();
    await look(`${address}, sheet ${key}`);
    await page.keyboard.press('Escape');
    await expect(page.getByRole('dialog')).toBeHidden();
  }
}
