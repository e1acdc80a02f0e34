import { expect, test, type Page } from '@playwright/test';
import { keptRecords, openDemo, savedJob } from './app';

test.describe.configure({ retries: 0 });

interface Kept {
  name: string;
  mastwright_job: number;
  placement: { mast: { east_m: number; north_m: number } };
}

const mast = async (page: Page) => (await savedJob<Kept>(page))?.placement.mast;
const isKept = (page: Page) => expect(page.getByTestId('kept')).toHaveAttribute('data-state', 'kept');

/** As `tap`, but without waiting for what a test's own click waits for. */
const click = (page: Page, id: string) =>
  page.evaluate((testId) => document.querySelector<HTMLElement>(`[data-testid="${testId}"]`)?.click(), id);

async function onTheMap(page: Page): Promise<void> {
  await page.goto('/#map');
  // Before there is a plan a nudge does nothing.
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
  await isKept(page);
}

/** How often; more for a measurement than for every run. */
const LEAVES = Number(process.env.LEAVES ?? 16);

test('no edit is lost when the page goes away within 0.2 s of it', async ({ page }) => {
  test.setTimeout(300_000);
  await openDemo(page);
  await isKept(page);
  const east = (await mast(page))?.east_m ?? NaN;
  const lost: string[] = [];
  let before = east;
  await onTheMap(page);
  for (let edit = 0; edit < LEAVES; edit += 1) {
    const wait_ms = Math.round((200 * edit) / (LEAVES - 1));
    await click(page, 'nudge-east');
    await page.waitForTimeout(wait_ms);
    await page.goto('about:blank');
    await onTheMap(page);
    const after = (await mast(page))?.east_m ?? NaN;
    if (!(after > before)) lost.push(`edit ${edit}, left after ${wait_ms} ms: ${before} m, then ${after} m`);
    before = after;
  }
  expect(lost).toEqual([]);
  expect(before).toBeGreaterThan(east);
});

test('edits that follow each other at once are all there after the page is closed under them', async ({ context }) => {
  const page = await context.newPage();
  await openDemo(page);
  await isKept(page);
  const before = (await mast(page))?.north_m ?? NaN;
  await page.evaluate(() => {
    const button = document.querySelector<HTMLElement>('[data-testid="nudge-north"]');
    for (let count = 0; count < 20; count += 1) button?.click();
  });
  await page.close();
  const next = await context.newPage();
  await onTheMap(next);
  const after = (await mast(next))?.north_m ?? NaN;
  await next.getByTestId('nudge-north').tap();
  await expect.poll(async () => (await mast(next))?.north_m).not.toBe(after);
  const step = ((await mast(next))?.north_m ?? NaN) - after;
  expect(Math.round((after - before) / step)).toBe(20);
});

/** A browser whose writes can be made to break off, as where there is no more room. */
async function withRoomOnDemand(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const begin = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (stores, mode, options) {
      const begun = begin.call(this, stores, mode, options);
      const fails = (window as unknown as { noRoom?: boolean }).noRoom && mode === 'readwrite';
      if (fails) begun.abort();
      return begun;
    };
  });
}

const room = (page: Page, left: boolean) =>
  page.evaluate((has) => ((window as unknown as { noRoom?: boolean }).noRoom = !has), left);

/** The demo, kept, where from now on nothing more can be; says where its mast stands. */
async function demoWithoutRoom(page: Page) {
  await withRoomOnDemand(page);
  await openDemo(page);
  await isKept(page);
  const before = await mast(page);
  await room(page, false);
  return before;
}

test('an edit that the database refused outlives the page all the same', async ({ page }) => {
  const before = await demoWithoutRoom(page);
  for (let count = 0; count < 3; count += 1) await click(page, 'nudge-east');
  await page.goto('about:blank');
  await onTheMap(page);
  const after = await mast(page);
  await page.getByTestId('nudge-east').tap();
  await expect.poll(async () => (await mast(page))?.east_m).not.toBe(after?.east_m);
  const step = ((await mast(page))?.east_m ?? NaN) - (after?.east_m ?? NaN);
  expect(Math.round(((after?.east_m ?? NaN) - (before?.east_m ?? NaN)) / step)).toBe(3);
});

