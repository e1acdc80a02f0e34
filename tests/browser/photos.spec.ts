// Photos of the yard: made smaller, kept beside the job, handed over with it, gone with it.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { crc32 } from 'node:zlib';
import { expect, test, type Page } from '@playwright/test';
import { goTo, openDemo, savedJob } from './app';
import { open } from './every_page';
import { picture } from './pictures';

const PROGRAM = process.env.MASTWRIGHT_CLI ?? resolve(import.meta.dirname, '../../target/debug/mastwright');

interface Kept {
  photos: { sha256: string; note: string; shows: string }[];
}

const photosKept = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<{ name: string; begins: number[] }[]>((done) => {
        const asked = indexedDB.open('mastwright');
        asked.onsuccess = () => {
          const store = asked.result.transaction('photos').objectStore('photos');
          const [names, all] = [store.getAllKeys(), store.getAll()];
          store.transaction.oncomplete = () => {
            asked.result.close();
            done(names.result.map((name, i) => ({ name: name as string, begins: [...(all.result[i] as Uint8Array).slice(0, 3)] })));
          };
        };
      }),
  );

const sizeOf = (page: Page, id: string) =>
  page.getByTestId(id).evaluate((image: HTMLImageElement) => [image.naturalWidth, image.naturalHeight]);

/** Saves the job as a file; where it went. */
async function savedFile(page: Page): Promise<{ name: string; path: string }> {
  await page.getByTestId('job-menu').tap();
  const coming = page.waitForEvent('download');
  await page.getByTestId('export-job').tap();
  const file = await coming;
  await page.keyboard.press('Escape');
  return { name: file.suggestedFilename(), path: await file.path() };
}

test('a photo is kept small beside the job, comes back after a reload, and is handed over with it', async ({ page }) => {
  await page.addInitScript(() => (navigator.canShare = () => false));
  await openDemo(page);
  expect((await savedFile(page)).name).toMatch(/\.json$/);
  await open(page, 'measure/photos');
  await page.getByTestId('photo-file').setInputFiles(await picture(page, 'rgb(200, 40, 40)'));
  await expect(page.getByTestId('photo').locator('img')).toHaveCount(1);
  await page.getByTestId('photo').tap();
  await expect(page.getByTestId('large-photo')).toBeVisible();
  expect(await sizeOf(page, 'large-photo')).toEqual([1600, 1200]);
  await page.getByLabel('What is to be seen').fill('The old trough');
  await page.getByLabel('What is to be seen').blur();
  await page.screenshot({ path: 'out/photo.png' });
  await page.keyboard.press('Escape');
  // One that shows a thing stands with the thing, and with all others.
  await open(page, 'measure/things/0');
  await page.getByTestId('photo-file').setInputFiles(await picture(page, 'rgb(40, 40, 200)'));
  await expect(page.getByTestId('photo').locator('img')).toHaveCount(1);
  await page.getByTestId('photos').scrollIntoViewIfNeeded();
  await page.screenshot({ path: 'out/photo-of-thing.png' });
  await expect(page.getByTestId('kept')).toHaveAttribute('data-state', 'kept');

  const job = await savedJob<Kept>(page);
  expect(job?.photos.map(({ note }) => note)).toEqual(['The old trough', '']);
  const kept = await photosKept(page);
  expect(kept.map(({ name }) => name).sort()).toEqual(job?.photos.map(({ sha256 }) => sha256).sort());
  for (const { begins } of kept) expect(begins).toEqual([0xff, 0xd8, 0xff]);
  await page.reload();
  await open(page, 'measure/photos');
  await expect(page.getByTestId('photo').locator('img')).toHaveCount(2);
  await page.screenshot({ path: 'out/photos.png' });

  const file = await savedFile(page);
  expect(file.name).toMatch(/\.mastwright\.zip$/);
  // The command line plans the job in it.
  expect(execFileSync(PROGRAM, ['log', file.path]).length).toBeGreaterThan(0);
  const bytes = readFileSync(file.path);

  // Deleted for good, nothing of it stays; the file brings it all back.
  await goTo(page, 'jobs');
  await page.getByRole('link', { name: /earlier versions of Lantern Green/ }).tap();
  await page.getByTestId('bin-job').tap();
  await page.getByTestId('bin').getByText('Lantern Green').tap();
  await page.getByTestId('delete-job').tap();
  await page.getByTestId('really-delete').tap();
  await expect.poll(() => photosKept(page)).toEqual([]);
  await page.goto('/');
  await openDemo(page);
  await page.getByTestId('job-menu').tap();
  await page.locator('dialog input[type=file]').setInputFiles({ name: 'yard.zip', mimeType: 'application/zip', buffer: bytes });
  await expect(page.getByRole('dialog')).toBeHidden();
  await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
  await page.waitForTimeout(500);
  await open(page, 'measure/photos');
  await expect(page.getByTestId('photo').locator('img')).toHaveCount(2);
  expect((await savedJob<Kept>(page))?.photos.map(({ note }) => note)).toEqual(['The old trough', '']);
  await page.getByTestId('photo').first().tap();
  await page.getByTestId('remove-photo').tap();
  await expect(page.getByTestId('photo')).toHaveCount(1);
});

