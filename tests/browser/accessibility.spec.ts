import axe from 'axe-core';
import { expect, test, type Page } from '@playwright/test';
import { openDemo } from './app';
import { eachPage, open } from './every_page';
import { feed, feedCompass, STEADY } from './phone';

/** WCAG 2.2, levels A and AA, and what axe knows beside it of headings and landmarks. Nothing is excluded. */
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** Least size of what a gloved thumb must hit, in CSS pixels. WCAG 2.2 AA (2.5.8) asks for 24. */
const TARGET_PX = 44;

/** Each page in each skin, instead of in daylight and one more. */
const EVERY_SKIN = process.env.EVERY_SKIN !== undefined;

const SKINS = ['daylight', 'lantern', 'sun'] as const;

test('the first screen keeps the rules of WCAG 2.2 AA', async ({ page }) => {
  await page.goto('/');
  await expect(page.getByTestId('open-demo')).toBeVisible();
  await keepsRules(page, 'welcome');
  await bigEnough(page, 'welcome');
  await page.getByTestId('open-blank').tap();
  await keepsRules(page, 'welcome, units');
  await bigEnough(page, 'welcome, units');
});

test('the list of jobs, a job’s own page, the bin and an earlier version keep the rules', async ({ page }) => {
  test.setTimeout(120_000);
  await openDemo(page);
  const look = async (what: string) => {
    await keepsRules(page, what);
    await bigEnough(page, what);
    await nothingCut(page, what);
  };
  await page.getByTestId('job-menu').tap();
  await page.getByTestId('all-jobs').tap();
  await expect(page.getByTestId('jobs')).toBeVisible();
  await look('jobs');
  await page.getByRole('link', { name: /earlier versions of/ }).tap();
  await expect(page.getByTestId('versions').locator('li').first()).toBeVisible();
  await look('a job');
  await page.getByTestId('versions').getByRole('button').last().tap();
  await expect(page.getByTestId('version-map')).toBeVisible();
  await look('a version');
  await page.getByRole('button', { name: 'Close' }).tap();
  await page.getByTestId('bin-job').tap();
  await expect(page.getByTestId('bin')).toBeVisible();
  await look('the bin');
  await page.getByTestId('bin').getByRole('link').tap();
  await page.getByTestId('delete-job').tap();
  await look('a job in the bin');
});

/** One item of each kind, and of the things in the yard two that differ most. */
const oneOf = (pattern: string) => (pattern === 'measure/things/:which' ? 2 : pattern === 'build/phase/:which' ? 7 : 1);

test('every page keeps the rules of WCAG 2.2 AA in every skin, and its targets are big enough', async ({ page }) => {
  test.setTimeout(240_000);
  await openDemo(page);
  let looked = 0;
  await eachPage(
    page,
    async (address) => {
      await keepsRules(page, address);
      await bigEnough(page, address);
      await nothingCut(page, address);
      // The other skins change colours alone, and every part of a page stands on many: in turn, or all of them for a measurement.
      const others = ['lantern', 'sun'] as const;
      for (const skin of EVERY_SKIN ? others : [others[looked % 2]!]) {
        await paint(page, skin);
        await keepsRules(page, `${address}, ${skin}`, ['color-contrast']);
      }
      looked += 1;
      await paint(page, 'daylight');
    },
    oneOf,
  );
});

test('what really stands keeps the rules once it is measured', async ({ page }) => {
  test.setTimeout(120_000);
  await openDemo(page);
  const anchor = 'build/as-built/guy%3Aupper-1';
  await open(page, anchor);
  for (const [label, text] of [
    ['Compass bearing', '223.6'],
    ['Tape', '4.29 m'],
  ] as const) {
    const field = page.getByLabel(label, { exact: true });
    await field.fill(text);
    await field.blur();
  }
  await page.getByTestId('keep-measured').tap();
  await expect(page.getByTestId('as-built-result')).toBeVisible();
  for (const address of [anchor, 'build/as-built', 'build', 'map', 'checks', 'measure/log']) {
    await open(page, address);
    await keepsRules(page, `${address}, as built`);
    await bigEnough(page, address);
    await nothingCut(page, address);
  }
});

