// Spoken walks: from a transcript to a new plan, and back from a note to its sentence.

import { AxeBuilder } from "@axe-core/playwright";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { expect, out, sentence, test } from "./house";

const WALKS = "/j/alder-sluice/walks";

const TALK = `WEBVTT

1
00:00:02.000 --> 00:00:06.000
Dining room. All the boxes have been looked at and photographed.

2
00:00:07.000 --> 00:00:11.000
Kitchen. Screed's reading seventy four percent.

3
00:00:12.000 --> 00:00:15.000
Built-in fridge came yesterday.

4
00:00:16.000 --> 00:00:20.000
Mill hall. Hopper pendant's the first of September now.

5
00:00:21.000 --> 00:00:24.000
Hearth room. The hearth slab is cracked.

6
00:00:25.000 --> 00:00:28.000
Did you see the match? <script>alert(1)</script>
`;

/** Takes in a walk of this morning and stands on its page. */
async function takeIn(page: Page, talk: string, time: string): Promise<void> {
  await page.goto(WALKS);
  await page.getByLabel("What was said", { exact: true }).fill(talk);
  await page.getByLabel("It began at").fill(time);
  await page.getByLabel("Who walked").fill("Ana");
  await page.getByRole("button", { name: "Read it" }).click();
  await expect(page.locator("ol.talk")).toBeVisible();
}

/** The thing that was said in a sentence. */
function said(page: Page, words: string) {
  return page.locator(".talk-row").filter({ hasText: words }).locator(".entry").first();
}

