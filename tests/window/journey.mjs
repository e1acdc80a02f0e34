// The app's real window, driven through the web view's own driver (W3C WebDriver over HTTP).
// Usage: node tests/window/journey.mjs PATH_TO_THE_PROGRAM, with a DISPLAY.
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { startDriver } from './driver.mjs';

const program = process.argv[2];
assert.ok(program, 'the path of the program is missing');
const pictures = join(dirname(fileURLToPath(import.meta.url)), 'out');
mkdirSync(pictures, { recursive: true });
// Jobs of this test go to a folder of their own, never to the user's.
const home = mkdtempSync(join(tmpdir(), 'mastwright-window-'));

const driver = await startDriver({ XDG_DATA_HOME: home, XDG_CACHE_HOME: home, XDG_CONFIG_HOME: home });
const picture = async (window, name) => writeFileSync(join(pictures, `${name}.png`), await window.screenshot());

let window;
try {
  window = await driver.open(program);
  await window.until('the engine to be the native one', async () => (await window.attribute('html', 'data-backend')) === 'tauri');

  await window.click('open-demo');
  await window.click('tab-map');
  await window.shown('place-map');
  const before = await window.until('the foot height of the demo', () => window.filledText('foot-height'));

  await window.click('nudge-east');
  await window.click('nudge-north');
  const after = await window.until('another foot height', async () => {
    const now = await window.filledText('foot-height');
    return now && now !== before ? now : null;
  });
  console.log(`      foot height ${before} -> ${after}`);
  assert.match(after, /\d/, 'the foot height holds a number');
  await picture(window, 'map');

  // What was entered is on disk, and the next start brings it back.
  const jobs = await window.until('the job to be saved', () => savedJobs(home));
  assert.ok(jobs.length > 0);
  await window.close();
  window = await driver.open(program);
  await window.click('tab-map');
  const again = await window.until('the foot height after a restart', () => window.filledText('foot-height'));
  assert.equal(again, after, 'the restarted app shows the job as it was left');
  await picture(window, 'restarted');
} catch (error) {
  if (window) await picture(window, 'failed').catch(() => {});
  throw error;
} finally {
  await window?.close().catch(() => {});
  await driver.stop();
  rmSync(home, { recursive: true, force: true });
}

function savedJobs(folder) {
  const names = readdirSync(folder, { recursive: true }).filter((name) => /job-\d+\.json$/.test(name));
  return names.length > 0 ? names : null;
}