/** A zip archive of stored files (PKWARE APPNOTE 4.3), with names as they are given. */
function zip(files: [name: string, content: string][]): Buffer {
  const [parts, central]: Buffer[][] = [[], []];
  let at = 0;
  for (const [name, content] of files) {
    const [named, bytes] = [Buffer.from(name), Buffer.from(content)];
    const about = Buffer.alloc(26);
    about.writeUInt16LE(20, 0);
    about.writeUInt32LE(crc32(bytes), 10);
    about.writeUInt32LE(bytes.length, 14);
    about.writeUInt32LE(bytes.length, 18);
    about.writeUInt16LE(named.length, 22);
    parts.push(Buffer.from('PK\x03\x04', 'latin1'), about, named, bytes);
    const more = Buffer.alloc(14);
    more.writeUInt32LE(at, 10);
    central.push(Buffer.from('PK\x01\x02\x14\x00', 'latin1'), about, more, named);
    at += 30 + named.length + bytes.length;
  }
  const end = Buffer.alloc(18);
  end.writeUInt16LE(files.length, 4);
  end.writeUInt16LE(files.length, 6);
  end.writeUInt32LE(Buffer.concat(central).length, 8);
  end.writeUInt32LE(at, 12);
  return Buffer.concat([...parts, ...central, Buffer.from('PK\x05\x06', 'latin1'), end]);
}

test('an archive that holds anything else is refused in words, and so is a picture that is none', async ({ page }) => {
  await openDemo(page);
  const { text } = { text: execFileSync(PROGRAM, ['demo']).toString() };
  await page.getByTestId('job-menu').tap();
  const dialog = page.getByRole('dialog');
  const input = page.locator('dialog input[type=file]');
  const given = (buffer: Buffer) => input.setInputFiles({ name: 'x.zip', mimeType: 'application/zip', buffer });
  for (const [files, said] of [
    [[['job.json', text], ['../../evil.js', 'x']], 'job.json and photos/ alone'],
    [[['job.json', text], ['job.json', text]], 'twice'],
    [[['job.json', text], [`photos/${'0'.repeat(64)}.jpg`, '<svg onload="x"/>']], 'no JPEG'],
    [[['other.json', text]], 'job.json and photos/ alone'],
  ] as [[string, string][], string][]) {
    await given(zip(files));
    await expect(dialog).toContainText(said);
  }
  await given(zip([['job.json', text]]).subarray(0, 300));
  await expect(dialog).toContainText('can’t be read');
  await page.keyboard.press('Escape');
  await open(page, 'measure/photos');
  await page.getByTestId('photo-file').setInputFiles({ name: 'x.png', mimeType: 'image/png', buffer: Buffer.from('<svg onload="window.ran=1"/>') });
  await expect(page.locator('main').getByRole('alert')).toContainText('can’t read that picture');
  expect(await photosKept(page)).toEqual([]);
});