async function axe(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => node.html).join(" | ")}`);
}

for (const script of [true, false]) {
  test.describe(script ? "with script" : "without script", () => {
    test.use({ javaScriptEnabled: script, viewport: { width: 390, height: 844 } });

    test("from what was said to a new plan, and from a note back to what was said", async ({ page, request }) => {
      test.setTimeout(120_000);
      const count = async (): Promise<number> =>
        (await (await request.get("/j/alder-sluice/notes.jsonl")).text()).trim().split("\n").length;
      const before = await count();
      await takeIn(page, TALK, script ? "06:50" : "06:51");
      expect(await count(), "nothing is written before it is accepted").toBe(before);
      await expect(page.locator(".talk-row").filter({ hasText: "<script>" }).locator(".entry")).toHaveCount(0);

      // Accepted: the pendant comes later, and the plan says what that moves.
      const pendant = said(page, "Hopper pendant");
      await expect(pendant).toContainText(/promised for Wed 1 Sept/);
      if (script) {
        await pendant.getByRole("button", { name: /^Accept/ }).click();
        await expect(pendant).toContainText("Accepted by site lead");
        await expect(page.locator(".moved")).toContainText("1 note of");
        await expect(page.locator(".moved")).toContainText(/moved|No date moves/);
        expect(await count()).toBe(before + 1);
      }

      // Mended: it was the scullery's fridge that came, no, the sink.
      const fridge = said(page, "fridge came");
      await fridge.getByRole("link", { name: /^Mend/ }).click();
      await page.getByLabel("It is about").selectOption("range-cooker");
      await page.getByLabel("It is", { exact: true }).selectOption("promised");
      await page.getByRole("button", { name: "Write it down so" }).click();
      await expect(page.getByRole("alert")).toContainText("which day");
      await page.getByLabel("Day, if there is one").fill("2027-10-20");
      await page.getByRole("button", { name: "Write it down so" }).click();
      await expect(said(page, "fridge came")).toContainText("Mended by site lead");
      await expect(said(page, "fridge came")).toContainText("promised for Wed 20 October");
      const moved = page.locator(".moved");
      if (script) {
        // The cooker is needed for the kitchen: its date moves, and both days are told.
        await expect(moved.getByRole("row").filter({ hasText: "Kitchen in use" })).toContainText("later");
      }

      // Refused, and taken back, and refused.
      const slab = said(page, "slab is cracked");
      const written = await count();
      await slab.getByRole("button", { name: /^Refuse/ }).click();
      await expect(slab).toContainText("Refused by site lead");
      await slab.getByRole("button", { name: /^Take it back/ }).click();
      await expect(slab.getByRole("button", { name: /^Accept/ })).toBeVisible();
      await slab.getByRole("button", { name: /^Refuse/ }).click();
      await expect(slab).toContainText("Refused by site lead");
      expect(await count()).toBe(written);

      // The reading passes its test, and the work on the screed leads back to the sentence.
      const screed = said(page, "seventy four percent");
      await expect(screed).toContainText("reads 74 %");
      if (script) {
        await expect(screed.getByRole("checkbox")).toBeChecked();
        await screed.getByRole("button", { name: /^Accept/ }).click();
        await expect(screed).toContainText("Accepted by site lead");
        await page.goto("/j/alder-sluice/work/kitchen-screed-dry");
        await expect(page.locator(".lead").first()).toContainText("Done");
        await page.goto("/j/alder-sluice/work/kitchen.floor/screed");
        const note = page.locator(".row").filter({ hasText: "74 %" }).filter({ hasText: "Screed's reading" });
        await note.getByRole("link", { name: "said on a walk, at 0:07" }).click();
        await expect(page.locator("[id='t-7000']")).toBeInViewport();
        await expect(page.locator("[id='t-7000']")).toContainText("Screed's reading seventy four percent.");
      }
      await page.goto(WALKS);
      await expect(page.locator(".row").filter({ hasText: "Ana" }).first()).toContainText("6 sentences");
    });
  });
}

test("by keyboard alone: down the walk, accepting, refusing and mending", async ({ page }) => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await takeIn(page, TALK.replace("hearth slab", "stove"), "06:52");
  await page.locator("h1").click();
  const focused = page.locator(".entry:focus");
  const isAtStove = (): Promise<boolean> => page.evaluate(() => !!document.activeElement?.textContent?.includes("stove"));
  for (let step = 0; step < 20 && !(await isAtStove()); step++) await page.keyboard.press("j");
  await expect(focused).toContainText("stove");
  await page.keyboard.press("k");
  await page.keyboard.press("j");
  await page.keyboard.press("r");
  await expect(said(page, "stove is cracked")).toContainText("Refused by site lead");
  await page.keyboard.press("?");
  await expect(page.getByRole("dialog")).toContainText("accept it, mend it, refuse it");
});

test("what was said firmly is accepted at once, and the walk says what moved", async ({ page }) => {
  test.setTimeout(120_000);
  await page.goto(WALKS);
  await page.getByRole("link", { name: "From the wheel level up" }).click();
  const before = await sentence(page);
  const button = page.getByRole("button", { name: /that were said firmly$/ });
  const n = Number(/\d+/.exec(await button.innerText())![0]);
  expect(n).toBeGreaterThan(5);
  await page.screenshot({ path: join(out, "walk-desk.png"), fullPage: true });
  await button.click();
  await expect(page.locator(".moved")).toContainText("written down");
  await expect(page.locator(".entry.accepted")).toHaveCount(n);
  expect(await sentence(page)).not.toBe(before);
  await expect(page.locator(".moved table")).toContainText(/later|sooner/);
  await page.screenshot({ path: join(out, "walk-accepted.png") });
});

test("a file is read into the field, and one that is too large is not", async ({ page }) => {
  await page.goto(WALKS);
  const file = page.getByLabel("A file of what was said");
  await file.setInputFiles({ name: "tuesday.vtt", mimeType: "text/vtt", buffer: Buffer.from(TALK) });
  await expect(page.getByLabel("What was said", { exact: true })).toHaveValue(TALK);
  await expect(page.getByLabel("Call it, if you like")).toHaveValue("tuesday");
  await file.setInputFiles({ name: "big.txt", mimeType: "text/plain", buffer: Buffer.alloc(5 * 1024 * 1024 + 1, 97) });
  expect(await file.evaluate((input: HTMLInputElement) => input.validationMessage)).toContain("5 MB");
  await expect(page.getByLabel("What was said", { exact: true })).toHaveValue(TALK);
});

test("talk that is none is sent back with what was typed", async ({ page }) => {
  await page.goto(WALKS);
  await page.getByLabel("What was said", { exact: true }).fill("WEBVTT\n\n");
  await page.getByRole("button", { name: "Read it" }).click();
  await expect(page.getByRole("alert")).toContainText("There is no talk in it");
  await expect(page.getByLabel("What was said", { exact: true })).toHaveValue(/WEBVTT/);
});

for (const [name, size] of [
  ["phone", { width: 360, height: 740 }],
  ["desk", { width: 1280, height: 800 }],
] as const) {
  for (const light of ["light", "dark"] as const) {
    test(`a walk and its list on the ${name}, ${light}: nothing sticks out and axe finds nothing`, async ({ page }) => {
      await page.setViewportSize(size);
      await page.emulateMedia({ colorScheme: light });
      await page.goto(WALKS);
      const shown: [string, () => Promise<unknown>][] = [
        ["walks", async () => {}],
        ["walk", () => page.getByRole("link", { name: "From the wheel level up" }).click()],
        ["mend", () => page.getByRole("link", { name: /^Mend/ }).first().click()],
      ];
      for (const [what, go] of shown) {
        await go();
        await expect(page.locator("h1")).toHaveCount(1);
        await page.screenshot({ path: join(out, `${what}-${name}-${light}.png`) });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        expect(wide, `${what}: pixels that stick out at the side`).toBeLessThanOrEqual(0);
        expect(await axe(page), what).toEqual([]);
        const low = await page.evaluate(() =>
          [...document.querySelectorAll("main button, main .can, main select, main input:not([type=hidden], [type=checkbox])")]
            .filter((each) => each.getClientRects().length > 0 && each.getBoundingClientRect().height < 44)
            .map((each) => each.textContent),
        );
        expect(low, `${what}: too low for a thumb`).toEqual([]);
      }
    });
  }
}
