// `mastwright serve` from outside: a real browser over https, and requests of all kinds without one.
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { request as ask, type RequestOptions } from 'node:https';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { connect, type TLSSocket } from 'node:tls';
import { expect, test, type Browser, type BrowserContext, type Page } from '@playwright/test';
import { motionSensor } from './sensors';

const PROGRAM = process.env.MASTWRIGHT_CLI ?? resolve(import.meta.dirname, '../../target/debug/mastwright');

let program: ChildProcess;
let folder: string;
let origin: string;
let code: string;
/** All that the program has said so far. */
let terminal = '';
const codesOnTerminal = () => [...terminal.matchAll(/\/pair#([0-9a-f]+)/g)].map(([, drawn]) => drawn ?? '');

test.beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'mastwright-served-'));
  program = spawn(PROGRAM, ['serve', '--bind', '127.0.0.1', '--port', '0', '--folder', folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  const said = await new Promise<string>((done, failed) => {
    program.stdout?.on('data', (more) => {
      terminal += more;
      if (/is good for one device/.test(terminal)) done(terminal);
    });
    program.on('exit', (status) => failed(new Error(`mastwright serve ended with ${status}: ${terminal}`)));
  });
  const [, at, drawn] = /open (https:\/\/\S+)\/pair#([0-9a-f]+)/.exec(said) ?? [];
  [origin, code] = [at ?? '', drawn ?? ''];
});
test.afterAll(() => {
  program.kill();
  rmSync(folder, { recursive: true, force: true });
});

interface Answered {
  status: number;
  headers: Record<string, string | string[] | undefined>;
  body: string;
}

/** Whatever is answered, granted or refused, says this besides. */
function saysWhatHolds(where: string, headers: Answered['headers']): void {
  expect(headers['content-security-policy'], where).toContain("frame-ancestors 'self'");
  expect(headers['cross-origin-opener-policy'], where).toBe('same-origin');
  expect(headers['cross-origin-resource-policy'], where).toBe('same-origin');
  expect(headers['referrer-policy'], where).toBe('same-origin');
  expect(headers['x-content-type-options'], where).toBe('nosniff');
  expect(headers['permissions-policy'], where).toContain('accelerometer=(self)');
  expect(headers['access-control-allow-origin'], where).toBeUndefined();
}

/** A request as no browser would send it: the path as it stands, no cookie but a given one. */
function fetched(path: string, options: RequestOptions = {}, body = ''): Promise<Answered> {
  const { hostname, port } = new URL(origin);
  return new Promise((done, failed) => {
    const request = ask({ hostname, port, path, rejectUnauthorized: false, agent: false, ...options }, (answer) => {
      let text = '';
      answer.on('data', (more) => (text += more));
      answer.on('end', () => {
        const { statusCode: status = 0, headers } = answer;
        try {
          saysWhatHolds(`${options.method ?? 'GET'} ${path}: ${status}`, headers);
          done({ status, headers, body: text });
        } catch (error) {
          failed(error as Error);
        }
      });
      answer.on('error', failed);
    });
    request.on('error', failed);
    request.end(body);
  });
}

/** Resolves when an answer that goes on for ever comes to its end after all. */
function ended(path: string, cookie: string): Promise<void> {
  const { hostname, port } = new URL(origin);
  return new Promise((done, failed) => {
    const options = { hostname, port, path, headers: { cookie }, rejectUnauthorized: false, agent: false };
    ask(options, (answer) => {
      expect(answer.statusCode).toBe(200);
      answer.resume();
      answer.on('end', () => done());
    })
      .on('error', failed)
      .end();
  });
}

/** What paired devices alone are given. */
const CLOSED: [string, string][] = [
  ['GET', '/devices'],
  ['DELETE', '/devices/1'],
  ['GET', '/invitation'],
  ['GET', '/live'],
  ['POST', '/live'],
  ['GET', '/jobs'],
  ['GET', '/jobs/laptop-1'],
  ['POST', '/jobs/laptop-1'],
  ['GET', '/deleted'],
  ['POST', '/deleted/laptop-1'],
  ['GET', '/photos'],
  ['GET', `/photos/${'0'.repeat(64)}`],
  ['PUT', `/photos/${'0'.repeat(64)}`],
];

/** A body that says at no time how long it will be, and goes on for a gigabyte if it may; how much of it was taken, and the answer. */
function endless(path: string, cookie: string): Promise<{ status: number; sent: number }> {
  const { hostname, port } = new URL(origin);
  const piece = Buffer.alloc(64 * 1024, ' ');
  return new Promise((done) => {
    let sent = 0;
    let status = 0;
    const request = ask({ hostname, port, path, method: 'POST', headers: { ...JSON_BODY, cookie }, rejectUnauthorized: false, agent: false }, (answer) => {
      status = answer.statusCode ?? 0;
      answer.resume();
      answer.on('end', () => done({ status, sent }));
    });
    const more = () => {
      while (sent < 2 ** 30 && !request.destroyed && status === 0) {
        sent += piece.length;
        if (!request.write(piece)) return void request.once('drain', more);
      }
      if (!request.destroyed) request.end();
    };
    // Cut off in the middle of it, which is an answer, too.
    request.on('error', () => done({ status, sent }));
    more();
  });
}