test('a save that fails is told, and tried again until it is kept', async ({ page }) => {
  const before = await demoWithoutRoom(page);
  await page.getByTestId('nudge-east').tap();
  await expect(page.getByTestId('not-kept')).toBeVisible();
  await expect(page.getByTestId('kept')).toHaveAttribute('data-state', 'failed');
  await page.getByTestId('nudge-east').tap();
  await page.screenshot({ path: 'out/not-kept.png' });
  expect(await mast(page)).toEqual(before);

  await room(page, true);
  await isKept(page);
  await expect(page.getByTestId('not-kept')).toBeHidden();
  const kept = (await mast(page))?.east_m ?? NaN;
  await onTheMap(page);
  expect((await mast(page))?.east_m).toBe(kept);
  expect(kept).toBeGreaterThan(before?.east_m ?? NaN);
});

test('a device without room opens its jobs all the same, tells it, and keeps edits once there is room', async ({ page }) => {
  await openDemo(page);
  await isKept(page);
  const before = await mast(page);
  await page.addInitScript(() => {
    const full = { is: true };
    Object.assign(window, { full });
    for (const name of ['put', 'add'] as const) {
      const real = IDBObjectStore.prototype[name];
      IDBObjectStore.prototype[name] = function (this: IDBObjectStore, ...given: Parameters<typeof real>) {
        if (full.is) throw new DOMException('no more', 'QuotaExceededError');
        return real.apply(this, given);
      };
    }
  });
  await page.reload();
  const alert = page.getByRole('alert').first();
  // Of a write that the reload cut short it is told that this change is not kept, else that nothing can be.
  await expect(alert).toContainText(/Nothing can be kept on this device at the moment|is not kept on this device yet/);
  await expect(alert).toContainText('The browser has no more room');
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
  await page.screenshot({ path: 'out/no-room.png' });
  expect(await mast(page)).toEqual(before);
  await click(page, 'nudge-east');
  await expect(page.getByTestId('not-kept')).toContainText('no more room');
  await page.evaluate(() => Object.assign((window as unknown as { full: { is: boolean } }).full, { is: false }));
  await isKept(page);
  expect((await mast(page))?.east_m).toBeGreaterThan(before?.east_m ?? NaN);
});

test('a clock that was set back costs no edit, opens the job that was open, and is told beside the versions', async ({ context }) => {
  const page = await context.newPage();
  await openDemo(page);
  await page.getByTestId('job-menu').tap();
  await page.getByTestId('menu-demo').tap();
  await page.goto('/#map');
  await isKept(page);
  await page.close();
  // Two years earlier, as after a battery ran empty.
  await context.addInitScript(() => {
    const real = Date.now.bind(Date);
    Date.now = () => real() - 2 * 365 * 86_400_000;
  });
  const next = await context.newPage();
  await next.goto('/#jobs');
  await next.getByTestId('jobs').getByRole('listitem').last().getByRole('button').first().tap();
  await next.goto('/#map');
  await expect(next.getByTestId('foot-height')).toHaveText(/\d/);
  const name = await next.getByTestId('job-menu').innerText();
  for (let edit = 0; edit < 3; edit += 1) {
    await next.getByTestId('nudge-east').tap();
    await isKept(next);
  }
  const now = await mast(next);
  await expect.poll(async () => (await keptRecords(next))?.versions.length, { timeout: 15_000 }).toBeGreaterThan(1);
  await next.close();
  const last = await context.newPage();
  await last.goto('/#map');
  await expect(last.getByTestId('foot-height')).toHaveText(/\d/);
  expect(await last.getByTestId('job-menu').innerText()).toBe(name);
  expect(await mast(last)).toEqual(now);
  await last.goto('/#jobs');
  await last.getByRole('link', { name: `earlier versions of ${name.trim()}`, exact: false }).first().tap();
  await expect(last.getByTestId('clock-set-back')).toContainText('set back');
});

