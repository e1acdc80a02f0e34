// How fast the map follows a finger: drags the yardstick's mast for five seconds on a small phone whose processor is slowed
// four times, and prints the times between frames, of our own work in a frame, and of the way from the finger's
// move to the drawn answer. `cargo xtask bench` runs it; by hand: node drag_speed.mjs ADDRESS [SLOWER]

import { withYardstickOnPhone } from './demo_phone.mjs';

const [address = 'http://localhost:4173', slower = '4'] = process.argv.slice(2);
const SECONDS = 5;
/** A frame at 60 Hz, with half a millisecond for the clock's own rounding. */
const FRAME_MS = 16.7 + 0.5;

await withYardstickOnPhone(address, async (page) => {
  await page.getByTestId('mast-handle').waitFor();
  await page.waitForTimeout(1000);
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: Number(slower) });
  print(await drag(page, devtools));
});

/** Circles the mast by touch while the page notes its frames and every change of the drawing. */
async function drag(page, devtools) {
  const box = await page.getByTestId('mast-handle').boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const touch = (type, touchPoints) => devtools.send('Input.dispatchTouchEvent', { type, touchPoints });
  await page.evaluate(() => {
    const seen = { frames: [], drawings: [] };
    window.dragSpeed = seen;
    const drawing = document.querySelector('[data-testid="place-map"] .painted');
    new MutationObserver(() => seen.drawings.push(performance.now())).observe(drawing, {
      attributes: true,
      subtree: true,
    });
    const frame = (now) => {
      seen.frames.push(now);
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  });
  const before = await spent(devtools);
  await touch('touchStart', [{ x, y }]);
  const begun = performance.now();
  for (let t = 0; t < SECONDS * 1000; t = performance.now() - begun) {
    const turn = (t / 1000) * 2;
    await touch('touchMove', [{ x: x + 60 * (Math.cos(turn) - 1), y: y + 60 * Math.sin(turn) }]);
    await new Promise((done) => setTimeout(done, 8));
  }
  const after = await spent(devtools);
  const seen = await page.evaluate(() => window.dragSpeed);
  await touch('touchEnd', []);
  return { ...seen, before, after };
}

/** Seconds the page's main thread has spent so far, by kind. */
async function spent(devtools) {
  await devtools.send('Performance.enable');
  const { metrics } = await devtools.send('Performance.getMetrics');
  return Object.fromEntries(metrics.map(({ name, value }) => [name, value]));
}

function print({ frames, drawings, before, after }) {
  const gaps = steps(frames);
  const late = gaps.filter((gap) => gap > FRAME_MS).length / gaps.length;
  const perFrame = (kind) => ((after[kind] - before[kind]) * 1000) / gaps.length;
  console.log(`dragging the yardstick's mast, 360 × 740, processor slowed ${slower} times, ${gaps.length} frames`);
  row('time between frames', gaps);
  console.log(`share over 16.7 ms           ${(late * 100).toFixed(1)} %`);
  row('time between drawings', steps(drawings));
  console.log(`drawings                     ${drawings.length}`);
  for (const kind of ['TaskDuration', 'ScriptDuration', 'RecalcStyleDuration', 'LayoutDuration']) {
    console.log(`${kind.padEnd(28)} ${perFrame(kind).toFixed(2)} ms a frame`);
  }
}

function row(name, values) {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share) => (sorted[Math.ceil(share * sorted.length) - 1] ?? NaN).toFixed(1);
  console.log(`${name.padEnd(28)} median ${at(0.5)}, 95 % ${at(0.95)}, most ${at(1)} ms`);
}

function steps(times) {
  return times.slice(1).map((time, i) => time - times[i]);
}
