import { readFileSync } from "node:fs";
import { expect, test } from "@playwright/test";
import { openDemo } from "./app";

/** What the sheets are drawn with is fetched when somebody prints, and not before. */
test("sheets are saved as PDF and printed page by page; their module is loaded when asked for", async ({
  page,
}) => {
  const fetched: string[] = [];
  page.on("request", (request) => fetched.push(request.url()));
  const loaded = () => fetched.some((url) => /paper_bg.*\.wasm/.test(url));
  await page.addInitScript(() => (navigator.canShare = () => false));
  await openDemo(page);
  await page.getByTestId("tab-build").tap();
  await expect(page.getByTestId("save-map")).toBeEnabled();
  expect(loaded()).toBe(false);
  const saved = page.waitForEvent("download");
  await page.getByTestId("save-map").tap();
  const pdf = readFileSync(await (await saved).path());
  expect(pdf.subarray(0, 5).toString("latin1")).toBe("%PDF-");
  expect((await saved).suggestedFilename()).toMatch(/ - staking sheets\.pdf$/);
  expect(loaded()).toBe(true);

  await page.getByTestId("print-map").tap();
  const frame = page.frameLocator("#print-frame");
  const sheets = frame.locator("section > svg");
  await expect(sheets.first()).toContainText("Page 1 of");
  // As many pages as the PDF has; they are put in one after the other.
  const count = (pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? []).length;
  await expect(sheets).toHaveCount(count);
  expect(count).toBeGreaterThan(1);
  await expect(sheets.last()).toContainText(`Page ${count} of ${count}`);
});

test("letters that a PDF cannot show are named beside its button", async ({ page }) => {
  await page.addInitScript(() => (navigator.canShare = () => false));
  await openDemo(page);
  await page.goto("/#jobs");
  await page
    .getByRole("link", { name: "versions of Lantern Green", exact: false })
    .last()
    .tap();
  await page.getByTestId("rename-job").fill("竹 mast");
  await page.getByTestId("rename-job").press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("竹 mast");
  await page.goto("/#build");
  await expect(page.getByTestId("letters-not-shown")).toHaveCount(0);
  const saved = page.waitForEvent("download");
  await page.getByTestId("save-map").tap();
  await saved;
  await expect(page.getByTestId("letters-not-shown")).toContainText("U+7AF9");
});