test('a job whose storage is cleared under it is kept again', { tag: '@desk' }, async ({ page }) => {
  await openDemo(page);
  await isKept(page);
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Storage.clearDataForOrigin', { origin: new URL(page.url()).origin, storageTypes: 'all' });
  await page.getByTestId('nudge-east').tap();
  await expect.poll(async () => (await keptRecords(page))?.cards.length).toBe(1);
  await isKept(page);
  const kept = await mast(page);
  await onTheMap(page);
  expect(await mast(page)).toEqual(kept);
  expect((await savedJob<Kept>(page))?.name).toBe('Lantern Green');
});

test('each job stays under its own name: demo, new jobs, copies, the bin', async ({ page }) => {
  await page.goto('/');
  await page.getByTestId('open-blank').tap();
  await page.getByTestId('begin-blank').tap();
  await isKept(page);
  await page.getByTestId('tab-map').tap();
  await page.getByTestId('nudge-east').tap();
  await isKept(page);
  const mine = await savedJob<Kept>(page);
  expect(mine?.name).toBe('My yard');

  await page.getByTestId('job-menu').tap();
  await page.getByTestId('menu-demo').tap();
  await expect(page.getByTestId('job-menu')).toContainText('Lantern Green');
  await page.getByTestId('job-menu').tap();
  await page.getByRole('button', { name: 'New job' }).tap();
  await expect(page.getByTestId('job-menu')).toContainText('My yard (2)');
  // An untouched demo is opened again, one that was worked on is not thrown away.
  await page.getByTestId('job-menu').tap();
  await page.getByTestId('menu-demo').tap();
  await expect(page.getByTestId('job-menu')).toHaveText(/Lantern Green$/);
  await page.getByTestId('nudge-east').tap();
  await isKept(page);
  await page.getByTestId('job-menu').tap();
  await page.getByTestId('menu-demo').tap();
  await expect(page.getByTestId('job-menu')).toContainText('Lantern Green (2)');

  await page.getByTestId('job-menu').tap();
  await page.getByTestId('all-jobs').tap();
  const jobs = page.getByTestId('jobs').locator('b');
  await expect(jobs).toHaveText(['Lantern Green (2)', 'Lantern Green', 'My yard (2)', 'My yard']);
  await page.screenshot({ path: 'out/jobs.png' });

  // The person's own job is as it was left.
  await page.getByTestId('jobs').getByText('My yard', { exact: true }).tap();
  await expect(page.getByTestId('job-menu')).toHaveText(/My yard$/);
  expect(await savedJob<Kept>(page)).toEqual(mine);

  const more = (name: string) => page.getByRole('link', { name: `versions of ${name}`, exact: false }).last();
  await page.goto('/#jobs');
  await more('My yard (2)').tap();
  await page.getByTestId('rename-job').fill('Orchard');
  await page.getByTestId('rename-job').press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Orchard');
  await page.getByTestId('copy-job').tap();
  await expect(page.getByTestId('jobs')).toContainText('Copy of Orchard');
  await more('Copy of Orchard').tap();
  await page.getByTestId('bin-job').tap();
  await expect(page.getByTestId('bin')).toContainText('Copy of Orchard');
  await expect(page.getByTestId('jobs')).not.toContainText('Copy of Orchard');
  await page.screenshot({ path: 'out/bin.png' });
  await page.getByTestId('bin').getByText('Copy of Orchard').tap();
  await page.getByTestId('restore-job').tap();
  await expect(page.getByTestId('jobs')).toContainText('Copy of Orchard');
  // For good only out of the bin, and only when asked twice.
  await more('Copy of Orchard').tap();
  await page.getByTestId('bin-job').tap();
  await page.getByTestId('bin').getByText('Copy of Orchard').tap();
  await page.getByTestId('delete-job').tap();
  await page.getByTestId('really-delete').tap();
  await expect(page.getByTestId('jobs')).toContainText('Orchard');
  await expect(page.getByText('Copy of Orchard')).toBeHidden();
  expect((await keptRecords(page))?.cards.map(({ id }) => id)).toHaveLength(4);
});

