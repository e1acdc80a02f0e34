import { expect, test, type Page } from '@playwright/test';
import { openDemo } from './app';
import { open, walkEveryPage } from './every_page';
import { forbiddenWords } from './forbidden_words';
import { feed, STEADY } from './phone';

/** A small phone upright and on its side, and with text of twice the size. The root's usual size is 106.25 %. */
const WAYS = [
  { name: 'upright', width: 360, height: 740, text: '' },
  { name: 'on its side', width: 740, height: 360, text: '' },
  { name: 'text of 200 %', width: 360, height: 740, text: '212.5%' },
] as const;

for (const way of WAYS) {
  test(`every page and sheet, ${way.name}: all can be reached, read and understood`, async ({ page }) => {
    test.setTimeout(240_000);
    await openDemo(page);
    await page.setViewportSize({ width: way.width, height: way.height });
    await page.evaluate((size) => (document.documentElement.style.fontSize = size), way.text);
    const wrong: string[] = [];
    const look = async (where: string) => {
      if (process.env.WALK) console.log(where);
      for (const problem of await page.evaluate(lookRound)) wrong.push(`${where}: ${problem}`);
      // They are the same, however the phone is held.
      if (way.name === 'upright') wrong.push(...(await forbiddenWords(page, where)));
    };
    await walkEveryPage(page, look);
    await tiltCapture(page, look);
    expect([...new Set(wrong)]).toEqual([]);
  });
}

/** The phone held on the ground: live, taken, turned; of a new reading, whose page has a bar at its foot. */
async function tiltCapture(page: Page, look: (where: string) => Promise<void>): Promise<void> {
  await open(page, 'measure/slopes/new');
  while ((await page.getByTestId('tilt-start').count()) === 0) await page.getByTestId('next-question').tap();
  await feed(page, STEADY, { long_deg: 6 });
  await page.getByTestId('tilt-start').tap();
  await expect(page.getByTestId('tilt-capture')).toBeEnabled({ timeout: 30_000 });
  // At once, without any scrolling: the other hand is on the phone.
  const reached = await page.getByTestId('tilt-capture').evaluate((button) => {
    const box = button.getBoundingClientRect();
    return button.contains(document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2));
  });
  expect(reached, 'the button that takes the slope can be hit where it appears').toBe(true);
  await look('tilt, live');
  await page.getByTestId('tilt-capture').tap();
  await look('tilt, taken');
  await page.getByTestId('tilt-turn').tap();
  await look('tilt, turned');
}

/** What is wrong with what is on the screen. Runs in the page. */
function lookRound(): string[] {
  const problems: string[] = [];
  const dialog = document.querySelector('dialog[open]');
  const root: Element = dialog ?? document.body;
  const says = (e: Element) =>
    `${e.tagName.toLowerCase()} “${(e.getAttribute('aria-label') ?? e.textContent ?? '').trim().slice(0, 50)}”`;

  // Every control can be scrolled to, as the keyboard does it, and is hit at its centre.
  const controls = [...root.querySelectorAll('a[href], button, input, select, textarea, summary')]
    .filter((e) => e.checkVisibility() && !e.closest('svg'))
    .map((e) => (e.matches('[type=radio], [type=checkbox]') && e.closest('label')) || e);
  for (const control of controls) {
    control.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    const box = control.getBoundingClientRect();
    if (box.width === 0) continue;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const hit = document.elementFromPoint(x, y);
    if (!hit || !(control.contains(hit) || hit.contains(control))) {
      problems.push(`${says(control)} is not hit at ${Math.round(x)}, ${Math.round(y)}: ${hit ? says(hit) : 'nothing'} is`);
    }
  }

  // No text runs off the screen or is cut by the box it stands in.
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  const length = /\d+['′]? ?\d* ?\d+\/\d+["″]|\d+['′] \d+["″]/g;
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const parent = node.parentElement;
    const text = node.textContent ?? '';
    if (!parent || !text.trim() || !parent.checkVisibility() || parent.closest('svg, .unseen, select, option')) continue;
    // A name of any length may end in dots.
    if (getComputedStyle(parent).textOverflow === 'ellipsis') continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) {
      if (box.width > 0 && (box.right > innerWidth + 0.5 || box.left < -0.5)) {
        problems.push(`“${text.trim().slice(0, 60)}” runs off the side`);
        break;
      }
    }
    const cutter = clipping(parent);
    if (cutter) {
      const [own, around] = [range.getBoundingClientRect(), cutter.getBoundingClientRect()];
      const cut = own.right > around.right + 1 || own.left < around.left - 1 || own.bottom > around.bottom + 2 || own.top < around.top - 2;
      if (own.width > 0 && cut) problems.push(`“${text.trim().slice(0, 60)}” is cut by ${says(cutter)}`);
    }
    // A length stays on one line from its feet to its fraction.
    for (const match of text.replaceAll(/\u00a0/g, ' ').matchAll(length)) {
      range.setStart(node, match.index);
      range.setEnd(node, match.index + match[0].length);
      const lines = new Set([...range.getClientRects()].map((box) => Math.round(box.top / 4)));
      if (lines.size > 1) problems.push(`“${match[0]}” breaks over two lines`);
    }
  }
  for (const box of root.querySelectorAll<HTMLInputElement>('input.box.number')) {
    if (box.checkVisibility() && box.scrollWidth > box.clientWidth + 1) problems.push(`“${box.value}” is cut in its field`);
  }

  // The five places fit side by side.
  if (!dialog && document.querySelector('.tabs')) {
    const tabs = [...document.querySelectorAll('.tabs nav a')];
    if (tabs.length !== 5) problems.push(`${tabs.length} tabs`);
    for (const tab of tabs) {
      const box = tab.getBoundingClientRect();
      const out = box.left < -0.5 || box.right > innerWidth + 0.5 || box.top < 0 || box.bottom > innerHeight + 0.5;
      if (out || tab.scrollWidth > tab.clientWidth + 1 || tab.scrollHeight > tab.clientHeight + 1) {
        problems.push(`the tab ${tab.textContent?.trim()} does not fit`);
      }
    }
  }
  return problems;

  /** What of the boxes round an element cuts what runs over it; a name of any length may end in dots. */
  function clipping(element: Element): Element | null {
    for (let box: Element | null = element; box; box = box.parentElement) {
      const style = getComputedStyle(box);
      if (style.textOverflow === 'ellipsis') return null;
      if (/auto|scroll/.test(style.overflowY + style.overflowX)) return null;
      if (/hidden|clip/.test(style.overflowX + style.overflowY)) return box;
    }
    return null;
  }
}
