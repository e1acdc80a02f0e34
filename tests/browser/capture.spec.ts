import { expect, test, type Page } from '@playwright/test';
import { openDemo, savedJob } from './app';
import { feed, feedCompass, STEADY, type Phone, type Pose } from './phone';

const GOOD: [string, Phone][] = [
  ['20 Hz', { rate_hz: 20, noise: 0.03, step: 0.01 }],
  ['200 Hz', { rate_hz: 200, noise: 0.03, step: 0.01 }],
  ['200 Hz, noisy', { rate_hz: 200, noise: 0.08, step: 0.01 }],
  ['60 Hz, rounded to 0.1 m/s²', { rate_hz: 60, noise: 0.03, step: 0.1 }],
  ['20 Hz, rounded to 0.1 m/s²', { rate_hz: 20, noise: 0.05, step: 0.1 }],
];

/** A phone whose zero is 0.4° off: it adds that to what its long edge shows, whichever way it lies. */
const ZERO_DEG = 0.4;

test.describe('slope', () => {
  for (const [name, phone] of GOOD) {
    test(`${name}: a reversal pair finds 6.3° and the zero error of 0.4°, both within their uncertainty`, async ({
      page,
    }) => {
      await openSlope(page);
      await feed(page, phone, { long_deg: 6.3 + ZERO_DEG });
      await page.getByTestId('tilt-start').tap();
      await take(page);
      const rough = await taken(page);
      expect(Math.abs(rough.value - 6.3)).toBeLessThan(rough.half);
      expect(rough.half).toBeGreaterThan(1.9); // nobody knows its zero yet
      await expect(page.getByTestId('tilt')).toContainText('zero error');

      await feed(page, phone, { long_deg: -6.3 + ZERO_DEG });
      await page.getByTestId('tilt-turn').tap();
      await take(page);
      const pair = await taken(page);
      expect(Math.abs(pair.value - 6.3)).toBeLessThan(pair.half);
      expect(Math.abs(pair.value - 6.3)).toBeLessThan(0.3);
      expect(pair.half).toBeLessThan(0.7);
      const said = /own error, (−?[\d.]+)°/.exec(await page.getByTestId('tilt').innerText())?.[1];
      expect(Math.abs(Number(said?.replace('−', '-')) - ZERO_DEG)).toBeLessThanOrEqual(0.25);
      const sigma = await number(page.getByRole('textbox', { name: 'Give or take' }).inputValue());
      expect(Math.abs(2 * sigma - pair.half)).toBeLessThanOrEqual(0.12);
    });
  }

  test('the zero error found once corrects the next reading, and is shown with its date', async ({ page }) => {
    await openSlope(page);
    await pair(page, STEADY, 2, ZERO_DEG);
    await page.getByTestId('tilt-again').tap();
    await feed(page, STEADY, { long_deg: -4.5 + ZERO_DEG });
    await take(page);
    const next = await taken(page);
    expect(Math.abs(next.value + 4.5)).toBeLessThan(0.15);
    expect(next.half).toBeLessThan(0.8);
    await expect(page.getByTestId('tilt')).not.toContainText('not known yet');
    await page.evaluate(() => (location.hash = 'measure/instruments'));
    await expect(page.getByTestId('zeros')).toContainText('on its back');
  });

  test('an old zero error and one that has changed are said', async ({ page }) => {
    await openSlope(page);
    await pair(page, STEADY, 2, ZERO_DEG);
    await page.evaluate(() => {
      const zeros = JSON.parse(localStorage.getItem('mastwright:zeros') ?? '[]') as { found_at_ms: number }[];
      const old = zeros.map((zero) => ({ ...zero, found_at_ms: zero.found_at_ms - 40 * 86_400_000 }));
      localStorage.setItem('mastwright:zeros', JSON.stringify(old));
    });
    await page.getByTestId('tilt-again').tap();
    await feed(page, STEADY, { long_deg: 2 + 3 * ZERO_DEG });
    await take(page);
    await expect(page.getByTestId('tilt')).toContainText('more than a month ago');
    await feed(page, STEADY, { long_deg: -2 + 3 * ZERO_DEG });
    await page.getByTestId('tilt-turn').tap();
    await take(page);
    await expect(page.getByTestId('tilt')).toContainText('has changed by more than its uncertainty');
  });

  for (const [name, phone] of [
    ['a hand that shakes', { ...STEADY, shake_deg: 3 }],
    ['a phone that slowly tips over', { ...STEADY, drift_deg_per_s: 1 }],
  ] as [string, Phone][]) {
    test(`${name} gives no reading`, async ({ page }) => {
      await openSlope(page);
      await feed(page, phone, { long_deg: 5 });
      await page.getByTestId('tilt-start').tap();
      await expect(page.getByTestId('tilt-live')).toHaveText(/\d/);
      for (let i = 0; i < 25; i += 1) {
        await expect(page.getByTestId('tilt-capture')).toBeDisabled();
        await page.waitForTimeout(200);
      }
    });
  }

  test('a phone on its long edge, and one turned over between, are told apart', async ({ page }) => {
    await openSlope(page);
    await feed(page, STEADY, { long_deg: 3 });
    await page.getByTestId('tilt-start').tap();
    await take(page);
    await feed(page, STEADY, { upright: { screen_down_deg: 0, right_down_deg: 0 } });
    await page.getByTestId('tilt-turn').tap();
    await take(page);
    await expect(page.getByTestId('tilt').getByRole('alert')).toContainText('another side');
  });

  test('with an axis missing the screen says so and gives no number', async ({ page }) => {
    await openSlope(page);
    await feed(page, { ...STEADY, axes: ['x', 'y'] }, { long_deg: 5 });
    await page.getByTestId('tilt-start').tap();
    await expect(page.getByTestId('tilt')).toContainText('does not report all three axes');
    await expect(page.getByTestId('tilt-live')).toHaveText('–');
    await expect(page.getByTestId('tilt-capture')).toBeDisabled();
  });

  test('the orientation stands in where the motion sensor lacks an axis', async ({ page }) => {
    await openSlope(page);
    await feed(page, { ...STEADY, axes: ['x', 'y'], orientation: true }, { long_deg: 5.2, short_deg: 2 });
    await page.getByTestId('tilt-start').tap();
    await take(page);
    expect(Math.abs((await taken(page)).value - 5.2)).toBeLessThan(0.06);
  });

  test('a turned screen changes no reading, and where the top is stays shown', async ({ page }) => {
    const browser = await page.context().newCDPSession(page);
    await openSlope(page);
    await browser.send('Emulation.setDeviceMetricsOverride', {
      width: 740,
      height: 360,
      deviceScaleFactor: 3,
      mobile: true,
      screenOrientation: { type: 'landscapePrimary', angle: 90 },
    });
    await feed(page, STEADY, { long_deg: 6.3 });
    await page.getByTestId('tilt-start').tap();
    await expect(page.getByTestId('tilt')).toContainText('The picture has turned');
    await take(page);
    expect(Math.abs((await taken(page)).value - 6.3)).toBeLessThan(0.1);
  });
});

