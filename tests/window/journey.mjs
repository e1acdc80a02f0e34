// The app's real window, driven through the web view's own driver (W3C WebDriver over HTTP).
// Usage: node tests/window/journey.mjs APP COMMAND_LINE, the paths of both programs, with a DISPLAY.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
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

const KEPT = '[data-testid="kept"]';
// What is saved as a file goes where this home's user keeps downloads.
const downloads = join(home, 'downloads');
writeFileSync(join(home, 'user-dirs.dirs'), `XDG_DOWNLOAD_DIR="${downloads}"\n`);
const environment = { XDG_DATA_HOME: home, XDG_CACHE_HOME: home, XDG_CONFIG_HOME: home };
let driver = await startDriver(environment);
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

  // Files end where the user looks for them, and the window says so: the job, and its sheets as PDF.
  await window.click('job-menu');
  await window.click('export-job');
  const savedAs = await window.until('the job to be saved as a file', () => readdirSync(downloads).find((name) => name.endsWith('.mastwright.json')));
  assert.equal(spawnSync(commandLine, ['plan', join(downloads, savedAs)]).status, 1, 'the saved job is the demo, with its stops');
  await window.close();
  window = await driver.open(program);
  await window.click('tab-build');
  await window.click('save-map');
  const sheets = await window.until('the sheets to be saved', () => readdirSync(downloads).find((name) => name.endsWith('.pdf')));
  assert.equal(readFileSync(join(downloads, sheets)).subarray(0, 5).toString('latin1'), '%PDF-');
  // The file is there a moment before the window says so.
  const told = await window.until('the window to say where the sheets are', () => window.filledText('saved'));
  assert.match(told, /downloads/);
  await picture(window, 'saved');

  // The next start brings it back as it was left.
  await window.click('tab-map');
  const left = await window.until('the foot height before it is closed', () => footHeight(window));
  await window.close();
  window = await driver.open(program);
  await window.click('tab-map');
  const again = await window.until('the foot height after a restart', () => footHeight(window));
  assert.equal(again, left, 'the restarted app shows the job as it was left');
  await picture(window, 'restarted');

  // What was called kept is there again though the program is killed the same moment.
  for (let round = 1; round <= 4; round += 1) {
    const before = eastOnDisk(home);
    await window.click('nudge-east');
    await window.until('the edit to be kept', async () => (await window.attribute(KEPT, 'data-state')) === 'kept');
    const app = driver.appProcess();
    process.kill(app, 'SIGKILL');
    // The driver does not always come to terms with a window that died: each gets a driver of its own.
    await driver.stop();
    driver = await startDriver(environment);
    const after = eastOnDisk(home);
    assert.ok(after > before, `kill ${round}: ${after} m east on the disk, ${before} m before the edit`);
    window = await driver.open(program);
    await window.click('tab-map');
    await window.until('the foot height after a kill', () => footHeight(window));
    await window.click('nudge-west');
    await window.until('the way back to go on from the edit', () => Math.abs(eastOnDisk(home) - before) < 1e-9);
  }
  console.log('      killed 4 times just after an edit was called kept: nothing lost');

  // A second app on the same folder is told, and gets the job once the first one is gone.
  const secondDriver = await startDriver(environment);
  const second = await secondDriver.open(program);
  const secondApp = secondDriver.appProcess();
  try {
    await second.shown('elsewhere');
    await picture(second, 'elsewhere');
    await window.close();
    window = null;
    // The first one takes a moment to be gone.
    await second.until('the job in the second app', async () => {
      if (await second.has('try-again')) await second.click('try-again');
      return second.has('job-menu');
    });
    await second.click('tab-map');
    await second.until('the foot height in the second app', () => footHeight(second));
  } finally {
    await second.close().catch(() => {});
    await secondDriver.stop();
    endIfRunning(secondApp);
  }
} catch (error) {
  if (window) await picture(window, 'failed').catch(() => {});
  throw error;
} finally {
  await window?.close().catch(() => {});
  await driver.stop();
  await removeOnceQuiet(home);
}

/** A window whose driver ends sometimes stays. */
function endIfRunning(id) {
  try {
    process.kill(id, 'SIGKILL');
  } catch {
    // It is gone already.
  }
}

/** The helpers of a killed window write to their caches for a moment longer. */
async function removeOnceQuiet(folder) {
  for (let left = 20; ; left -= 1) {
    try {
      rmSync(folder, { recursive: true, force: true });
      return;
    } catch (error) {
      if (left === 0) throw error;
      await new Promise((resume) => setTimeout(resume, 300));
    }
  }
}

async function footHeight(window) {
  const text = await window.filledText('foot-height');
  return text && /\d/.test(text) ? text : null;
}

/** The path of the newest version of the job. */
function newestJob(folder) {
  const names = readdirSync(folder, { recursive: true }).filter((name) => /jobs.*job-\d+\.json$/.test(name));
  return names.length > 0 ? join(folder, names.sort().at(-1)) : null;
}

/** How far east the mast stands by what is on the disk: the newest version, and the edits in the journal since. */
function eastOnDisk(folder) {
  const job = newestJob(folder);
  const version = Number(/job-(\d+)\.json$/.exec(job)[1]);
  const lines = readFileSync(join(dirname(job), 'journal'), 'utf8').split('\n').filter((line) => line.endsWith('}'));
  const edits = lines.map((line) => JSON.parse(line.split(' ').slice(2).join(' '))).sort((a, b) => a.n - b.n);
  const moves = edits
    .filter(({ n }) => n > version)
    .flatMap(({ changes }) => changes)
    .filter(({ at }) => at.join('/') === 'placement/mast/east_m');
  return moves.at(-1)?.is ?? mastIn(job).east_m;
}

function mastIn(job) {
  return JSON.parse(readFileSync(job, 'utf8')).placement.mast;
}

function mastOf(folder) {
  return mastIn(newestJob(folder));
}

/** The foot height on the screen, once the command line says the same of that job. */
async function sameAsCommandLine(window, job) {
  // Its exit code is the plan's verdict: the demo has findings that say stop.
  const report = spawnSync(commandLine, ['plan', job], { encoding: 'utf8' }).stdout;
  const [, said] = report.match(/^ *Front foot\b.*? {2,}(\S.*?) ±/m) ?? [];
  assert.ok(said, `the command line tells the front foot:\n${report.slice(0, 500)}`);
  const shown = await footHeight(window);
  if (shown !== said) throw new Error(`the window shows ${shown}, the command line says ${said}`);
  return shown;
}
