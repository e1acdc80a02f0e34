// The app's real window, driven through the web view's own driver (W3C WebDriver over HTTP).
// Usage: node tests/window/journey.mjs APP COMMAND_LINE, the paths of both programs, with a DISPLAY.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { startDriver } from './driver.mjs';

const [program, commandLine] = process.argv.slice(2);
assert.ok(program && commandLine, 'the paths of the app and of the command line are missing');
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
  const first = await window.until('the foot height of the demo', () => footHeight(window));
  const demo = await window.until('the demo to be saved', () => newestJob(home));

  // Move the mast. On even ground the foot keeps its height wherever the mast stands, so the job on disk must
  // tell that it moved, and the command line must reckon the foot that the window shows.
  await window.click('nudge-east');
  await window.click('nudge-north');
  const moved = await window.until('the moved mast to be saved', () => {
    const { east_m, north_m } = mastOf(home);
    return east_m > mastIn(demo).east_m && north_m > mastIn(demo).north_m ? newestJob(home) : null;
  });
  const afterMove = await window.until('the foot height after the move', () => sameAsCommandLine(window, moved));
  await picture(window, 'moved');

  // Turn the base off the fall line: now the foot must change.
  for (let push = 0; push < 3; push += 1) await window.click('turn-right');
  const afterTurn = await window.until('another foot height', async () => {
    const now = await footHeight(window);
    return now !== afterMove ? now : null;
  });
  const turned = await window.until('the turn to be saved', () => (newestJob(home) !== moved ? newestJob(home) : null));
  await window.until('the turned foot height', () => sameAsCommandLine(window, newestJob(home)));
  assert.notEqual(turned, moved);
  console.log(`      foot height: demo ${first}, mast moved ${afterMove}, base turned ${afterTurn}`);
  await picture(window, 'turned');

  // The next start brings it back as it was left.
  const left = await footHeight(window);
  await window.close();
  window = await driver.open(program);
  await window.click('tab-map');
  const again = await window.until('the foot height after a restart', () => footHeight(window));
  assert.equal(again, left, 'the restarted app shows the job as it was left');
  await picture(window, 'restarted');
} catch (error) {
  if (window) await picture(window, 'failed').catch(() => {});
  throw error;
} finally {
  await window?.close().catch(() => {});
  await driver.stop();
  rmSync(home, { recursive: true, force: true, maxRetries: 20, retryDelay: 200 });
}

async function footHeight(window) {
  const text = await window.filledText('foot-height');
  return text && /\d/.test(text) ? text : null;
}

/** The path of the job as last saved. */
function newestJob(folder) {
  const names = readdirSync(folder, { recursive: true }).filter((name) => /job-\d+\.json$/.test(name));
  return names.length > 0 ? join(folder, names.sort().at(-1)) : null;
}

function mastIn(job) {
  return JSON.parse(readFileSync(job, 'utf8')).placement.mast;
}

function mastOf(folder) {
  return mastIn(newestJob(folder));
}

/** The foot height on the screen, once the command line says the same of that job. */
async function sameAsCommandLine(window, job) {
  const report = execFileSync(commandLine, ['plan', job], { encoding: 'utf8' });
  const [, said] = report.match(/^ *Front foot\b.*? {2,}(\S.*?) ±/m) ?? [];
  assert.ok(said, `the command line tells the front foot:\n${report.slice(0, 500)}`);
  const shown = await footHeight(window);
  if (shown !== said) throw new Error(`the window shows ${shown}, the command line says ${said}`);
  return shown;
}
