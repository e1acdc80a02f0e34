// How long it takes from the tap that looks for places until the first coarse picture of them is painted, in the yard of the
// yardstick. The engine's module is there already, as it is for somebody who has opened another page before. Goal: 100 ms (issue 11).
// By hand: node siting_speed.mjs ADDRESS

import { withYardstickOnPhone } from './demo_phone.mjs';

const [address = 'http://localhost:4173'] = process.argv.slice(2);
const TIMES = 9;

await withYardstickOnPhone(address, async (page) => {
  const waits = [];
  for (let time = 0; time <= TIMES; time += 1) {
    await page.evaluate(() => (location.hash = 'checks/places'));
    await page.getByTestId('look-for-places').waitFor();
    await page.waitForTimeout(500);
    const wait = await page.evaluate(
      () =>
        new Promise((done) => {
          const begun = performance.now();
          const shown = () => document.querySelector('[data-testid="places-picture"]');
          const watch = new MutationObserver(() => {
            if (!shown()) return;
            watch.disconnect();
            // Painted after the next frame.
            requestAnimationFrame(() => setTimeout(() => done(performance.now() - begun)));
          });
          watch.observe(document.body, { childList: true, subtree: true });
          document.querySelector('[data-testid="look-for-places"]').click();
        }),
    );
    // The first one loads the module.
    if (time > 0) waits.push(wait);
    await page.evaluate(() => (location.hash = 'map'));
    await page.reload();
    await page.getByTestId('foot-height').waitFor();
    await page.evaluate(() => (location.hash = 'checks/wind'));
    await page.waitForTimeout(3000);
  }
  waits.sort((a, b) => a - b);
  console.log(`first coarse picture after the tap: median ${waits[TIMES >> 1].toFixed(1)} ms, longest ${waits[TIMES - 1].toFixed(1)} ms`);
});
