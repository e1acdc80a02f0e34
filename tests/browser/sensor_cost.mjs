// What the tilt capture costs: feeds a made-up motion sensor to the open capture and prints the share of a core it
// takes, less that of the feed alone: that of the page's own thread with the processor slowed four times, and that of
// the whole process, the engine's worker and the drawing included, multiplied by as much. Times are the processor's,
// not the clock's, so that other work on the machine hardly counts.
// By hand: node sensor_cost.mjs ADDRESS [HZ] [SLOWER]

import { withDemoOnPhone } from './demo_phone.mjs';

const [address = 'http://localhost:4173', hz = '200', slower = '4'] = process.argv.slice(2);
const SECONDS = 10;

await withDemoOnPhone(address, async (page, browser) => {
  await page.evaluate(() => (location.hash = 'measure/slopes/0'));
  await page.getByTestId('tilt-start').waitFor();
  await feed(page);
  const devtools = await page.context().newCDPSession(page);
  const system = await browser.newBrowserCDPSession();
  await devtools.send('Performance.enable', { timeDomain: 'threadTicks' });
  const measured = () => difference(() => spent(page, devtools, system));
  const rounds = [];
  for (const rate of [1, Number(slower)]) {
    await devtools.send('Emulation.setCPUThrottlingRate', { rate });
    const alone = await measured();
    await page.getByTestId('tilt-start').tap();
    await page.waitForTimeout(7000); // the window is full by now: the most that is ever judged
    const listening = await measured();
    await page.getByRole('button', { name: 'Stop' }).tap();
    rounds.push((kind) => (100 * (listening[kind] - alone[kind])) / SECONDS);
    console.log(`slowed ${rate} times: ${listening.events} events in ${SECONDS} s`);
  }
  const [quick, slow] = rounds;
  console.log(`tilt capture at ${hz} Hz, shares of a core slowed ${slower} times`);
  console.log(`page's scripts               ${slow('ScriptDuration').toFixed(2)} %`);
  console.log(`page's thread                ${slow('TaskDuration').toFixed(2)} %`);
  console.log(`whole process                ${(Number(slower) * quick('process')).toFixed(2)} %, ${slower} times ${quick('process').toFixed(2)} %`);
});

/** A phone at rest with a little noise. Rounded readings would be quicker to write down as JSON. */
async function feed(page) {
  await page.evaluate((rate) => {
    window.events = 0;
    let due = performance.now();
    const once = () => {
      const noise = () => 0.03 * (Math.random() + Math.random() + Math.random() - 1.5);
      const accelerationIncludingGravity = { x: noise(), y: 1.04 + noise(), z: 9.75 + noise() };
      dispatchEvent(new DeviceMotionEvent('devicemotion', { accelerationIncludingGravity, interval: 1000 / rate }));
      window.events += 1;
    };
    setInterval(() => {
      for (; due < performance.now(); due += 1000 / rate) once();
    }, 4);
  }, Number(hz));
}

async function difference(now) {
  const before = await now();
  await new Promise((done) => setTimeout(done, SECONDS * 1000));
  const after = await now();
  return Object.fromEntries(Object.entries(after).map(([kind, value]) => [kind, value - before[kind]]));
}

async function spent(page, devtools, system) {
  const { metrics } = await devtools.send('Performance.getMetrics');
  const { processInfo } = await system.send('SystemInfo.getProcessInfo');
  const { ScriptDuration, TaskDuration } = Object.fromEntries(metrics.map(({ name, value }) => [name, value]));
  const renderers = processInfo.filter(({ type }) => type === 'renderer');
  const process = renderers.reduce((sum, { cpuTime }) => sum + cpuTime, 0);
  return { ScriptDuration, TaskDuration, process, events: await page.evaluate(() => window.events) };
}
