// A job on a small phone, for measuring.

import { fileURLToPath } from 'node:url';
import { chromium } from '@playwright/test';

/** Whatever the demo may become: every figure of the performance page that is to be compared is that of this job. */
const YARDSTICK = fileURLToPath(new URL('../data/yardstick-53a387c.json', import.meta.url));

/** Opens the demo at an address, hands browser and page to the work, and closes the browser after it. */
export const withDemoOnPhone = (address, work) =>
  onPhone(address, (page) => page.getByTestId('open-demo').tap(), work);

/** The same with the yardstick, opened as a file. */
export const withYardstickOnPhone = (address, work) =>
  onPhone(`${address}/#/jobs`, (page) => page.getByTestId('import-file').setInputFiles(YARDSTICK), work);

async function onPhone(address, open, work) {
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
  try {
    const page = await browser.newPage({
      viewport: { width: 360, height: 740 },
      deviceScaleFactor: 3,
      isMobile: true,
      hasTouch: true,
    });
    await page.goto(address);
    await open(page);
    await page.getByTestId('foot-height').waitFor();
    await work(page, browser);
  } finally {
    await browser.close();
  }
}