test('an earlier version is looked at and brought back, and undo takes that back', async ({ page }) => {
  await openDemo(page);
  await isKept(page);
  const first = await mast(page);
  await page.getByTestId('nudge-east').tap();
  await isKept(page);
  const second = await mast(page);
  await page.getByTestId('job-menu').tap();
  await page.getByTestId('all-jobs').tap();
  await page.getByRole('link', { name: /earlier versions of Lantern Green/ }).tap();
  await expect(page.getByTestId('versions').locator('li').nth(1)).toBeVisible();
  await page.screenshot({ path: 'out/job-page.png', fullPage: true });
  const oldest = page.getByTestId('versions').getByRole('button').last();
  await oldest.tap();
  await expect(page.getByTestId('version-map')).toBeVisible();
  await page.screenshot({ path: 'out/version.png' });
  await page.getByTestId('bring-back').tap();
  await expect(page.getByTestId('did')).toContainText('as it was');
  await expect.poll(() => mast(page)).toEqual(first);
  await page.getByTestId('undo').tap();
  await expect.poll(() => mast(page)).toEqual(second);
});

test('a second window is told and asked; taking the job over loses nothing of the first', { tag: '@desk' }, async ({ context }) => {
  const first = await context.newPage();
  await openDemo(first);
  await first.getByTestId('nudge-east').tap();
  await isKept(first);
  const before = await mast(first);

  const second = await context.newPage();
  await second.goto('/');
  await expect(second.getByTestId('elsewhere')).toContainText('Lantern Green');
  await second.screenshot({ path: 'out/elsewhere.png' });
  await second.getByTestId('take-job').tap();
  await expect(second.getByTestId('job-menu')).toContainText('Lantern Green');
  expect(await mast(second)).toEqual(before);
  // The first one cannot go on writing.
  await expect(first.getByTestId('elsewhere')).toBeVisible();
  await second.goto('/#map');
  await second.getByTestId('nudge-north').tap();
  await isKept(second);
  const after = await mast(second);

  await first.getByTestId('copy-elsewhere').tap();
  await expect(first.getByTestId('job-menu')).toContainText('Copy of Lantern Green');
  expect(await mast(first)).toEqual(before);
  await second.reload();
  await expect(second.getByTestId('job-menu')).toHaveText(/Lantern Green$/);
  expect((await keptRecords(second))?.cards).toHaveLength(2);
  const id = (await keptRecords(second))?.cards.find(({ id }) => id.endsWith('-1'))?.id;
  expect((await savedJob<Kept>(second, id))?.placement.mast).toEqual(after);
});

test('without locks the numbers of the edits tell of another window', { tag: '@desk' }, async ({ context }) => {
  await context.addInitScript(() => {
    Object.defineProperty(Navigator.prototype, 'locks', { value: undefined, configurable: true });
    delete (Navigator.prototype as { locks?: unknown }).locks;
  });
  const first = await context.newPage();
  await openDemo(first);
  await isKept(first);
  const second = await context.newPage();
  await second.goto('/#map');
  await second.getByTestId('nudge-east').tap();
  await isKept(second);
  const theirs = await mast(second);
  await first.getByTestId('nudge-north').tap();
  await expect(first.getByTestId('elsewhere')).toBeVisible();
  expect(await mast(second)).toEqual(theirs);
  await first.getByTestId('copy-elsewhere').tap();
  await expect(first.getByTestId('job-menu')).toContainText('Copy of Lantern Green');
  expect((await mast(first))?.north_m).toBeGreaterThan(theirs?.north_m ?? NaN);
});

