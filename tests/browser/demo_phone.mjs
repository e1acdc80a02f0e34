// The demo on a small phone, for measuring.

import { chromium } from '@playwright/test';

/** Opens the demo at an address, hands browser and page to the work, and closes the browser after it. */
export async function withDemoOnPhone(address, work) {
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
    await page.getByTestId('open-demo').tap();
    await page.getByTestId('foot-height').waitFor();
    await work(page, browser);
  } finally {
    await browser.close();
  }
}
