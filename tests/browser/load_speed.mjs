// How long it takes from an address to the demo's map on a slow phone: packed by brotli, over slow 4G (1.6 Mb/s, 150 ms), with
// the processor slowed four times; from an empty cache, on a later start, and on one without a network; then how long until a drag is
// answered, and which tasks on the way through the app hold the page up. `cargo xtask bench` runs it; by hand: node load_speed.mjs [SLOWER [BUILT]]
import { createServer } from 'node:http';
import { readFileSync, readdirSync, statSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { extname, join, resolve } from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';
import { chromium } from '@playwright/test';
import { journey, watchTasks } from './long_tasks.mjs';

const [slower = '4', built = resolve(import.meta.dirname, '../../ui/dist')] = process.argv.slice(2);
const DIST = resolve(built);
const SLOW_4G = { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 0.75e6 / 8 };
const TYPES = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.wasm': 'application/wasm', '.json': 'application/json', '.svg': 'image/svg+xml', '.png': 'image/png', '.webmanifest': 'application/manifest+json' };

/** The built files, each packed once. */
function packedFiles() {
  const files = readdirSync(DIST, { recursive: true }).filter((name) => statSync(join(DIST, name)).isFile());
  const pack = (bytes) => brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } });
  return new Map(files.map((name) => [`/${name}`, pack(readFileSync(join(DIST, name)))]));
}

async function serve(files) {
  const asked = [];
  const server = createServer((request, response) => {
    const path = request.url === '/' ? '/index.html' : new URL(request.url, 'http://x').pathname;
    const bytes = files.get(path);
    asked.push([path, bytes?.length ?? 0]);
    response.statusCode = bytes ? 200 : 404;
    response.setHeader('content-type', TYPES[extname(path)] ?? 'application/octet-stream');
    response.setHeader('content-encoding', 'br');
    response.setHeader('cache-control', path.startsWith('/assets/') ? 'max-age=31536000, immutable' : 'no-cache');
    response.end(bytes);
  });
  await new Promise((listening) => server.listen(0, 'localhost', listening));
  return { server, asked, address: `http://localhost:${server.address().port}/` };
}

async function start(context, address, network, first) {
  const page = await context.newPage();
  await page.addInitScript(watchTasks);
  const devtools = await context.newCDPSession(page);
  await devtools.send('Network.enable');
  await devtools.send('Network.emulateNetworkConditions', network);
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: Number(slower) });
  const begun = Date.now();
  await page.goto(address, { waitUntil: 'commit' });
  if (first) await page.getByTestId('open-demo').click();
  await page.locator('[data-testid="place-map"] .painted').first().waitFor();
  await page.getByTestId('mast-handle').waitFor();
  const ms = Date.now() - begun;
  const long = await page.evaluate(() => window.longTasks.splice(0));
  return { page, devtools, begun, ms, long };
}

/** A finger moves the mast; done when the drawing has followed. */
async function drag(page, devtools) {
  const anchor = page.locator('[data-testid="place-map"] .signs .s-anchor').first();
  const before = await anchor.getAttribute('transform');
  const { x, y, width, height } = await page.getByTestId('mast-handle').boundingBox();
  const touch = (type, touchPoints) => devtools.send('Input.dispatchTouchEvent', { type, touchPoints });
  const at = { x: x + width / 2, y: y + height / 2 };
  await touch('touchStart', [at]);
  for (let step = 1; step <= 5; step += 1) await touch('touchMove', [{ x: at.x + 6 * step, y: at.y - 3 * step }]);
  await page.waitForFunction((was) => document.querySelector('[data-testid="place-map"] .signs .s-anchor')?.getAttribute('transform') !== was, before, { timeout: 60_000 });
  const answered = Date.now();
  await touch('touchEnd', []);
  return answered;
}

const { server, asked, address } = await serve(packedFiles());
const folder = mkdtempSync(join(tmpdir(), 'mastwright-load-'));
const context = await chromium.launchPersistentContext(folder, {
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-background-networking'],
  viewport: { width: 360, height: 740 },
  deviceScaleFactor: 3,
  isMobile: true,
  hasTouch: true,
  serviceWorkers: 'allow',
});
const tell = (name, { ms, long }) => console.log(`${name}: ${ms} ms; tasks over 50 ms: ${long.length ? long.join(', ') : 'none'}`);
try {
  const first = await start(context, address, SLOW_4G, true);
  // Begun as soon as the handle is there, whether or not the engine is.
  const answered = (await drag(first.page, first.devtools)) - first.begun;
  const fetched = asked.reduce((sum, [, bytes]) => sum + bytes, 0);
  tell('demo map from an empty cache', first);
  console.log(`  the first drag is answered: ${answered} ms`);
  console.log(`  asked for until then: ${asked.length} files, ${fetched} bytes packed`);
  // The rest is fetched quickly, so that the later starts find it.
  await first.devtools.send('Network.emulateNetworkConditions', { ...SLOW_4G, latency: 0, downloadThroughput: -1, uploadThroughput: -1 });
  await first.page.getByTestId('job-menu').click();
  await first.page.locator('[data-testid="offline"][data-state="ready"]').waitFor({ timeout: 120_000 });
  await first.page.getByRole('dialog').getByRole('button', { name: 'Close' }).click();
  await first.page.evaluate(() => window.longTasks.splice(0));
  await journey(first.page, () => drag(first.page, first.devtools));
  await first.page.close();
  const later = await start(context, `${address}#/map`, SLOW_4G, false);
  tell('a later start', later);
  await later.page.close();
  await context.setOffline(true);
  server.closeAllConnections();
  await new Promise((closed) => server.close(closed));
  tell('a later start without a network', await start(context, `${address}#/map`, { ...SLOW_4G, offline: true }, false));
} finally {
  await context.close();
  server.close();
  rmSync(folder, { recursive: true, force: true });
}
