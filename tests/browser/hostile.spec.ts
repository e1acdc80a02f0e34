// A job whose every name tries to be something else, through every page, sheet and print: it stays text.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { open, walkEveryPage } from './every_page';

const HOSTILE = join(import.meta.dirname, '../data/hostile.json');

/** As they stand in the file, those that are one line of letters. */
const NAMES_OF_THINGS = (JSON.parse(readFileSync(HOSTILE, 'utf8')) as { yard: { obstacles: { name: string }[] } }).yard.obstacles
  .map(({ name }) => name)
  .filter((name) => /^[\x21-\x7e ]+$/.test(name));

interface Watched {
  ran?: unknown;
  broken: string[];
}

/** Notes whatever runs, loads or is forbidden. The prototype of all objects is compared at the end. */
const listening = () => {
  const broken: string[] = [];
  Object.assign(window, { broken, own: Object.getOwnPropertyNames(Object.prototype).sort().join() });
  document.addEventListener('securitypolicyviolation', (event) => broken.push(`${event.violatedDirective} ${event.blockedURI}`));
  window.alert = window.confirm = window.prompt = () => Object.assign(window, { ran: 'a dialog' }) && null;
};

/** What a page must not hold, whichever job it shows. Runs in the page. */
function injected(): string[] {
  const found: string[] = [];
  const here = new URL(location.href);
  for (const element of document.querySelectorAll('*')) {
    if (['IFRAME', 'OBJECT', 'EMBED', 'FORM', 'BASE'].includes(element.tagName) && element.id !== 'print-frame') found.push(element.outerHTML.slice(0, 80));
    if (element.tagName === 'SCRIPT' && !(element as HTMLScriptElement).src.startsWith(here.origin)) found.push('a script');
    if (element.tagName === 'IMG' && !/^(data:|blob:)/.test((element as HTMLImageElement).src) && !(element as HTMLImageElement).src.startsWith(here.origin)) found.push(element.outerHTML.slice(0, 80));
    if (element.tagName === 'IMG' && element.getAttribute('src') === 'x') found.push(element.outerHTML);
    for (const { name, value } of element.attributes) {
      if (name.startsWith('on')) found.push(`${name}=${value}`);
      if (['href', 'src', 'action', 'xlink:href'].includes(name) && /^\s*(javascript|data:text)/i.test(value)) found.push(`${name}=${value}`);
      if (name === 'href' && /^https?:/.test(value) && new URL(value).origin !== here.origin) found.push(`${name}=${value}`);
    }
  }
  const own = Object.getOwnPropertyNames(Object.prototype).sort().join();
  if (own !== (window as unknown as { own: string }).own) found.push('a prototype was changed');
  return found;
}

async function opened(page: Page, file: string | { name: string; mimeType: string; buffer: Buffer }): Promise<void> {
  await page.goto('/');
  await page.getByTestId('open-demo').tap();
  await expect(page.getByTestId('job-menu')).toBeVisible();
  await page.getByTestId('job-menu').tap();
  const input = page.locator('dialog input[type=file]');
  await input.setInputFiles(file);
}

test('no name of a job runs, loads or becomes an element on any page, sheet or print', async ({ page }) => {
  test.setTimeout(600_000);
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  const broke: string[] = [];
  page.on('pageerror', (error) => broke.push(error.message));
  page.on('console', (message) => {
    if (/Content.Security.Policy/i.test(message.text())) broke.push(message.text());
  });
  await page.addInitScript(listening);
  await page.addInitScript(() => (navigator.canShare = () => false));
  await opened(page, HOSTILE);
  await expect(page.getByRole('dialog')).toBeHidden();
  await expect(page.getByTestId('job-menu')).toContainText('<img src=x onerror="window.ran=1">');

  const wrong: string[] = [];
  const look = async (where: string) => {
    for (const what of await page.evaluate(injected)) wrong.push(`${where}: ${what}`);
  };
  await walkEveryPage(page, look);
  // The names themselves, as text, where a person looks for them.
  await open(page, 'measure/things');
  const things = await page.locator('main').innerText();
  for (const name of NAMES_OF_THINGS) expect(things).toContain(name);
  await open(page, 'build');
  await page.getByTestId('print-map').tap();
  const sheets = page.frameLocator('#print-frame');
  await expect(sheets.locator('section > svg').first()).toContainText('Page 1 of');
  expect(await sheets.locator('script, foreignObject, img, a').count()).toBe(0);

  expect(wrong).toEqual([]);
  expect(await page.evaluate(() => (window as unknown as Watched).ran)).toBeUndefined();
  expect(await page.evaluate(() => (window as unknown as Watched).broken)).toEqual([]);
  expect(broke).toEqual([]);
  expect(asked.filter((url) => url.includes('elsewhere') || url.endsWith('/x'))).toEqual([]);
  // Kept and read again, it is the same job.
  await page.reload();
  await expect(page.getByTestId('job-menu')).toContainText('<img src=x onerror="window.ran=1">');
});

