import { expect, test, type Page } from "@playwright/test";
import { dragByFinger, openDemo, touchDown } from "./app";

/** Opens the demo while the whole engine is held back; the returned function lets it go. */
async function openWithoutWhole(page: Page): Promise<() => void> {
  let release = () => {};
  const held = new Promise<void>((done) => (release = done));
  let asked = false;
  await page.route(/engine_bg.*\.wasm/, async (route) => {
    asked = true;
    await held;
    await route.continue();
  });
  await openDemo(page);
  await expect.poll(() => asked).toBe(true);
  return release;
}

/** The whole engine is held back: the map is there, a finger drags the mast, and nothing is said to be well. */
test("the map and a drag need the first module alone", async ({ page }) => {
  const release = await openWithoutWhole(page);
  const anchor = page
    .locator('[data-testid="place-map"] .signs .s-anchor')
    .first();
  const before = await anchor.getAttribute("transform");
  const finger = await touchDown(page, page.getByTestId("mast-handle"));
  await finger.moveBy(40, -20, 5);
  await expect(anchor).not.toHaveAttribute("transform", before ?? "");
  await finger.lift();
  await page.getByTestId("tab-checks").tap();
  await expect(page.getByTestId("verdict")).toContainText("Not known yet");
  await expect(page.getByText("How sure is it?")).toHaveCount(0);

  release();
  await expect(page.getByText("How sure is it?")).toBeVisible();
});

/** Nothing that waits for the whole engine holds up the finger, and the map stands as it will stand when that is there. */
test("edit after edit is shown by the first module, and no word moves when the whole engine comes", async ({
  page,
}) => {
  const release = await openWithoutWhole(page);
  const anchor = page
    .locator('[data-testid="place-map"] .signs .s-anchor')
    .first();
  for (const [dx, dy] of [
    [30, -20],
    [-20, 30],
    [25, 0],
  ] as const) {
    const before = await anchor.getAttribute("transform");
    await dragByFinger(page, page.getByTestId("mast-handle"), dx, dy);
    await expect(anchor).not.toHaveAttribute("transform", before ?? "");
  }
  // What the map's words say and where they stand, of every frame in which it is shown: one after the other, each once.
  await page.evaluate(() => {
    const seen: string[] = ((window as unknown as { arrangements: string[] }).arrangements = []);
    const look = () => {
      const all = [...document.querySelectorAll('[data-testid="place-map"] text')];
      const words = all.map((one) => `${one.textContent} ${one.getAttribute('transform')}`).sort().join('\n');
      if (all.length > 0 && seen.at(-1) !== words) seen.push(words);
      requestAnimationFrame(look);
    };
    look();
  });
  const arrangements = () => page.evaluate(() => (window as unknown as { arrangements: string[] }).arrangements);
  // The answer to the last drag has come: on a busy machine it takes its time.
  let before = 0;
  await expect(async () => {
    const [was, now] = [before, (await arrangements()).length];
    before = now;
    expect(was).toBe(now);
  }).toPass({ intervals: [1500], timeout: 20_000 });
  const [first = ''] = (await arrangements()).slice(-1);
  expect(first.split('\n').length).toBeGreaterThan(10);

  release();
  await page.getByTestId("tab-checks").tap();
  await expect(page.getByText("How sure is it?")).toBeVisible();
  await page.getByTestId("tab-map").tap();
  await expect(page.locator('[data-testid="place-map"] text').first()).toBeVisible();
  await page.waitForTimeout(1000);
  expect((await arrangements()).slice(before)).toEqual([]);
});