/** Puts another text in place of the newest version of the only job. */
async function spoil(page: Page, how: 'half' | 'shape' | 'newer', journal: boolean): Promise<void> {
  await page.evaluate(
    ([kind, keepJournal]) =>
      new Promise<void>((done) => {
        const open = indexedDB.open('mastwright');
        open.onsuccess = () => {
          const writing = open.result.transaction(['versions', 'journal'], 'readwrite');
          const versions = writing.objectStore('versions');
          versions.openCursor(null, 'prev').onsuccess = (event) => {
            const cursor = (event.target as IDBRequest<IDBCursorWithValue>).result;
            const record = cursor.value as { text: string };
            const text = {
              half: record.text.slice(0, record.text.length / 2),
              shape: record.text.replace('"yard"', '"garden"'),
              newer: record.text.replace(/"mastwright_job": \d+/, '"mastwright_job": 97'),
            }[kind];
            cursor.update({ ...record, text });
          };
          if (!keepJournal) writing.objectStore('journal').clear();
          writing.oncomplete = () => {
            open.result.close();
            done();
          };
        };
      }),
    [how, journal] as const,
  );
}

for (const how of ['half', 'shape'] as const) {
  for (const journal of [true, false]) {
    const left = journal ? 'with its edits out of the journal' : 'as it stood before';
    test(`an unusable newest save (${how}) is set aside and told, the job opened ${left}`, async ({ page }) => {
      await openDemo(page);
      await isKept(page);
      const first = await mast(page);
      await page.getByTestId('nudge-east').tap();
      await isKept(page);
      const second = await mast(page);
      // Leaving makes a version of it.
      await expect.poll(async () => (await keptRecords(page))?.versions.length, { timeout: 15_000 }).toBe(2);
      await page.goto('/phone.html').catch(() => undefined);
      await spoil(page, how, journal);
      await page.goto('/#map');
      await expect(page.getByRole('alert').first()).toContainText('could not be read and was set aside');
      await page.screenshot({ path: `out/aside-${how}.png` });
      expect(await mast(page)).toEqual(journal ? second : first);
      await page.goto('/#jobs');
      await page.getByRole('link', { name: /earlier versions of/ }).tap();
      await expect(page.getByTestId('aside')).toBeVisible();
      // It goes on from there as any job does.
      await page.goto('/#map');
      await page.getByTestId('nudge-north').tap();
      await isKept(page);
      const third = await mast(page);
      await onTheMap(page);
      await page.reload();
      await isKept(page);
      expect(await mast(page)).toEqual(third);
    });
  }
}

test('a job that a newer program kept says what it needs, and nothing of it is touched', async ({ page }) => {
  await openDemo(page);
  await isKept(page);
  await page.getByTestId('nudge-east').tap();
  await isKept(page);
  await expect.poll(async () => (await keptRecords(page))?.versions.length, { timeout: 15_000 }).toBe(2);
  await page.goto('/phone.html').catch(() => undefined);
  await spoil(page, 'newer', true);
  const before = await keptRecords(page);
  await page.goto('/#map');
  const alert = page.getByRole('alert').first();
  await expect(alert).toContainText('A newer Mastwright kept this job');
  await expect(alert).toContainText('version 97');
  await expect(alert).toContainText('update this one');
  await page.screenshot({ path: 'out/newer.png' });
  expect(await keptRecords(page)).toEqual(before);
});