test.describe('leave to read the sensor', () => {
  test('is asked on the tap; refused and then given, it works', async ({ page }) => {
    await page.addInitScript(() => {
      let asked = 0;
      Object.assign(DeviceMotionEvent, {
        requestPermission: async () => (++asked === 1 ? 'denied' : 'granted'),
      });
    });
    await openSlope(page);
    await feed(page, STEADY, { long_deg: 4 });
    await page.getByTestId('tilt-start').tap();
    await expect(page.getByTestId('tilt')).toContainText('did not allow the sensor');
    await page.getByRole('button', { name: 'Ask again' }).tap();
    await take(page);
    expect(Math.abs((await taken(page)).value - 4)).toBeLessThan(0.1);
  });

  test('a page without https says what is wrong', async ({ page }) => {
    await page.addInitScript(() =>
      Object.defineProperty(window, 'isSecureContext', { value: false, configurable: true }),
    );
    await openSlope(page);
    await page.getByTestId('tilt-start').tap();
    await expect(page.getByTestId('tilt')).toContainText('https');
    await expect(page.getByTestId('tilt')).toContainText('type the slope');
  });
});

test.describe('on an iPhone', () => {
  test.use({
    userAgent: 'Mozilla/5.0 (iPhone; CPU iPhone OS 17_5 like Mac OS X) AppleWebKit/605.1.15 Safari/604.1',
  });

  test('gravity that points down is read the right way round', async ({ page }) => {
    await openSlope(page);
    await feed(page, { ...STEADY, down: true }, { long_deg: 6.3 });
    await page.getByTestId('tilt-start').tap();
    await take(page);
    expect(Math.abs((await taken(page)).value - 6.3)).toBeLessThan(0.1);
  });
});

