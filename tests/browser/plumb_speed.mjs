// How long it takes from an event of the motion sensor until a figure that knows it is painted, while the mast is plumbed
// live in a Chromium slowed four times. Every event counts, also those between two figures. Goal: 100 ms at the 95th
// percentile (issue 13, point 4).
// By hand: node plumb_speed.mjs ADDRESS [SLOWER] [HZ]

import { withDemoOnPhone } from './demo_phone.mjs';

const [address = 'http://localhost:4173', slower = '4', hz = '60'] = process.argv.slice(2);
const SECONDS = 20;

await withDemoOnPhone(address, async (page) => {
  await page.evaluate(() => (location.hash = 'build/plumb'));
  await page.getByTestId('tilt-start').waitFor();
  await feed(page);
  await page.getByTestId('tilt-start').tap();
  await take(page);
  // The phone turned round: the other side of the tube.
  await page.evaluate(() => (window.down_deg = -1.0));
  await take(page);
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: Number(slower) });
  await page.waitForTimeout(22_000); // the window of readings is full by now: the most that is ever judged
  await watch(page);
  await page.waitForTimeout(SECONDS * 1000);
  const waits = await page.evaluate(() => window.waits.sort((a, b) => a - b));
  const at = (part) => waits[Math.min(waits.length - 1, Math.floor(part * waits.length))].toFixed(1);
  console.log(`slowed ${slower} times, ${hz} events a second, ${waits.length} events until painted`);
  console.log(`median ${at(0.5)} ms, 95th percentile ${at(0.95)} ms, longest ${at(1)} ms`);
});

async function take(page) {
  await page.locator('[data-testid=tilt-capture]:not([disabled])').waitFor({ timeout: 30_000 });
  await page.getByTestId('tilt-capture').tap();
}

/** A phone upright on a tube that leans and sways a little. */
async function feed(page) {
  await page.evaluate((rate) => {
    window.down_deg = 1.4;
    window.fed = [];
    let due = performance.now();
    const noise = () => 0.03 * (Math.random() + Math.random() + Math.random() - 1.5);
    const once = () => {
      const angle = ((window.down_deg + 0.2 * Math.sin(performance.now() / 250)) * Math.PI) / 180;
      const felt = { x: noise(), y: 9.81 * Math.cos(angle) + noise(), z: -9.81 * Math.sin(angle) + noise() };
      const event = new DeviceMotionEvent('devicemotion', { accelerationIncludingGravity: felt, interval: 1000 / rate });
      window.fed.push(event.timeStamp);
      dispatchEvent(event);
    };
    setInterval(() => {
      for (; due < performance.now(); due += 1000 / rate) once();
    }, 4);
  }, Number(hz));
}

/** Notes for each event how long after it a figure was painted that knows it. */
async function watch(page) {
  await page.evaluate(() => {
    window.waits = [];
    window.fed.length = 0;
    const live = document.querySelector('[data-testid=plumb-live]');
    const painted = (at) => {
      const now = performance.now();
      while (window.fed.length > 0 && window.fed[0] <= at) window.waits.push(now - window.fed.shift());
    };
    new MutationObserver(() => {
      const at = Number(live.dataset.at);
      // A task after the frame's: by then the frame is drawn.
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => painted(at);
        port2.postMessage(null);
      });
    }).observe(live, { attributes: true, attributeFilter: ['data-at'] });
  });
}
