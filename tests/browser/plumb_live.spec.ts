import { expect, test, type Page } from '@playwright/test';
import { goTo, openDemo } from './app';
import { feed, STEADY } from './phone';
import { ServedProgram } from './served_program';
import { fakeVoice } from './voice';

const shots = process.env.SHOTS;
const shot = async (page: Page, name: string) => {
  if (shots) await page.screenshot({ path: `${shots}/${name}.png`, fullPage: true });
};

interface Noted {
  said: string[];
  pitches: number[];
  shakes: number;
}

/** A voice, a tone and a motor that note what they are asked. */
async function fakes(page: Page): Promise<void> {
  await fakeVoice(page);
  await page.addInitScript(() => {
    const page = window as unknown as { noted: object };
    const noted = Object.assign(page.noted, { pitches: [] as number[], shakes: 0 });
    class Tone {
      currentTime = 0;
      destination = {};
      createOscillator() {
        const frequency = { setTargetAtTime: (hz: number) => noted.pitches.push(hz) };
        return { frequency, connect: (to: unknown) => to, start: () => undefined, stop: () => undefined };
      }
      createGain() {
        return { gain: { value: 0, setTargetAtTime: () => undefined }, connect: (to: unknown) => to };
      }
      close() {
        return Promise.resolve();
      }
    }
    Object.defineProperty(window, 'AudioContext', { value: Tone });
    const vibrate = (pattern: unknown) => {
      if (Array.isArray(pattern)) noted.shakes += 1;
      return true;
    };
    Object.defineProperty(navigator, 'vibrate', { value: vibrate });
  });
}

const noted = (page: Page) => page.evaluate(() => (window as unknown as { noted: Noted }).noted);

/** The tube leans by so much towards the front leg; the phone is 0.5° off outwards. */
const front = (lean: number) => ({ upright: { screen_down_deg: lean + 0.5, right_down_deg: 0 } });
const back = (lean: number) => ({ upright: { screen_down_deg: 0.5 - lean, right_down_deg: 0 } });

async function take(page: Page): Promise<void> {
  await expect(page.getByTestId('tilt-capture')).toBeEnabled({ timeout: 20_000 });
  await page.getByTestId('tilt-capture').tap();
}

test('live: nothing to move before the phone is turned round; then guy, tone, voice and vibration follow', async ({ page }) => {
  await fakes(page);
  await openDemo(page);
  await goTo(page, 'build/plumb');
  await feed(page, STEADY, front(2));
  await page.getByTestId('tilt-start').tap();
  await expect(page.getByTestId('plumb-says')).toContainText('own error is not known yet', { timeout: 20_000 });
  await expect(page.getByTestId('plumb-first')).toHaveCount(0);
  await shot(page, 'plumb-one-side');
  await take(page);
  await feed(page, STEADY, back(2));
  await take(page);
  await feed(page, STEADY, front(2));
  await page.locator('label', { hasText: 'Front' }).tap();
  await expect(page.getByTestId('plumb-first')).toContainText(/take in|let out/, { timeout: 20_000 });
  await expect(page.getByTestId('plumb-first')).toContainText('guy');
  await page.getByText('All that moves it').tap();
  await expect(page.getByTestId('plumb-blocks').locator('li').first()).toContainText(/front raise it by .*±/);
  await page.getByRole('button', { name: 'Tone' }).tap();
  await page.getByRole('button', { name: 'Voice' }).tap();
  await expect.poll(async () => (await noted(page)).said.at(-1) ?? '').toMatch(/Lean .* guy .*: (take in|let out)/);
  await expect.poll(async () => (await noted(page)).pitches.at(-1) ?? 0).toBeGreaterThan(220);
  const low = (await noted(page)).pitches.at(-1)!;
  await shot(page, 'plumb-live');
  // Somebody takes the guy in.
  await feed(page, STEADY, front(0.1));
  await expect.poll(async () => (await noted(page)).pitches.at(-1)!, { timeout: 20_000 }).toBeGreaterThan(low + 300);
  await expect.poll(async () => (await noted(page)).shakes, { timeout: 20_000 }).toBeGreaterThan(0);
  await expect(page.getByTestId('plumb-first')).toHaveCount(0);
  await shot(page, 'plumb-near');
});