test('one flat reading with a heading becomes two slope readings', async ({ page }) => {
  await openDemo(page);
  await page.evaluate(() => (location.hash = 'measure/slopes/flat'));
  await enter(page, page.getByRole('textbox').first(), '30');
  await feed(page, STEADY, { long_deg: 6, short_deg: -3 });
  await page.getByTestId('tilt-start').tap();
  await take(page);
  // By hand: the slope's tangent² is that of 6° and of 3° across, nearly: 6.70°; water runs to 30 + 180 − 26.6°.
  await expect(page.getByTestId('flat-result')).toContainText('6.7°');
  await expect(page.getByTestId('flat-result')).toContainText(/18[0-9]\.|17[0-9]\.|183/);
  const before = (await slopes(page)).length;
  await page.getByTestId('flat-keep').tap();
  await expect.poll(async () => (await slopes(page)).length).toBe(before + 2);
  const [along, across] = (await slopes(page)).slice(-2);
  expect(along?.bearing_deg).toBe(30);
  expect(Math.abs((along?.slope_deg ?? 0) - 6)).toBeLessThan(0.1);
  expect(Math.abs((across?.slope_deg ?? 0) + 3)).toBeLessThan(0.1);
  expect(Math.abs((across?.bearing_deg ?? 0) - 120)).toBeLessThan(0.6);
  expect(along?.sigma_deg).toBeGreaterThan(0.9);
});

test.describe('bearing', () => {
  test('three sights are averaged and stored as the yard reads its bearings', async ({ page }) => {
    await openBearing(page);
    for (const heading of [74.2, 75, 75.8]) await sight(page, heading);
    await expect(page.getByTestId('bearing-result')).toContainText('3 sights');
    const found = await bearing(page);
    expect(Math.abs(found.value - 75)).toBeLessThan(1);
    expect(found.half).toBeGreaterThan(3.9);
    await page.getByTestId('bearing-use').tap();
    const field = page.getByRole('textbox', { name: 'Compass bearing' }).first();
    expect(Math.abs((await number(field.inputValue())) - found.value)).toBeLessThan(0.06);
  });

  test('a sight back that disagrees is named', async ({ page }) => {
    await openBearing(page);
    await sight(page, 75);
    await page.getByText('Back', { exact: true }).tap();
    await sight(page, 275); // 20° from the 255° that it should be
    await expect(page.getByTestId('bearing-sheet')).toContainText('do not fit each other');
    await expect(page.getByTestId('bearing-sheet')).toContainText('known line would be better');
    expect((await bearing(page)).half).toBeGreaterThan(20);
  });

  test('what pulls the needle falls out against a known line', async ({ page }) => {
    await openBearing(page);
    const byLine = async (pull: number) => {
      await sight(page, 75 + pull);
      await page.getByText('Known line', { exact: true }).tap();
      await page.getByLabel('Looking from mark').selectOption({ index: 1 });
      await page.getByLabel('to mark', { exact: true }).selectOption({ index: 2 });
      await sight(page, 40 + pull);
      await expect(page.getByTestId('bearing-result')).toContainText('Turned from the known line');
      return bearing(page);
    };
    const calm = await byLine(0);
    await page.getByRole('button', { name: 'Start anew' }).tap();
    const pulled = await byLine(20);
    expect(Math.abs(pulled.value - calm.value)).toBeLessThan(0.6);
    expect(pulled.half).toBeLessThan(8);
  });

  test('a phone that still turns gives no sight', async ({ page }) => {
    await openBearing(page);
    await page.evaluate(() => {
      clearInterval((window as unknown as { compass?: number }).compass);
      let heading = 0;
      setInterval(() => {
        heading += 1.5;
        const alpha = 360 - (heading % 360);
        dispatchEvent(
          new DeviceOrientationEvent('deviceorientationabsolute', { absolute: true, alpha, beta: 0, gamma: 0 }),
        );
      }, 33);
    });
    await expect(page.getByTestId('bearing-take')).toBeEnabled();
    await page.waitForTimeout(1700);
    await page.getByTestId('bearing-take').tap();
    await expect(page.getByTestId('bearing-sheet').getByRole('alert')).toContainText('still turning');
  });

  test('without a compass the screen says so', async ({ page }) => {
    await openDemo(page);
    await page.evaluate(() => (location.hash = 'measure/slopes/0'));
    await page.getByTestId('bearing-open').tap();
    await page.getByTestId('bearing-start').tap();
    await expect(page.getByTestId('bearing-sheet')).toContainText('no compass to be had');
  });
});

