import { expect, type CDPSession, type Locator, type Page } from '@playwright/test';
import { entryOf, leadingOn } from '../../ui/src/state/entries';
import { withChanges } from '../../ui/src/state/patch';

/** Opens Mastwright with the demo job and shows its map. */
export async function openDemo(page: Page): Promise<void> {
  await page.goto('/');
  await expect(page.locator('html')).toHaveAttribute('data-backend', 'wasm');
  await page.getByTestId('open-demo').tap();
  await page.getByTestId('tab-map').tap();
  await expect(page.getByTestId('place-map')).toBeVisible();
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
}

/** Opens Mastwright with an empty yard, in metres. */
export async function openBlank(page: Page): Promise<void> {
  await page.goto('/');
  await expect(page.locator('html')).toHaveAttribute('data-backend', 'wasm');
  await page.getByTestId('open-blank').tap();
  await page.getByTestId('begin-blank').tap();
  await expect(page.getByRole('heading', { name: 'Measure the yard' })).toBeVisible();
}

/** Goes to a page by its address, as a link to it does. */
export async function goTo(page: Page, address: string): Promise<void> {
  await page.evaluate((hash) => (location.hash = hash), address);
}

/** Types into a field, as if read off a tape, and leaves it. */
export async function entered(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.blur();
  await page.waitForTimeout(300);
}

export const footHeight = (page: Page): Promise<string> => page.getByTestId('foot-height').innerText();

/** Drags with one finger, in steps as a screen reports them. */
export async function dragByFinger(page: Page, handle: Locator, dx: number, dy: number): Promise<void> {
  const finger = await touchDown(page, handle);
  await finger.moveBy(dx, dy);
  await finger.lift();
}

/** Puts a finger on the middle of an element. */
export async function touchDown(page: Page, element: Locator) {
  const box = await element.boundingBox();
  if (!box) throw new Error('the element to touch is not on the screen');
  const from = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  const browser: CDPSession = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: { x: number; y: number }[]) =>
    browser.send('Input.dispatchTouchEvent', { type, touchPoints: points });
  await touch('touchStart', [from]);
  return {
    async moveBy(dx: number, dy: number, steps = 20) {
      for (let step = 1; step <= steps; step += 1) {
        await touch('touchMove', [{ x: from.x + (dx * step) / steps, y: from.y + (dy * step) / steps }]);
      }
    },
    /** A finger that leaves while it moves flings, and Chromium swallows the tap that stops a fling: rest first. */
    async lift() {
      await page.waitForTimeout(200);
      await touch('touchEnd', []);
    },
  };
}

interface Records {
  cards: { id: string; opened_at: number; binned_at: number | null }[];
  versions: { job: string; n: number; text: string }[];
  journal: { job: string; n: number; line: string }[];
}

/** What the browser's database holds; null before the app has made it. */
export async function keptRecords(page: Page): Promise<Records | null> {
  return page.evaluate(
    () =>
      new Promise<Records | null>((done, failed) => {
        const open = indexedDB.open('mastwright');
        open.onerror = () => failed(open.error);
        open.onupgradeneeded = () => open.transaction?.abort();
        open.onsuccess = () => {
          const db = open.result;
          if (!db.objectStoreNames.contains('cards')) {
            db.close();
            return done(null);
          }
          const reading = db.transaction(['cards', 'versions', 'journal']);
          const all = (name: string) => reading.objectStore(name).getAll();
          const [cards, versions, journal] = [all('cards'), all('versions'), all('journal')];
          reading.oncomplete = () => {
            db.close();
            done({ cards: cards.result, versions: versions.result, journal: journal.result } as Records);
          };
        };
      }),
  );
}

/** The job opened last as the browser has kept it, version and journal; null before the first save. */
export async function savedJob<Kept>(page: Page, id?: string): Promise<Kept | null> {
  const records = await keptRecords(page);
  const cards = (records?.cards ?? []).filter(({ binned_at }) => binned_at === null);
  const job = id ?? cards.sort((a, b) => b.opened_at - a.opened_at)[0]?.id;
  const version = records?.versions.filter((one) => one.job === job).sort((a, b) => b.n - a.n)[0];
  if (!records || !version) return null;
  const entries = records.journal
    .filter((one) => one.job === job)
    .map(({ line }) => entryOf(line))
    .filter((entry) => entry !== null);
  const now = leadingOn(version.n, entries).reduce(
    (document, { changes }) => withChanges(document, changes),
    JSON.parse(version.text) as unknown,
  );
  return now as Kept;
}