/** Leaves of the only job its first version, as format version 1 had it, and all edits since in the journal. */
async function backToVersion1(page: Page): Promise<void> {
  await page.evaluate(
    () =>
      new Promise<void>((done) => {
        const open = indexedDB.open('mastwright');
        open.onsuccess = () => {
          const writing = open.result.transaction('versions', 'readwrite');
          let first = true;
          writing.objectStore('versions').openCursor().onsuccess = (event) => {
            const cursor = (event.target as IDBRequest<IDBCursorWithValue | null>).result;
            if (!cursor) return;
            const record = cursor.value as { text: string };
            const text = record.text
              .replace(/"mastwright_job": \d+/, '"mastwright_job": 1')
              .replace(/\n *"mastwright_minor": \d+,/, '')
              .replaceAll('"anchor":', '"holdfast":')
              .replaceAll('"anchor_layout":', '"anchors":');
            if (first) cursor.update({ ...record, text });
            else cursor.delete();
            first = false;
            cursor.continue();
          };
          writing.oncomplete = () => {
            open.result.close();
            done();
          };
        };
      }),
  );
}

test('a job kept in version 1 opens with the edits of its journal, is brought up and goes on', async ({ page }) => {
  await openDemo(page);
  await isKept(page);
  await page.getByTestId('nudge-east').tap();
  await isKept(page);
  const second = await mast(page);
  await expect.poll(async () => (await keptRecords(page))?.versions.length, { timeout: 15_000 }).toBe(2);
  await page.goto('/phone.html').catch(() => undefined);
  await backToVersion1(page);
  expect((await savedJob<Kept>(page))?.mastwright_job).toBe(1);
  await onTheMap(page);
  expect(await mast(page)).toEqual(second);
  expect((await savedJob<Kept>(page))?.mastwright_job).toBe(3);
  await page.getByTestId('nudge-north').tap();
  await isKept(page);
  const third = await mast(page);
  expect(third?.north_m).not.toEqual(second?.north_m);
  await onTheMap(page);
  await page.reload();
  await isKept(page);
  expect(await mast(page)).toEqual(third);
  // What was kept in version 1 is still there.
  const texts = (await keptRecords(page))?.versions.map(({ text }) => text) ?? [];
  expect(texts.filter((text) => text.includes('"mastwright_job": 1')).length).toBe(1);
});

test('saves of the time when there was one job are taken over, each name as a job of its own', async ({ page }) => {
  await openDemo(page);
  await isKept(page);
  const demo = JSON.stringify(await savedJob<Kept>(page));
  await page.goto('/phone.html').catch(() => undefined);
  await page.evaluate(
    (text) =>
      new Promise<void>((done, failed) => {
        localStorage.clear();
        localStorage.setItem('mastwright:draft:marks', '{"value":{"id":"B"},"step":0,"shown":{},"typed":{}}');
        const gone = indexedDB.deleteDatabase('mastwright');
        gone.onblocked = () => failed(new Error('blocked'));
        gone.onsuccess = () => {
          const open = indexedDB.open('mastwright', 1);
          open.onupgradeneeded = () => open.result.createObjectStore('saves', { keyPath: 'at' });
          open.onsuccess = () => {
            const saves = open.result.transaction('saves', 'readwrite').objectStore('saves');
            saves.put({ at: 1000, text: text.replace('"Lantern Green"', '"My orchard"') });
            saves.put({ at: 2000, text: text.replace('"Lantern Green"', '"My orchard"') });
            // What opening the demo did then.
            saves.put({ at: 3000, text });
            saves.transaction.oncomplete = () => {
              open.result.close();
              done();
            };
          };
        };
      }),
    demo,
  );
  await page.goto('/#jobs');
  await expect(page.getByTestId('jobs').locator('b')).toHaveText(['Lantern Green', 'My orchard']);
  await page.getByTestId('jobs').getByText('My orchard').tap();
  await expect(page.getByTestId('job-menu')).toContainText('My orchard');
  expect((await keptRecords(page))?.versions.filter(({ job }) => job === 'old-1').length).toBeGreaterThan(1);
  expect(await page.evaluate(() => localStorage.getItem('mastwright:job:old-2:draft:marks'))).toContain('"B"');
  await page.reload();
  await page.goto('/#jobs');
  await expect(page.getByTestId('jobs').locator('b')).toHaveText(['My orchard', 'Lantern Green']);
});