const json = (text: string) => ({ name: 'yard.json', mimeType: 'application/json', buffer: Buffer.from(text) });

test('half a letter, a list for an object and the names of JavaScript’s own are refused or kept as they are', async ({ page }) => {
  await page.addInitScript(listening);
  const good = readFileSync(HOSTILE, 'utf8');
  await opened(page, json(good.replace('"notes": "', '"notes": "\\ud800')));
  await expect(page.getByRole('dialog')).toContainText('can’t be opened');
  const input = page.locator('dialog input[type=file]');
  for (const text of ['[]', '{"__proto__": {"ran": 1}}', good.replace('"yard": {', '"yard": {"constructor": {"prototype": {"ran": 1}}, "__proto__": {"ran": 1},'), '\0', '']) {
    await input.setInputFiles(json(text));
    const said = page.getByRole('dialog');
    // An unknown field is refused by its name, or kept and not used; either way nothing grows a new property.
    await expect.poll(async () => (await said.isHidden()) || (await said.innerText()).includes('can’t be opened')).toBe(true);
    expect(await page.evaluate(() => ({}) as { ran?: number }).then(({ ran }) => ran)).toBeUndefined();
    if (await said.isHidden()) await page.getByTestId('job-menu').tap();
  }
});

/** Fewer than the ten thousand that were looked at once (FULL=680): each more is drawn, not thought of otherwise. */
const FULL = Number(process.env.FULL ?? 200);

test('a yard so full that thousands of checks fail is told, and the pages still open', async ({ page }) => {
  test.setTimeout(300_000);
  await page.addInitScript(listening);
  const job = JSON.parse(readFileSync(HOSTILE, 'utf8')) as {
    placement: { mast: { east_m: number; north_m: number } };
    yard: { obstacles: { id: string; name: string; shape: object }[] };
  };
  // A way round the mast, under every guy, beside stakes and anchors: more than fifteen findings each.
  const { east_m, north_m } = job.placement.mast;
  const corner = (i: number) => ({
    by: 'coordinates',
    east_m: east_m + 2.5 * Math.cos((i * Math.PI) / 4),
    north_m: north_m + 2.5 * Math.sin((i * Math.PI) / 4),
  });
  const thing = job.yard.obstacles[4]!;
  const shape = { ...thing.shape, line: Array.from({ length: 9 }, (_, i) => corner(i)) };
  const many = Array.from({ length: FULL }, (_, i) => ({ ...thing, shape, id: `many-${i}`, name: `<u>${i}</u>` }));
  job.yard.obstacles.push(...many);
  await opened(page, json(JSON.stringify(job)));
  await expect(page.getByTestId('job-menu')).toContainText('<img', { timeout: 60_000 });
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/, { timeout: 60_000 });
  await open(page, 'checks');
  await expect(page.locator('main')).toContainText('<u>', { timeout: 180_000 });
  const counts = await page.locator('main h2 .number').allInnerTexts();
  expect(counts.reduce((sum, count) => sum + Number(count), 0)).toBeGreaterThan(15 * FULL);
  expect(await page.evaluate(injected)).toEqual([]);
  expect(await page.locator('u').count()).toBe(0);
  await page.goto('/#map');
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/, { timeout: 60_000 });
});
