import { defineConfig } from '@playwright/test';

// `cargo xtask test` serves ui/dist and tells the address; on its own this starts the same server.
const address = process.env.MASTWRIGHT_URL;
const port = 4173;

export default defineConfig({
  testDir: '.',
  testMatch: '*.spec.ts',
  outputDir: 'out',
  // They wait more than they work: two at once take two thirds of the time. What came late with two was a server that left
  // connections unanswered (7d25753).
  workers: 2,
  timeout: 60_000,
  expect: { timeout: 10_000 },
  forbidOnly: true,
  // A busy machine is late now and then: what passes the second time is listed as flaky. Not where an entry could be lost
  // (killed.spec.ts, saves.spec.ts): there the first time counts.
  retries: 1,
  reporter: 'list',
  use: {
    baseURL: address ?? `http://localhost:${port}`,
    browserName: 'chromium',
    // A small phone, held in one hand.
    viewport: { width: 360, height: 740 },
    // Nothing that is tested hangs on how many dots a pixel has; to be looked at, pictures are as sharp as a phone's.
    deviceScaleFactor: process.env.SHOTS ? 3 : 1,
    isMobile: true,
    hasTouch: true,
    // Every test begins as a first visit; what is kept for use without a signal has tests of its own (offline.spec.ts).
    serviceWorkers: 'block',
    screenshot: 'only-on-failure',
    launchOptions: {
      executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
      args: [
        '--no-sandbox',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
        '--no-first-run',
      ],
    },
  },
  // Everything on a phone; what is marked, at a desk as well.
  projects: [
    { name: 'phone' },
    {
      name: 'desk',
      grep: /@desk/,
      use: { viewport: { width: 1280, height: 800 }, deviceScaleFactor: 1, isMobile: false },
    },
  ],
  webServer: address
    ? undefined
    : { command: `cargo xtask serve --port ${port}`, cwd: '../..', url: `http://localhost:${port}` },
});