/** The most memory that the program has had, in kB. */
const mostMemory = () => Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${program.pid}/status`, 'utf8'))?.[1]);

const JSON_BODY = { 'content-type': 'application/json' };
const newCode = (cookie: string) =>
  fetched('/invitation', { headers: { cookie } }).then(({ body }) => (JSON.parse(body) as { code: string }).code);

async function device(browser: Browser, withCode: string, name: string): Promise<{ context: BrowserContext; page: Page; cookie: string }> {
  const context = await browser.newContext({ ignoreHTTPSErrors: true, viewport: { width: 360, height: 740 }, hasTouch: true });
  const page = await context.newPage();
  await page.goto(`${origin}/pair#${withCode}`);
  await expect(page.getByLabel('Code')).toHaveValue(withCode);
  expect(page.url()).toBe(`${origin}/pair`);
  await page.getByLabel('What the others call').fill(name);
  await page.getByRole('button', { name: 'Pair' }).tap();
  await expect(page.getByTestId('open-demo')).toBeVisible();
  const kept = (await context.cookies()).find((one) => one.name === '__Host-mastwright');
  expect(kept).toMatchObject({ secure: true, httpOnly: true, sameSite: 'Strict' });
  return { context, page, cookie: `__Host-mastwright=${kept?.value}` };
}

const goTo = (page: Page, address: string) => page.evaluate((hash) => (location.hash = hash), address);

test('two browsers pair, one sees what the other reads, and a withdrawn one sees nothing more', async ({ browser }) => {
  const laptop = await device(browser, code, 'Laptop');
  // The code was for one device.
  expect((await fetched('/pair', { method: 'POST', headers: JSON_BODY }, JSON.stringify({ code }))).status).toBe(403);
  // The next one stands on the terminal, too: who is not paired yet sees no other.
  const next = await newCode(laptop.cookie);
  await expect.poll(codesOnTerminal).toEqual([code, next.replaceAll('-', '')]);
  const phone = await device(browser, next, 'Phone at the tube');

  // The sensor has to be there before the page is.
  const sensor = await motionSensor(phone.page);
  await phone.page.reload();
  await sensor.lies({ x: 0, y: 9.81, z: 0 });
  for (const { page } of [laptop, phone]) {
    await page.getByTestId('open-demo').tap();
    await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
    await goTo(page, 'build/plumb');
    await expect(page.getByTestId('other-devices')).toBeVisible();
  }
  await phone.page.getByTestId('tell-others').check();
  await phone.page.getByRole('button', { name: 'Read the tube with this phone' }).tap();
  const heard = laptop.page.getByTestId('heard');
  await expect(heard).toContainText('Phone at the tube: Tube, front side');
  await expect(heard.locator('b')).toHaveText(/\d/);
  await expect(heard).toHaveAttribute('data-fresh', 'true');
  // It does not hear itself.
  await expect(phone.page.getByTestId('heard')).toHaveCount(0);

  await goTo(laptop.page, 'devices');
  await expect(laptop.page.getByTestId('devices').getByRole('listitem')).toHaveCount(2);
  await expect(laptop.page.getByTestId('withdrawn')).toHaveCount(0);
  await laptop.page.getByTestId('invite').tap();
  await expect(laptop.page.getByTestId('invitation').getByRole('img')).toHaveJSProperty('complete', true);
  expect(await laptop.page.getByTestId('invitation').getByRole('img').evaluate((image: HTMLImageElement) => image.naturalWidth)).toBeGreaterThan(0);
  // Somebody who guesses uses the code up; the page shows the next one by itself.
  const shown = laptop.page.getByTestId('invitation').locator('.number');
  const first = await shown.innerText();
  for (let guess = 0; guess < 5; guess += 1)
    await fetched('/pair', { method: 'POST', headers: JSON_BODY }, JSON.stringify({ code: `111111111${guess}` }));
  await expect(shown).not.toHaveText(first);
  expect((await shown.innerText()).replaceAll('-', '')).toBe(codesOnTerminal().at(-1));
  await laptop.page.screenshot({ path: 'out/devices.png' });
  // Whoever listened when it was withdrawn hears nothing more either.
  const listening = ended('/live', phone.cookie);
  await laptop.page.getByTestId('withdraw-2').tap();
  await listening;
  await expect(laptop.page.getByTestId('devices').getByRole('listitem')).toHaveCount(1);
  await expect(laptop.page.getByTestId('withdrawn')).toContainText('Phone at the tube');
  for (const [method, path] of CLOSED)
    expect((await fetched(path, { method, headers: { cookie: phone.cookie, ...JSON_BODY } }, method === 'POST' ? '{}' : '')).status, `${method} ${path} withdrawn`).toBe(401);
  await expect(phone.page.getByTestId('other-devices').getByRole('alert')).toContainText('not paired');

  // A gigabyte without a word of its length, from who is paired and who is not: cut off early, and nothing of it is kept in memory.
  const before = mostMemory();
  for (const [path, cookie] of [['/pair', ''], ['/live', laptop.cookie], ['/jobs/laptop-1', ''], ['/jobs/laptop-1', laptop.cookie]] as const) {
    const { status, sent } = await endless(path, cookie);
    expect([0, 401, 413], `${path}: ${status}`).toContain(status);
    expect(sent, path).toBeLessThan(2 ** 28);
  }
  expect(mostMemory() - before).toBeLessThan(300_000);
  // Whose token is good reads no other file of the machine by it either.
  for (const id of ['..%2f..%2fetc%2fpasswd', '..%2fdevices.json', '%00', 'laptop-1%00.json', '%2e%2e', '..%5c..%5cx', 'a'.repeat(5000)]) {
    const { status, body } = await fetched(`/jobs/${id}`, { headers: { cookie: laptop.cookie } });
    expect([400, 404, 414, 431], id).toContain(status);
    expect(body).not.toMatch(/root:|token/);
  }
  await laptop.context.close();
  await phone.context.close();
});

