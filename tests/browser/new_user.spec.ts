import { readFileSync } from "node:fs";
import { expect, test, type Locator, type Page } from "@playwright/test";

/**
 * A first user, from an empty yard to pegs: by taps and typing alone, in feet and inches, on a bank. No address is
 * typed and no job is put in.
 */
test.use({ actionTimeout: 5_000 });

/** WALK_SHOTS names a folder for a picture of each page, to be looked at. */
const shots = process.env.WALK_SHOTS;

/** From the first mark: compass bearing, tape along the ground, height. Two lawns, 2' 6" apart, and a bank between. */
const BANK = [
  ["0", `3'`, `2"`],
  ["0", `7'`, `1' 4"`],
  ["0", `11'`, `2' 7"`],
  ["0", `16'`, `2' 8 1/2"`],
  ["0", `34'`, `2' 11"`],
  ["45", `32'`, `2' 9"`],
  ["315", `32'`, `2' 10"`],
  ["90", `24'`, `-1"`],
  ["270", `24'`, `0`],
  ["180", `10'`, `-3"`],
] as const;

test("from an empty yard to pegs on a bank, two levels of guys", async ({
  page,
}) => {
  await page.goto("/");
  await page.getByTestId("open-blank").tap();
  await page.getByText("Feet and inches").tap();
  await page.getByTestId("begin-blank").tap();
  await heading(page, "Measure the yard");

  // Nothing is known: no gust, and each thing that is missing is a link.
  await checks(page, /^Not known yet: \d+ entries/);
  const missing = page.getByTestId("missing");
  await expect(missing.locator("li")).not.toHaveCount(0);
  expect(await missing.locator('li a[href^="#"]').count()).toBe(
    await missing.locator("li").count(),
  );
  await expect(page.getByTestId("wind-headline")).toHaveCount(0);
  await page.getByTestId("open-wind").tap();
  await expect(page.getByTestId("table-head")).toBeVisible();
  await expect(page.locator("main.pane")).not.toContainText("picture above");
  await picture(page, "wind-empty");

  await tab(page, "parts");
  await link(page, "Base timbers and foot");
  await heading(page, "Base timbers and foot");
  await type(page, "Side of the plate under the mast’s foot", `6"`);
  await type(page, "Thickness of that plate", `1/2"`);
  await type(page, "Side of the board packed tight under the joint", `16"`);
  await type(page, "Side of the board under each foot", `12"`);
  await picture(page, "base");

  await checks(page, /^Not known yet: \d+ entries/);

  await measureBank(page);
  await tab(page, "measure");
  await link(page, "The soil");
  await choose(page, "Clay or silt");
  await choose(page, "Stiff");

  await tab(page, "parts");
  await link(page, "Guys and rope");
  await page.getByTestId("add-level-below").tap();
  await heading(page, "Lower guy");
  await expect(
    page.getByLabel("Attachment height", { exact: true }),
  ).toHaveValue(/^6'\s6"$/);
  await picture(page, "lower-guy");

  for (const level of ["Upper guy", "Lower guy"]) await holdLevel(page, level);
  await hangStrands(page);
  await holdTogether(page);

  // Where is north? The finding leads to the page that it asks for.
  await checks(page, /^Not known yet/);
  await page
    .getByTestId("finding")
    .filter({ hasText: "true north is unknown" })
    .getByRole("link", { name: "Change it" })
    .tap();
  await type(page, "Latitude", "44.1");
  await type(page, "Longitude", "-72.9");
  await checks(page, /^Not known yet/);
  await expect(
    page.getByTestId("finding").filter({ hasText: "true north is unknown" }),
  ).toHaveCount(0);

  // All that the mast needs is there: an answer. Nobody has looked up for wires or said what lies underground, and so
  // it stays not known.
  await page.getByTestId("open-wind").tap();
  await expect(page.getByTestId("wind-headline")).toContainText(/\d+ mph/, {
    timeout: 30_000,
  });
  await expect(page.getByTestId("missing")).toHaveCount(0);
  await picture(page, "wind");
  await checks(page, /^Not known yet: .*3 checks that nobody has made/);
  await answerThatNothingIsThere(page);
  // Later the utilities mark a line after all.
  await tab(page, "measure");
  await link(page, "Pipes and cables underground");
  await choose(page, "They marked lines");
  await enterPipe(page);
  await checks(
    page,
    /^Nothing here says stop\. Look at \d+ cautions?, and at what no rule covers\.$/,
  );
  await expect(page.locator("main.pane")).toContainText("round Drinking water");
  await picture(page, "checks");

  await pegOut(page);
});

async function measureBank(page: Page): Promise<void> {
  await tab(page, "measure");
  await link(page, "Marks");
  await page.getByTestId("add-item").tap();
  await type(page, "What it is", "Corner of the shed");
  await page.getByTestId("next-question").tap();
  await typeFix(page, "90", `31' 6"`);
  await unbroken(
    page.getByRole("button", { name: "Back to the question before" }),
  );
  await picture(page, "mark");
  await page.getByTestId("keep-item").tap();
  await tab(page, "measure");
  await link(page, "Spot heights");
  for (const [bearing, tape, height] of BANK) {
    await page.getByTestId("add-item").tap();
    await typeFix(page, bearing, tape);
    await page.getByTestId("next-question").tap();
    await type(page, "Higher by", height);
    await page.getByTestId("keep-item").tap();
    await heading(page, "Spot heights");
  }
  await expect(page.getByText("Level with the first mark")).toHaveCount(1);
  await picture(page, "heights");
}

/** Far enough out that the pull is flatter than the 45° of the table of buried logs. */
async function holdLevel(page: Page, level: string): Promise<void> {
  await tab(page, "parts");
  await link(page, "Guys and rope");
  await link(page, level);
  await type(page, "Distance in plan", `17'`);
  await choose(page, "Made fast again");
  await link(page, "What holds them");
  await choose(page, "Buried log");
  await type(page, "Its length", `4'`);
  await type(page, "Its thickness", `10"`);
  await type(page, "Depth of its middle", `3'`);
  await picture(page, "anchor");
  await page.getByRole("button", { name: "Keep this anchor" }).tap();
  await page.getByTestId("back").tap();
  await link(page, "Rope and its ends");
  await type(page, "Least breaking strength", "1500 lbf");
  await choose(page, "Polyester");
  await choose(page, "Figure-eight");
}

/** What nobody measured of them stays empty, and is asked for. */
async function hangStrands(page: Page): Promise<void> {
  await tab(page, "parts");
  await link(page, "Strands of lights");
  await page.getByRole("button", { name: "Add strands of lights" }).tap();
  await type(page, "How many strands", "8");
  await type(page, "Height of their upper ends", `16' 6"`);
  await type(page, "Radius of the ring", `10'`);
  await type(page, "Thickness of one strand", `5/16"`);
  await picture(page, "strands");
  await page.getByRole("button", { name: "Keep these strands" }).tap();
  await expect(page.getByLabel("Thickness of one strand")).toHaveValue(`5/16"`);
  await expect(page.getByLabel("Mass by length")).toHaveValue("");
  await type(page, "Mass by length", "3 lb/100 ft");
}

/** What carries the upper tube and what keeps the collars up: each where the list of what is missing leads to. */
async function holdTogether(page: Page): Promise<void> {
  const missing = async (words: string) => {
    await checks(page, /^Not known yet/);
    await page.getByTestId("missing").getByRole("link", { name: words }).first().tap();
  };
  await missing("How wide the holes of its pin are");
  await type(page, "Hole for its pin", `3/8"`);
  await missing("pins are");
  await type(page, "Thickness of the pins", `5/16"`);
  await missing("What keeps the collar of the guys up");
  await heading(page, "Guy collars");
  const levels = page.getByTestId("collar-fields");
  await expect(levels).toHaveCount(2);
  for (const index of [0, 1]) {
    const level = levels.nth(index);
    await level.locator("fieldset label").filter({ hasText: "It lies on a shoulder" }).tap();
    const field = level.getByLabel("The shoulder stands out by", { exact: true });
    await field.tap();
    await field.fill(`3/16"`);
    await field.press("Enter");
  }
  await picture(page, "collars");
}

/** No wire in reach, and none of the utilities' lines in the work area: their answer counts once it has its date. */
/** It tilts with its base, run down and bare, onto the ground. */
async function sayHowItGoesUp(page: Page): Promise<void> {
  await page
    .getByTestId("finding")
    .filter({ hasText: "turns up" })
    .getByRole("link", { name: "Change it" })
    .tap();
  await choose(page, "It is fixed in its base");
  await choose(page, "Run down");
  await choose(page, "Not on it yet");
  await type(page, "What its upper end is laid on, above the ground", "0");
  await choose(page, "As the plan says");
  await picture(page, "how-it-goes-up");
}

async function answerThatNothingIsThere(page: Page): Promise<void> {
  const change = (words: string) =>
    page
      .getByTestId("finding")
      .filter({ hasText: words })
      .getByRole("link", { name: "Change it" })
      .tap();
  await change("whether a wire hangs");
  await choose(page, "No wire in reach");
  await expect(page.getByLabel("None within")).toHaveValue(/^\d+'\s0"$/);
  await picture(page, "wires-asked");
  await checks(page, /^Not known yet: .*2 checks that nobody has made/);
  await change("what lies underground");
  await choose(page, "None of theirs");
  await picture(page, "underground-asked");
  await checks(page, /^Not known yet: .*2 checks that nobody has made/);
  await change("has no date");
  await page.getByRole("button", { name: "Just now" }).tap();
  await checks(page, /^Not known yet: .*1 check that nobody has made/);
  await sayHowItGoesUp(page);
  await checks(page, /^Nothing here says stop\. Look at \d+ cautions?/);
  await expect(page.locator("main.pane")).toContainText(
    "none of their lines lies in the work area",
  );
}

/** A pipe that a locator has marked, well away. */
async function enterPipe(page: Page): Promise<void> {
  await page.getByTestId("add-item").tap();
  await choose(page, "Drinking water");
  await page.getByTestId("next-question").tap();
  await page.locator("main.pane fieldset label").first().tap();
  await page.getByTestId("next-question").tap();
  for (const bearing of ["205", "155"]) {
    await page.getByRole("button", { name: "Add by tape" }).tap();
    await unbroken(
      page
        .locator("main.pane fieldset label")
        .filter({ hasText: "Bearing" })
        .first(),
    );
    await typeFix(page, bearing, `45'`);
  }
  await picture(page, "pipe");
  await page.getByTestId("next-question").tap();
  await page.getByTestId("keep-item").tap();
}

/** Each anchor once with the guys of both levels, both tapes and a rope for each guy; the same pegs on paper. */
async function pegOut(page: Page): Promise<void> {
  await tab(page, "map");
  await expect(page.getByTestId("foot-height")).toHaveText(/\d/);
  await picture(page, "map");
  await tab(page, "build");
  await link(page, "Peg out");
  const pegs = await page.locator("#build-peg").innerText();
  for (const guy of ["1", "2", "3"])
    expect(pegs).toContain(`Lower guy ${guy} + Upper guy ${guy}`);
  expect(pegs).toContain("Tape from A");
  expect(pegs).toContain("Tape from B");
  const guys = page.locator("#build-guy");
  for (const level of ["Upper", "Lower"])
    await expect(guys).toContainText(`${level} guy 3`);
  await picture(page, "pegs");
  await tab(page, "build");
  await picture(page, "build");
  const saved = page.waitForEvent("download");
  await page.evaluate(() => (navigator.canShare = () => false));
  await page.getByTestId("save-map").tap();
  expect((await saved).suggestedFilename()).toContain("staking sheets.pdf");
  const pdf = readFileSync(await (await saved).path());
  expect(pdf.subarray(0, 5).toString("latin1")).toBe("%PDF-");
  expect(pdf.subarray(-6).toString("latin1")).toContain("%%EOF");
}

const tab = (page: Page, name: string) => page.getByTestId(`tab-${name}`).tap();
const link = (page: Page, name: string) =>
  page
    .locator('main.pane a[href^="#"]')
    .filter({ hasText: name })
    .first()
    .tap();
const heading = (page: Page, name: string) =>
  expect(page.getByRole("heading", { level: 1 })).toHaveText(name);

async function checks(page: Page, verdict: RegExp): Promise<void> {
  await tab(page, "checks");
  await expect(page.getByTestId("verdict")).toHaveText(verdict);
}

async function choose(page: Page, name: string): Promise<void> {
  await page
    .locator("main.pane fieldset label")
    .filter({ hasText: new RegExp(`^\\s*${name}`) })
    .first()
    .tap();
}

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByLabel(label, { exact: true });
  await field.tap();
  await field.fill(text);
  await field.press("Enter");
}

async function typeFix(
  page: Page,
  bearing: string,
  tape: string,
): Promise<void> {
  await type(page, "Compass bearing", bearing);
  await type(page, "Tape", tape);
}

/** No word is broken within itself: each stands on one line. */
async function unbroken(element: Locator): Promise<void> {
  const broken = await element.evaluate((whole) => {
    const texts = document.createTreeWalker(whole, NodeFilter.SHOW_TEXT);
    const found: string[] = [];
    for (let text = texts.nextNode(); text; text = texts.nextNode()) {
      for (const word of (text.textContent ?? "").matchAll(/\S+/g)) {
        const range = document.createRange();
        range.setStart(text, word.index);
        range.setEnd(text, word.index + word[0].length);
        if (
          new Set([...range.getClientRects()].map((box) => Math.round(box.top)))
            .size > 1
        )
          found.push(word[0]);
      }
    }
    return found;
  });
  expect(broken).toEqual([]);
}

async function picture(page: Page, name: string): Promise<void> {
  if (!shots) return;
  const pane = page.locator("main").first();
  const [height, all] = await pane.evaluate(
    (e) => [e.clientHeight, e.scrollHeight] as const,
  );
  for (let top = 0, i = 0; top < all && i < 8; top += height - 40, i += 1) {
    await pane.evaluate((e, to) => e.scrollTo(0, to), top);
    await page.screenshot({ path: `${shots}/${name}-${i}.png`, scale: "css" });
  }
}