test.describe('height', () => {
  test('one angle and a tape: the textbook, into the field', async ({ page }) => {
    await openHeight(page);
    // 1.5 + 15·tan 40° = 14.086 m = 46.2 ft.
    await fill(page, { 'Up to the top': '40', 'Tape along': '15 m', 'Height of the phone': '1.5 m' });
    await expect(page.getByTestId('height-result')).toContainText(`46' 3"`);
    await page.getByTestId('height-use').tap();
    await expect(page.getByTestId('height-sheet')).toBeHidden();
    await expect.poll(async () => (await savedJob<Saved>(page))?.yard.obstacles[0]?.shape.height_m).toBeCloseTo(14.09, 2);
  });

  test('two angles from a sensor, on sloping ground', async ({ page }) => {
    await openHeight(page);
    await page.getByText('Two angles').tap();
    await feed(page, STEADY, { long_deg: 35 });
    await page.getByRole('button', { name: 'Near: up to the top: read it' }).tap();
    await page.getByTestId('tilt-capture').tap({ timeout: 15_000 });
    await fill(page, {
      'Near: to its foot': '-5',
      'Far: up to the top': '25',
      'Tape between': '10 m',
      'Height of the phone': '1.5 m',
      Slope: '0',
    });
    // By hand (tests beside the engine): 15.704 m = 51.5 ft; and nobody knows it to a foot.
    const said = await page.getByTestId('height-result').innerText();
    const feet = Number(/(\d+)'\s(\d+)/.exec(said)?.[1]) + Number(/(\d+)'\s(\d+)/.exec(said)?.[2]) / 12;
    expect(Math.abs(feet - 51.52)).toBeLessThan(0.6);
    await expect(page.getByTestId('height-sheet')).toContainText('This is rough');
  });

  test('sights that do not meet are refused in words', async ({ page }) => {
    await openHeight(page);
    await page.getByText('Two angles').tap();
    await fill(page, {
      'Near: up to the top': '20',
      'Near: to its foot': '-5',
      'Far: up to the top': '35',
      'Tape between': '10 m',
      'Height of the phone': '1.5 m',
    });
    await expect(page.getByTestId('height-sheet').getByRole('alert')).toContainText('do not meet');
  });

  test('a wire asks for distance before anything else, and its lowest point counts for all of it', async ({
    page,
  }) => {
    await openDemo(page);
    await page.evaluate(() => (location.hash = 'measure/wires/0'));
    await page.getByRole('button', { name: 'Measure its lowest point over the work' }).tap();
    await expect(page.getByTestId('height-sheet')).toContainText('Never touch a wire');
    await fill(page, {
      'Up to the lowest wire': '30',
      'Tape along': '8 m',
      'Height of the phone': '1.5 m',
    });
    await page.getByTestId('height-use').tap();
    // 1.5 + 8·tan 30° = 6.12 m.
    await expect
      .poll(async () => (await savedJob<Saved>(page))?.yard.overhead_lines[0]?.supports.map((s) => s.wire_height_m))
      .toEqual(expect.arrayContaining([6.12]));
    const line = (await savedJob<Saved>(page))?.yard.overhead_lines[0];
    expect(line?.supports.every((s) => s.wire_height_m === 6.12)).toBe(true);
    expect(line?.sag_m).toBe(0);
    expect(line?.height_sigma_m).toBeGreaterThan(0.05);
  });

  test('a level line gives a spot height with its sigma', async ({ page }) => {
    await openDemo(page);
    await page.evaluate(() => (location.hash = 'measure/heights/0'));
    await page.getByTestId('height-open').tap();
    await fill(page, {
      'Up to the level line': '0.4 m',
      'Up to it at the new': '1.25 m',
      'Length of the line': '8 m',
    });
    await page.getByTestId('height-use').tap();
    await expect.poll(async () => (await savedJob<Saved>(page))?.yard.spot_heights[0]?.height_m).toBe(-0.85);
    expect((await savedJob<Saved>(page))?.yard.spot_heights[0]?.sigma_m).toBe(0.004);
  });
});

