import { expect, test } from '@playwright/test';
import { openDemo } from './app';
import { open } from './every_page';

interface Broken {
  directive: string;
  what: string;
}

/** Notes in the page's own words whatever its policy forbids. */
const listening = () => {
  const broken: Broken[] = [];
  Object.assign(window, { broken });
  document.addEventListener('securitypolicyviolation', (event) =>
    broken.push({ directive: event.violatedDirective, what: `${event.blockedURI} ${event.sample}` }),
  );
};

test('the page allows its own files alone, and no page of the app asks for more', async ({ page }) => {
  await page.addInitScript(listening);
  await page.addInitScript(() => (navigator.canShare = () => false));
  const said: string[] = [];
  page.on('console', (message) => {
    if (/Content.Security.Policy/i.test(message.text())) said.push(message.text());
  });
  await openDemo(page);
  // A page of each place; hostile.spec.ts walks all of them under the same eyes.
  for (const address of ['measure/slopes/new', 'parts/guys/0/rope', 'checks/wind', 'build/raising']) await open(page, address);
  await page.getByTestId('tab-build').tap();
  await page.getByTestId('print-map').tap();
  const sheets = page.frameLocator('#print-frame').locator('section > svg');
  await expect(sheets.first()).toContainText('Page 1 of');
  // Styled by the sheet that was made for it: a page each.
  await expect(sheets.first()).toHaveCSS('display', 'block');
  expect(await page.evaluate(() => (window as unknown as { broken: Broken[] }).broken)).toEqual([]);
  expect(said).toEqual([]);
});

test('what is no file of the app neither runs nor is asked for', async ({ page }) => {
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  await page.addInitScript(listening);
  await openDemo(page);
  asked.length = 0;
  const ran = await page.evaluate(async () => {
    const tried: Record<string, boolean> = { script: false, handler: false, text: false, fetch: false, style: false };
    Object.assign(window, { tried });
    const script = document.createElement('script');
    script.textContent = 'window.tried.script = true';
    document.body.append(script);
    const button = document.createElement('div');
    button.innerHTML = '<button onclick="window.tried.handler = true" style="color: rgb(1, 2, 3)">x</button>';
    document.body.append(button);
    const inside = button.querySelector('button')!;
    inside.click();
    tried.style = getComputedStyle(inside).color === 'rgb(1, 2, 3)';
    // Later: while a test's own script runs, Chromium lets texts be compiled.
    await new Promise<void>((done) =>
      setTimeout(() => {
        try {
          tried.text = new Function('return true')() as boolean;
        } catch {
          // As it should be.
        }
        done();
      }),
    );
    await fetch('https://elsewhere.example/', { mode: 'no-cors' }).then(
      () => (tried.fetch = true),
      () => undefined,
    );
    return tried;
  });
  expect(ran).toEqual({ script: false, handler: false, text: false, fetch: false, style: false });
  expect(asked.filter((url) => url.includes('elsewhere'))).toEqual([]);
  const broken = await page.evaluate(() => (window as unknown as { broken: Broken[] }).broken.map((one) => one.directive));
  for (const directive of ['script-src-elem', 'script-src-attr', 'script-src', 'style-src-attr', 'connect-src'])
    expect(broken).toContain(directive);
});
