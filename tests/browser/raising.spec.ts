import { expect, test } from "@playwright/test";
import { goTo, openBlank, openDemo, savedJob } from "./app";

interface WithOrder {
  raising: { order: string[] };
}

const shots = process.env.SHOTS;

test("the way up is found, shown on the map and taken", async ({ page }) => {
  await openDemo(page);
  await goTo(page, "build/raising");
  if (shots)
    await page.screenshot({
      path: `${shots}/raising-page.png`,
      fullPage: true,
    });
  // The order: what a step needs stays before it, and says why; two that may be exchanged are, and that is undone.
  const order = page.getByTestId("raise-order");
  const third = order.locator("li").nth(2);
  await expect(order).toContainText("In the usual order.");
  const second = await order.locator("li").nth(1).innerText();
  await page.getByTestId("step-4-sooner").tap();
  await expect(page.getByTestId("order-refused")).toContainText(
    "it can go over past plumb",
  );
  await page.getByTestId("step-2-later").tap();
  await expect(order).toContainText("In an order of your own.");
  expect((await third.innerText()).slice(3, 30)).toBe(second.slice(3, 30));
  if (shots) await order.screenshot({ path: `${shots}/raising-order.png` });
  await expect
    .poll(async () => (await savedJob<WithOrder>(page))?.raising.order.length)
    .toBe(6);
  await page.getByRole("button", { name: "Undo" }).first().tap();
  await expect(order).toContainText("In the usual order.");
  // Strands with loose lower ends trail: what they can catch on is named.
  await page.getByText("Hanging from its top").tap();
  await page.getByTestId("look-for-ways").tap();
  await expect(page.getByTestId("ways-headline")).toContainText(
    /of 360 bearings/,
    { timeout: 60_000 },
  );
  const way = page.getByTestId("raise-way");
  const trails = page.getByTestId("finding").filter({
    hasText: /hanging strands trail on the ground .* within reach of/,
  });
  await expect(trails.first()).toBeVisible();
  if (shots) {
    await trails.first().scrollIntoViewIfNeeded();
    await page.screenshot({ path: `${shots}/raising-trails.png` });
  }
  expect(await way.count()).toBe(2);
  await way.first().scrollIntoViewIfNeeded();
  if (shots) await page.screenshot({ path: `${shots}/raising-way.png` });
  // Each guy tells its length at every 5°, and what is done with it.
  await way.first().locator("summary").first().click();
  await expect(way.first().locator("tbody tr").last()).toContainText("90.0°");
  if (shots) await page.screenshot({ path: `${shots}/raising-guy.png` });
  await page.getByTestId("ways-on-map").tap();
  await expect(page.getByTestId("raise-layer")).toBeVisible();
  if (shots) await page.screenshot({ path: `${shots}/raising-map.png` });
});

test("a job that has not said how it turns up is asked", async ({ page }) => {
  await openBlank(page);
  await goTo(page, "build/raising");
  await page.getByTestId("look-for-ways").tap();
  await expect(page.getByTestId("ways-headline")).toContainText(
    "say first how it turns",
    { timeout: 30_000 },
  );
  await expect(page.getByTestId("finding").first()).toContainText(
    "about what the mast turns up",
  );
  if (shots) await page.screenshot({ path: `${shots}/raising-open.png` });
});
