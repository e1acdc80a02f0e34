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
  await page.waitForTimeout(500);
  const words = page.locator('[data-testid="place-map"] text');
  const placed = () =>
    words.evaluateAll((all) =>
      all
        .map((one) => `${one.textContent} ${one.getAttribute("transform")}`)
        .sort(),
    );
  const first = await placed();
  expect(first.length).toBeGreaterThan(10);

  release();
  await page.getByTestId("tab-checks").tap();
  await expect(page.getByText("How sure is it?")).toBeVisible();
  await page.getByTestId("tab-map").tap();
  expect(await placed()).toEqual(first);
});
