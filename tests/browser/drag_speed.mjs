// How fast the map follows a finger: drags the yardstick's mast for five seconds on a small phone whose processor is slowed
// four times, and prints the times between frames and between drawings, and our own work in a frame. `cargo xtask bench` runs it; by hand: node drag_speed.mjs ADDRESS [SLOWER]

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

/** Circles the mast with one move of the finger in every frame, while the page notes its frames and every change of the
 * drawing. The finger goes down by touch; its moves are made within the page, because each one that comes through the
 * tools waits until the one before is told to have arrived, which takes longer than a frame. */
async function drag(page, devtools) {
  const box = await page.getByTestId('mast-handle').boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const touch = (type, touchPoints) => devtools.send('Input.dispatchTouchEvent', { type, touchPoints });
  await touch('touchStart', [{ x, y }]);
  const before = await spent(devtools);
  const seen = await page.evaluate(circle, { x, y, ms: SECONDS * 1000 });
  const after = await spent(devtools);
  await touch('touchEnd', []);
  return { ...seen, before, after };
}

/** Runs in the page. */
function circle({ x, y, ms }) {
  const handle = document.querySelector('[data-testid="mast-handle"]');
  const drawing = document.querySelector('[data-testid="place-map"] .painted');
  const seen = { frames: [], drawings: [] };
  const changes = new MutationObserver(() => seen.drawings.push(performance.now()));
  changes.observe(drawing, { attributes: true, subtree: true });
  const begun = performance.now();
  const move = () => {
    const turn = (performance.now() - begun) / 500;
    const to = { clientX: x + 60 * (Math.cos(turn) - 1), clientY: y + 60 * Math.sin(turn) };
    handle.dispatchEvent(new PointerEvent('pointermove', { pointerId: 2, bubbles: true, ...to }));
  };
  // After each frame's own work, as a finger's moves come.
  const between = new MessageChannel();
  between.port2.onmessage = move;
  return new Promise((done) => {
    const frame = (now) => {
      seen.frames.push(now);
      between.port1.postMessage(null);
      if (now - begun < ms) requestAnimationFrame(frame);
      else done(seen);
    };
    requestAnimationFrame(frame);
  });
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
  const stood = frames.slice(1).filter((at, i) => !drawings.some((drawn) => drawn > frames[i] && drawn <= at));
  console.log(`drawings                     ${drawings.length}; frames without a new one ${stood.length}`);
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
