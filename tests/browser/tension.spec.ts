import { expect, test, type Page } from '@playwright/test';
import { goTo, openDemo, savedJob } from './app';

const shots = process.env.SHOTS;
const shot = async (page: Page, name: string) => {
  if (shots) await page.screenshot({ path: `${shots}/${name}.png`, fullPage: true });
};

interface Kept {
  tensions: { readings: { guy: string; way: string; hz: number | null; phone_at_m: number | null; taken_at: string }[] };
}

/** Ten seconds of a phone on a rope, handed over at once: a swing of so many a second, noise of a seed. */
const swing = (page: Page, hz: number, loud: number) =>
  page.evaluate(
    ([hz, loud]) => {
      let seed = 7;
      const noise = () => {
        seed = (seed * 16807) % 2147483647;
        return seed / 2147483647 - 0.5;
      };
      for (let i = 0; i <= 605; i++) {
        const moved = loud * Math.sin((2 * Math.PI * hz * i) / 60);
        const event = new Event('devicemotion');
        Object.defineProperty(event, 'timeStamp', { value: 5000 + (i * 1000) / 60 });
        const felt = { x: 0.2 + moved + 0.2 * noise(), y: 9.7 + 0.2 * noise(), z: 0.4 * moved + 0.2 * noise() };
        Object.defineProperty(event, 'accelerationIncludingGravity', { value: felt });
        dispatchEvent(event);
      }
    },
    [hz, loud] as const,
  );

test('a phone on the rope: felt, held against the plan, kept; too noisy says what to do instead', async ({ page }) => {
  await openDemo(page);
  await goTo(page, 'build/tension');
  await expect(page.getByTestId('tension-headline')).toContainText('not known', { timeout: 30_000 });
  await shot(page, 'tension');
  await page.getByRole('link', { name: /Upper guy 1/ }).tap();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Upper guy 1');
  await page.getByTestId('phone-at').fill('12 in');
  await page.getByTestId('feel-begin').tap();
  await expect(page.getByTestId('cancel')).toBeVisible();
  await swing(page, 3.7, 0);
  await expect(page.getByTestId('ring-result')).toContainText('no swing stands out', { timeout: 20_000 });
  await expect(page.getByTestId('ring-result')).toContainText('tap along, or pull the rope aside');
  await expect(page.getByTestId('keep-tension')).toHaveCount(0);
  await shot(page, 'tension-noisy');
  await page.getByTestId('feel-begin').tap();
  await expect(page.getByTestId('cancel')).toBeVisible();
  await swing(page, 4.5, 1.2);
  await expect(page.getByTestId('ring-result')).toContainText('4.50 Hz', { timeout: 20_000 });
  await shot(page, 'tension-felt');
  await page.getByTestId('keep-tension').tap();
  await expect.poll(async () => (await savedJob<Kept>(page))?.tensions.readings.length).toBe(3);
  const kept = (await savedJob<Kept>(page))!.tensions.readings.at(-1);
  expect(kept).toMatchObject({ guy: 'upper-1', way: 'felt' });
  expect(Math.abs(kept!.hz! - 4.5)).toBeLessThan(0.01);
  expect(kept!.taken_at).toMatch(/T.*(Z|[+-]\d\d:\d\d)$/);
  await expect(page.getByTestId('guy-tension')).toBeVisible({ timeout: 20_000 });
  await page.goBack();
  await expect(page.getByTestId('tension-headline')).toContainText('3 of 6');
  await shot(page, 'tension-one');
});

test('without sensors: refused says so, a scale and a watch do', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(DeviceMotionEvent, 'requestPermission', { value: () => Promise.resolve('denied') });
    const denied = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
    Object.defineProperty(navigator.mediaDevices, 'getUserMedia', { value: denied });
  });
  await openDemo(page);
  await goTo(page, 'build/tension/upper-1');
  await page.getByTestId('phone-at').fill('12 in');
  await page.getByTestId('feel-begin').tap();
  await expect(page.getByTestId('feel-rope')).toContainText('did not allow');
  await expect(page.getByTestId('feel-rope')).toContainText('pull it aside with a scale');
  await shot(page, 'tension-refused');
  await page.getByText('Microphone', { exact: false }).first().tap();
  await page.getByTestId('hear-begin').tap();
  await expect(page.getByTestId('hear-rope')).toContainText('did not allow');
  await page.getByText('A scale').first().tap();
  await page.getByTestId('pull').fill('3 lbf');
  await page.getByTestId('aside').fill('6 in');
  await page.getByTestId('pull-use').tap();
  await expect(page.getByTestId('ring-result')).toContainText('lbf', { timeout: 20_000 });
  await shot(page, 'tension-pulled');
  await page.getByText('A watch').first().tap();
  await page.getByTestId('swing-count').fill('20');
  await page.getByTestId('swing-time').fill('4.3');
  await page.getByTestId('swing-use').tap();
  await expect(page.getByTestId('ring-result')).toContainText('Too quick to count', { timeout: 20_000 });
  await page.getByText('Tap along').first().tap();
  // Twenty swings in fourteen seconds, each tap some milliseconds early or late: 20 / 14.0 s.
  await page.getByTestId('tap-pad').evaluate((pad) => {
    for (let i = 0; i <= 20; i++) {
      const event = new PointerEvent('pointerdown', { bubbles: true });
      Object.defineProperty(event, 'timeStamp', { value: 1000 + 700 * i + 12 * ((i * 7) % 5) - 24 });
      pad.dispatchEvent(event);
    }
  });
  await expect(page.getByTestId('ring-result')).toContainText(/1\.4\d* Hz/, { timeout: 20_000 });
  await expect(page.getByTestId('ring-result')).toContainText('±');
  await shot(page, 'tension-tapped');
});

test('a plucked rope is heard: the note of the microphone, and no note where it is quiet', async ({ page }) => {
  await page.addInitScript(() => {
    const scope = window as unknown as { hz: number };
    scope.hz = 0;
    navigator.mediaDevices.getUserMedia = async () => {
      const context = new AudioContext();
      const into = context.createMediaStreamDestination();
      const note = context.createOscillator();
      const loud = context.createGain();
      note.frequency.value = scope.hz || 1;
      loud.gain.value = scope.hz > 0 ? 0.3 : 0;
      note.connect(loud).connect(into);
      note.start();
      return into.stream;
    };
  });
  await openDemo(page);
  await goTo(page, 'build/tension/upper-1');
  await page.getByText('Microphone', { exact: false }).first().tap();
  await page.getByTestId('hear-begin').tap();
  await expect(page.getByTestId('ring-result')).toContainText('no swing stands out', { timeout: 20_000 });
  await expect(page.getByTestId('keep-tension')).toHaveCount(0);
  await page.evaluate(() => ((window as unknown as { hz: number }).hz = 31));
  await page.getByTestId('hear-begin').tap();
  await expect(page.getByTestId('ring-result')).toContainText(/31\.\d+ Hz/, { timeout: 20_000 });
  await shot(page, 'tension-heard');
});