test('the map with its sheets keeps the rules of WCAG 2.2 AA in every skin', async ({ page }) => {
  test.setTimeout(240_000);
  await openDemo(page);
  for (const skin of SKINS) {
    await paint(page, skin);
    await open(page, 'map');
    await keepsRules(page, `map, ${skin}`);
    await bigEnough(page, 'map');
    for (const opener of ['open-legend', 'job-menu']) {
      await page.getByTestId(opener).tap();
      await expect(page.getByRole('dialog')).toBeVisible();
      await keepsRules(page, `${opener}, ${skin}`);
      await bigEnough(page, opener);
      await page.keyboard.press('Escape');
      await expect(page.getByRole('dialog')).toBeHidden();
    }
  }
});

/** Sheets that read the phone: the page, what opens them, and what to do in them before looking. */
const SHEETS: [string, string, (page: Page) => Promise<void>][] = [
  ['measure/slopes/0', 'bearing-open', async () => {}],
  ['measure/slopes/0', 'bearing-open', sights],
  ['measure/things/0', 'height-open', async () => {}],
  ['measure/things/0', 'height-open', async (page) => page.getByText('Two angles').tap()],
  ['measure/heights/0', 'height-open', async () => {}],
  ['measure/wires/0', 'height-open', async () => {}],
];

async function sights(page: Page): Promise<void> {
  await feedCompass(page, 75);
  await page.getByTestId('bearing-start').tap();
  for (const heading of [75, 110]) {
    await feedCompass(page, heading);
    await page.waitForTimeout(1700);
    await page.getByTestId('bearing-take').tap();
  }
  await page.getByText('Known line', { exact: true }).tap();
}

test('the sheets that read the phone keep the rules of WCAG 2.2 AA in every skin', async ({ page }) => {
  test.setTimeout(240_000);
  await openDemo(page);
  for (const [address, opener, prepare] of SHEETS) {
    await open(page, address);
    await page.getByTestId(opener).first().tap();
    await expect(page.getByRole('dialog')).toBeVisible();
    await prepare(page);
    for (const skin of SKINS) {
      await paint(page, skin);
      await keepsRules(page, `${address}, ${opener}, ${skin}`);
    }
    await bigEnough(page, `${address}, ${opener}`);
    await nothingCut(page, `${address}, ${opener}`);
    await page.keyboard.press('Escape');
    await expect(page.getByRole('dialog')).toBeHidden();
  }
});

test('a hold, its turned reading and the lean of the tube keep the rules in every skin', async ({ page }) => {
  test.setTimeout(240_000);
  await openDemo(page);
  await open(page, 'measure/slopes/0');
  const looks = async (where: string) => {
    for (const skin of SKINS) {
      await paint(page, skin);
      await keepsRules(page, `${where}, ${skin}`);
    }
    await bigEnough(page, where);
    await nothingCut(page, where);
  };
  const take = async () => {
    await expect(page.getByTestId('tilt-capture')).toBeEnabled({ timeout: 20_000 });
    await page.getByTestId('tilt-capture').tap();
  };
  await feed(page, STEADY, { long_deg: 6 });
  await page.getByTestId('tilt-start').tap();
  await looks('hold');
  await take();
  await looks('taken');
  await page.getByTestId('tilt-turn').tap();
  await looks('turned');
  await open(page, 'build/plumb');
  await feed(page, STEADY, { upright: { screen_down_deg: 1.5, right_down_deg: 0 } });
  await page.getByTestId('tilt-start').tap();
  await take();
  await page.getByText('Back', { exact: true }).tap();
  await feed(page, STEADY, { upright: { screen_down_deg: -1.5, right_down_deg: 0 } });
  await page.waitForTimeout(700);
  await take();
  await expect(page.getByTestId('plumb-result')).toBeVisible();
  await looks('lean');
});

test('what is not shown to hold keeps the rules too', async ({ page }) => {
  test.setTimeout(120_000);
  await openDemo(page);
  await knowNothing(page);
  for (const address of ['measure/soil', 'parts/guys/0/anchor', 'checks/wind']) {
    await open(page, address);
    if (address === 'checks/wind') await expect(page.getByTestId('proof-pull')).toBeVisible({ timeout: 30_000 });
    await keepsRules(page, address);
    await bigEnough(page, address);
    await nothingCut(page, address);
  }
});