test('without a sensor, refused, or swaying too much: said, with the way by a plumb line', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(DeviceMotionEvent, 'requestPermission', { value: () => Promise.resolve('denied'), configurable: true });
  });
  await openDemo(page);
  await goTo(page, 'build/plumb');
  await page.getByTestId('tilt-start').tap();
  await expect(page.locator('main')).toContainText('did not allow');
  await expect(page.locator('main')).toContainText(/hang a plumb line beside the tube/i);
  await page.evaluate(() => Object.defineProperty(DeviceMotionEvent, 'requestPermission', { value: () => Promise.resolve('granted') }));
  await feed(page, { ...STEADY, shake_deg: 0 }, front(2));
  await page.evaluate(() => clearInterval((window as unknown as { feed?: number }).feed));
  // A gust: two degrees to either side, slowly.
  await page.evaluate(() => {
    const begun = performance.now();
    (window as unknown as { feed: number }).feed = window.setInterval(() => {
      const lean = (2 * Math.PI) / 180 * Math.sin((2 * Math.PI * (performance.now() - begun)) / 3000);
      const accelerationIncludingGravity = { x: 0, y: 9.81 * Math.cos(lean), z: -9.81 * Math.sin(lean) };
      dispatchEvent(new DeviceMotionEvent('devicemotion', { accelerationIncludingGravity, interval: 16 }));
    }, 16);
  });
  await page.getByRole('button', { name: 'Ask again' }).tap();
  await expect(page.getByTestId('plumb-says')).toContainText(/sways too much/, { timeout: 20_000 });
  await expect(page.getByTestId('plumb-first')).toHaveCount(0);
  await shot(page, 'plumb-sways');
});

test('who holds the guy sees on another device what to do with it, and when it is enough', async ({ browser }) => {
  test.setTimeout(120_000);
  const served = await ServedProgram.start();
  try {
    const holder = (await served.pair(browser, 'At the guy')).page;
    const tube = (await served.pair(browser, 'At the tube')).page;
    for (const page of [holder, tube]) {
      await page.getByTestId('open-demo').tap();
      await expect(page.getByTestId('foot-height')).toHaveText(/\d/);
      await goTo(page, 'build/plumb');
      await expect(page.getByTestId('other-devices')).toBeVisible();
    }
    await tube.getByTestId('tell-others').check();
    await feed(tube, STEADY, front(2));
    await tube.getByTestId('tilt-start').tap();
    const heard = holder.getByTestId('heard');
    // One side alone tells a lean, and no guy to touch yet.
    await expect(heard).toContainText('At the tube', { timeout: 20_000 });
    await expect(heard).not.toContainText(/take in|let out/);
    await take(tube);
    await feed(tube, STEADY, back(2));
    await take(tube);
    await feed(tube, STEADY, front(2));
    await tube.locator('label', { hasText: 'Front' }).tap();
    await expect(tube.getByTestId('plumb-first')).toContainText('guy', { timeout: 20_000 });
    await expect(heard).toContainText(/guy \d.*(take in|let out)/is, { timeout: 20_000 });
    await expect(heard).toHaveAttribute('data-fresh', 'true');
    await shot(holder, 'plumb-holder');
    // The same guy and the same length as on the phone at the tube.
    const name = (await tube.getByTestId('plumb-first').locator('b').first().innerText()).trim();
    await expect(heard).toContainText(name);
    await feed(tube, STEADY, front(0.1));
    await expect(tube.getByTestId('plumb-first')).toHaveCount(0, { timeout: 20_000 });
    await expect(heard).not.toContainText(/take in|let out/, { timeout: 20_000 });
  } finally {
    served.stop();
  }
});
