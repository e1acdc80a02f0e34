// A few calls of W3C WebDriver, enough for a journey. https://www.w3.org/TR/webdriver2/
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createServer } from 'node:net';

const PATIENCE_MS = 20_000;
const ELEMENT = 'element-6066-11e4-a52e-4f735466cecf';
const byTestId = (id) => `[data-testid="${id}"]`;

/** Starts the web view's driver; `environment` goes on to the app. */
export async function startDriver(environment) {
  const port = await freePort();
  const driver = spawn('WebKitWebDriver', [`--port=${port}`], {
    stdio: 'ignore',
    // Without the variable the app's web view refuses to be driven and the session never starts.
    env: { ...process.env, ...environment, TAURI_WEBVIEW_AUTOMATION: 'true' },
  });
  const failed = new Promise((_, reject) => driver.once('error', reject));
  failed.catch(() => {});
  const ask = asker(`http://127.0.0.1:${port}`);
  await Promise.race([until('the driver', () => ask('GET', '/status')), failed]);
  return {
    async open(program) {
      const options = { 'webkitgtk:browserOptions': { binary: program, args: [] } };
      const { sessionId } = await ask('POST', '/session', { capabilities: { alwaysMatch: options } });
      return appWindow(ask, `/session/${sessionId}`);
    },
    /** The id of the program that the driver started last. */
    appProcess() {
      const children = readFileSync(`/proc/${driver.pid}/task/${driver.pid}/children`, 'utf8').trim().split(' ');
      return Number(children.at(-1));
    },
    stop: () =>
      new Promise((done) => {
        if (driver.exitCode !== null || driver.signalCode !== null) return done();
        driver.once('exit', done);
        driver.kill();
      }),
  };
}

function appWindow(ask, session) {
  const find = async (css) =>
    (await ask('POST', `${session}/element`, { using: 'css selector', value: css }))[ELEMENT];
  const text = async (id) => ask('GET', `${session}/element/${await find(byTestId(id))}/text`);
  return {
    until,
    attribute: async (css, name) => ask('GET', `${session}/element/${await find(css)}/attribute/${name}`),
    /** The text of an element; null while it is empty. */
    filledText: async (id) => (await text(id)).trim() || null,
    /** Whether there is such an element this very moment. */
    has: async (id) =>
      (await ask('POST', `${session}/elements`, { using: 'css selector', value: byTestId(id) })).length > 0,
    shown: (id) =>
      until(`${id} to be shown`, async () => ask('GET', `${session}/element/${await find(byTestId(id))}/displayed`)),
    click: (id) =>
      until(`${id} to be clicked`, async () => {
        await ask('POST', `${session}/element/${await find(byTestId(id))}/click`, {});
        return true;
      }),
    screenshot: async () => Buffer.from(await ask('GET', `${session}/screenshot`), 'base64'),
    close: () => ask('DELETE', session),
  };
}

function asker(address) {
  return async (method, path, body) => {
    const signal = AbortSignal.timeout(PATIENCE_MS);
    const answer = await fetch(address + path, { method, signal, body: body && JSON.stringify(body) });
    const { value } = await answer.json();
    if (!answer.ok) throw new Error(`${value.error}: ${value.message}`);
    return value;
  };
}

/** Asks again until the answer is truthy; the last error is told when patience ends. */
async function until(what, ask) {
  const end = Date.now() + PATIENCE_MS;
  let trouble = '';
  while (Date.now() < end) {
    try {
      const answer = await ask();
      if (answer) return answer;
    } catch (error) {
      trouble = ` (${error.message})`;
    }
    await new Promise((resume) => setTimeout(resume, 50));
  }
  throw new Error(`waited ${PATIENCE_MS / 1000} s in vain for ${what}${trouble}`);
}

function freePort() {
  return new Promise((done, failed) => {
    const server = createServer();
    server.once('error', failed);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => done(port));
    });
  });
}