test('the keyboard alone moves and turns the mast, and closes sheets', async ({ page }) => {
  await openDemo(page);
  const mast = page.getByRole('button', { name: /^The mast/ });
  await mast.focus();
  const before = await mast.getAttribute('transform');
  await page.keyboard.press('ArrowLeft');
  await expect(mast).not.toHaveAttribute('transform', before ?? '');
  await expect(mast).toBeFocused();

  const front = page.getByRole('button', { name: /^Turn the base with/ });
  await front.focus();
  const turned = await front.getAttribute('transform');
  await page.keyboard.press('PageUp');
  await expect(front).not.toHaveAttribute('transform', turned ?? '');

  const menu = page.getByTestId('job-menu');
  await menu.focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toBeHidden();
  await expect(menu).toBeFocused();
});

test('whatever the keyboard reaches shows it', async ({ page }) => {
  await openDemo(page);
  for (const address of ['map', 'measure', 'measure/slopes/0', 'parts/guys', 'checks']) {
    await open(page, address);
    const unmarked = new Set<string>();
    for (let i = 0; i < 30; i += 1) {
      await page.keyboard.press('Tab');
      const name = await page.evaluate(unmarkedFocus);
      if (name !== null) unmarked.add(name);
    }
    expect([...unmarked], address).toEqual([]);
  }
});

/** A job in which nobody knows the soil, nor what holds the guys: with all its cautions and the proof pull. */
async function knowNothing(page: Page): Promise<void> {
  await open(page, 'measure/soil');
  await page.getByText('Nobody has looked').tap();
  await open(page, 'parts/guys/0/anchor');
  await page.getByText('Only a proof pull shows what it holds').tap();
}

async function paint(page: Page, skin: string): Promise<void> {
  await page.evaluate((name) => (document.documentElement.dataset.skin = name), skin);
}

/**
 * Axe run in the page itself, put there once: the package around it opens a page of its own for every answer, which costs
 * more than the answer. There are no frames of others here.
 */
async function keepsRules(page: Page, where: string, only?: string[]): Promise<void> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  const found = await page.evaluate(
    async (run) => {
      const { violations } = await (window as unknown as { axe: typeof axe }).axe.run(document, run);
      return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 160)}`));
    },
    { runOnly: only ? { type: 'rule' as const, values: only } : { type: 'tag' as const, values: RULES }, resultTypes: ['violations' as const] },
  );
  expect.soft(found, where).toEqual([]);
}

/** Buttons, links and fields; a choice counts with its label. The map's own shapes have a test of their own. */
async function bigEnough(page: Page, where: string): Promise<void> {
  const small = await page.evaluate((least) => {
    const targets = [...document.querySelectorAll('a[href], button, input, select, textarea, summary')];
    return targets
      .filter((target) => target.checkVisibility() && !target.closest('svg'))
      .map((target) => (target.matches('[type=radio], [type=checkbox]') && target.closest('label')) || target)
      .map((target) => ({ box: target.getBoundingClientRect(), says: target.outerHTML.slice(0, 120) }))
      .filter(({ box }) => box.width > 0 && (box.width < least || box.height < least))
      .map(({ box, says }) => `${Math.round(box.width)} × ${Math.round(box.height)}: ${says}`);
  }, TARGET_PX);
  expect.soft(small, where).toEqual([]);
}

/** No word runs off the side of the phone or out of its box. */
async function nothingCut(page: Page, where: string): Promise<void> {
  const cut = await page.evaluate(() => {
    const words = [...document.querySelectorAll('body *')].filter(
      (e) =>
        e.children.length === 0 &&
        e.textContent?.trim() &&
        e.checkVisibility() &&
        !e.closest('svg, .unseen, select, input, header'),
    );
    return words
      .filter((e) => {
        const box = e.getBoundingClientRect();
        const overflows = getComputedStyle(e).display !== 'inline' && e.scrollWidth > e.clientWidth + 1;
        return box.right > innerWidth + 0.5 || box.left < -0.5 || overflows;
      })
      .map((e) => e.textContent?.trim() ?? '');
  });
  expect.soft(cut, where).toEqual([]);
}

/** The focused element's markup where nothing shows that it has the focus. Runs in the page. */
function unmarkedFocus(): string | null {
  const focused = document.activeElement;
  if (!focused || focused === document.body) return null;
  // A choice's ring lies around its label, a handle's around what can be grabbed.
  const marked = [focused, focused.closest('label'), focused.querySelector('.reach')];
  const shows = marked.some((e) => {
    if (!e) return false;
    const style = getComputedStyle(e);
    const outlined = style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) >= 2;
    return outlined || (e.matches('.reach') && style.stroke !== 'none');
  });
  return shows ? null : focused.outerHTML.slice(0, 160);
}