test('a browser that does not know the certificate asks before it goes on', async ({ browser }) => {
  const context = await browser.newContext({ ignoreHTTPSErrors: false, serviceWorkers: 'allow' });
  await expect((await context.newPage()).goto(origin)).rejects.toThrow(/ERR_CERT/);
  await context.close();
});

test('without a token every path but the app’s own files and the page to pair on is refused', async () => {
  for (const path of ['/', '/index.html', '/sw.js', '/manifest.webmanifest', '/pair', '/pair.js', '/pair.css'])
    expect((await fetched(path)).status, path).toBe(200);
  for (const cookie of ['', '__Host-mastwright=', '__Host-mastwright=0123', '__Host-mastwrightx=1; a=b'])
    for (const [method, path] of CLOSED)
      expect((await fetched(path, { method, headers: { cookie, ...JSON_BODY } }, method === 'POST' ? '{}' : '')).status, `${method} ${path}`).toBe(401);
});

test('no path leads out of what was built in, and every answer carries its headers', async () => {
  const paths = ['/..%2f..%2fCargo.toml', '/../../Cargo.toml', '//etc/passwd', '/%00', '/index.html%00.js', '/%2e%2e/%2e%2e/etc/passwd', '/assets/', '/devices/1/../..', '/C:%5Cwindows', `/${'a/'.repeat(2000)}`];
  for (const path of [...paths, '/', '/pair', '/devices']) {
    const { status, body } = await fetched(path);
    if (paths.includes(path)) expect([401, 404, 405], path).toContain(status);
    expect(body, path).not.toContain('root:');
  }
});

test('another site, guesses, markup and too much are refused', async () => {
  const wrongly = (given: object, more: Record<string, string> = {}) =>
    fetched('/pair', { method: 'POST', headers: { ...JSON_BODY, ...more } }, JSON.stringify(given));
  expect((await wrongly({ code: 'x' }, { origin: 'https://elsewhere.example' })).body).toContain('Another site');
  const before = codesOnTerminal().length;
  for (let guess = 0; guess < 6; guess += 1) expect((await wrongly({ code: `000000000${guess}` })).status).toBe(403);
  // After five of them there is another code, and the terminal says so.
  await expect.poll(() => codesOnTerminal().length).toBeGreaterThan(before);
  expect((await wrongly({ code: 'x', also: 1 })).status).toBe(422);
  expect((await fetched('/pair', { method: 'POST', headers: { 'content-type': 'text/plain' } }, '{}')).status).toBe(415);
  // A gigabyte is announced, and none of it is waited for: the answer, or the end of the connection in its place.
  const refused = (more: Record<string, string>, body: string) =>
    fetched('/pair', { method: 'POST', headers: { ...JSON_BODY, ...more } }, body).then(({ status }) => status, () => 'cut off');
  expect([413, 'cut off']).toContain(await refused({ 'content-length': String(2 ** 30) }, '{'));
  expect([413, 'cut off']).toContain(await refused({}, 'x'.repeat(20_000)));
  // One that never comes to its end is given up.
  expect([408, 'cut off']).toContain(await refused({ 'content-length': '900' }, '{'));
  expect((await fetched('/')).status).toBe(200);
});

test('five hundred connections that say nothing keep nobody else out, and are ended', async () => {
  test.setTimeout(90_000);
  const { hostname, port } = new URL(origin);
  const silent = await Promise.all(
    Array.from({ length: 500 }, () => new Promise<TLSSocket>((done, failed) => {
      const socket = connect({ host: hostname, port: Number(port), rejectUnauthorized: false }, () => {
        socket.write('GET / HTTP/1.1\r\nHost: x\r\nX-Slow: ');
        done(socket);
      });
      socket.on('error', failed);
    })),
  );
  expect((await fetched('/')).status).toBe(200);
  const ended = silent.map((socket) => new Promise<void>((done) => (socket.destroyed ? done() : socket.on('close', () => done()))));
  for (const socket of silent) socket.resume();
  await Promise.all(ended);
  expect((await fetched('/')).status).toBe(200);
});