test('four sides of the tube give its lean and what to move', async ({ page }) => {
  await openDemo(page);
  await page.evaluate(() => (location.hash = 'build/plumb'));
  // A lean of 1.0° towards the front leg (225°), on a phone 0.3° and −0.2° off outwards and sideways.
  const sides = [
    { screen_down_deg: 1.3, right_down_deg: -0.2 },
    { screen_down_deg: 0.3, right_down_deg: 0.8 },
    { screen_down_deg: -0.7, right_down_deg: -0.2 },
    { screen_down_deg: 0.3, right_down_deg: -1.2 },
  ];
  await feed(page, STEADY, { upright: sides[0] });
  await page.getByTestId('tilt-start').tap();
  // After the front the back: the phone is turned round first.
  for (const upright of [0, 2, 1, 3].map((side) => sides[side]!)) {
    await feed(page, STEADY, { upright });
    await page.waitForTimeout(700);
    await take(page);
  }
  const result = page.getByTestId('plumb-result');
  await expect(result).toContainText('The tube leans');
  const [, lean, half] = /Lean ([\d.]+)° ± ([\d.]+)°/.exec(await result.innerText()) ?? [];
  expect(Math.abs(Number(lean) - 1)).toBeLessThan(0.11);
  expect(Number(half)).toBeLessThan(0.4);
  await expect(result).toContainText('to the south-west');
  await expect(result).toContainText('take in');
  await expect(result).toContainText('let out');
  await expect(result).toContainText('nobody under the mast');
});

async function openSlope(page: Page): Promise<void> {
  await openDemo(page);
  await page.evaluate(() => (location.hash = 'measure/slopes/0'));
  await expect(page.getByTestId('tilt-start')).toBeVisible();
}

async function pair(page: Page, phone: Phone, slope_deg: number, zero_deg: number): Promise<void> {
  await feed(page, phone, { long_deg: slope_deg + zero_deg } satisfies Pose);
  await page.getByTestId('tilt-start').tap();
  await take(page);
  await feed(page, phone, { long_deg: -slope_deg + zero_deg });
  await page.getByTestId('tilt-turn').tap();
  await take(page);
  await expect(page.getByTestId('tilt')).toContainText('own error');
}

async function take(page: Page): Promise<void> {
  await expect(page.getByTestId('tilt-capture')).toBeEnabled({ timeout: 20_000 });
  await page.getByTestId('tilt-capture').tap();
}

/** What was taken, with the half-width of its interval. */
async function taken(page: Page): Promise<{ value: number; half: number }> {
  await expect(page.getByTestId('tilt')).toContainText('Taken:');
  return interval(await page.getByTestId('tilt').innerText());
}

const bearing = async (page: Page) => interval(await page.getByTestId('bearing-result').innerText());

function interval(text: string): { value: number; half: number } {
  const [, value, half] = /(−?[\d.]+)° ± ([\d.]+)°/.exec(text) ?? [];
  return { value: Number(value?.replace('−', '-')), half: Number(half) };
}

async function number(text: Promise<string>): Promise<number> {
  return Number.parseFloat((await text).replace('−', '-'));
}

async function openBearing(page: Page): Promise<void> {
  await openDemo(page);
  await page.evaluate(() => (location.hash = 'measure/slopes/0'));
  await page.getByTestId('bearing-open').tap();
  await feedCompass(page, 75);
  await page.getByTestId('bearing-start').tap();
}

async function sight(page: Page, heading: number): Promise<void> {
  await feedCompass(page, heading);
  await page.waitForTimeout(1700); // what was heard before the turn is out of the aim
  await page.getByTestId('bearing-take').tap();
  await expect(page.getByTestId('bearing-result')).toBeVisible();
}

async function openHeight(page: Page): Promise<void> {
  await openDemo(page);
  await page.evaluate(() => (location.hash = 'measure/things/0'));
  await page.getByTestId('height-open').first().tap();
}

async function fill(page: Page, fields: Record<string, string>): Promise<void> {
  for (const [name, text] of Object.entries(fields)) {
    await enter(page, page.getByTestId('height-sheet').getByRole('textbox', { name }).first(), text);
  }
}

async function enter(page: Page, field: ReturnType<Page['getByRole']>, text: string): Promise<void> {
  await field.fill(text);
  await field.press('Enter');
  await expect(page.getByRole('alert').filter({ hasText: 'Allowed' })).toHaveCount(0);
}

interface Saved {
  yard: {
    slopes: { bearing_deg: number; slope_deg: number; sigma_deg: number | null }[];
    obstacles: { shape: { height_m?: number } }[];
    spot_heights: { height_m: number; sigma_m: number | null }[];
    overhead_lines: { supports: { wire_height_m: number }[]; sag_m: number; height_sigma_m: number }[];
  };
}

const slopes = async (page: Page) => (await savedJob<Saved>(page))?.yard.slopes ?? [];
