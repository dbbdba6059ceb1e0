// What the plan is worth: what drives it, what has time to spare, how sure the dates are, what would win time back, and
// what would be if.

import { AxeBuilder } from "@axe-core/playwright";
import { join } from "node:path";
import { expect, out, settled, sizes, test } from "./house";

const JOB = "/j/alder-sluice";

test("the time from now to the last milestone is told step by step, and adds up", async ({ page }) => {
  await page.goto(`${JOB}/work/handover`);
  const whole = await page.locator("#chain").innerText();
  const spans = await page.locator(".chain-span").allInnerTexts();
  expect(spans.length).toBeGreaterThan(3);
  const minutes = (words: string): number =>
    [...words.matchAll(/(\d+) (day|h|min)/gi)].reduce(
      (sum, [, number, unit]) => sum + Number(number) * { d: 1440, h: 60, m: 1 }[unit!.toLowerCase()[0]!]!,
      0,
    );
  expect(spans.map(minutes).reduce((a, b) => a + b)).toBe(minutes(whole));
});

test("a better order is looked for behind the page, and shown when asked for", async ({ page }) => {
  await page.goto(`${JOB}/now`);
  const line = page.locator("[data-live] .live-line");
  await expect(line).not.toBeEmpty();
  await settled(page);
  await expect(line).not.toContainText("Looking", { timeout: 10_000 });
  const offer = page.getByRole("link", { name: "Show it" });
  if (await offer.isVisible()) {
    const top = (await page.locator("#can-start").boundingBox())?.y;
    await offer.click();
    await expect(offer).toBeHidden();
    expect((await page.locator("#can-start").boundingBox())?.y).toBe(top);
  }
});

test("what has time to spare has a tail, and what drives a date has none", async ({ page }) => {
  await page.goto(`${JOB}/weeks`);
  await settled(page);
  await page.reload();
  expect(await page.locator(".weeks-body .spare").count()).toBeGreaterThan(10);
  const drives = page.locator(".weeks-body a.drives");
  expect(await drives.count()).toBeGreaterThan(0);
  const said = await drives.evaluateAll((bars) => bars.map((bar) => bar.getAttribute("aria-label") ?? ""));
  expect(said.filter((words) => words.includes("Can wait"))).toEqual([]);
  await page.getByText("What the lines and hatches mean").click();
  await expect(page.getByText("drives the finish or a milestone: nothing to spare")).toBeVisible();
});

for (const size of sizes) {
  test.describe(`on the ${size.name}`, () => {
    test.use({ viewport: { width: size.width, height: size.height } });

    test("ways to win time back are looked for, and none is done by itself", async ({ page, request }) => {
      test.setTimeout(120_000);
      await settled(page);
      const before = (await (await request.get(`${JOB}/notes.jsonl`)).text()).split("\n").length;
      await page.goto(`${JOB}/now`);
      await page.getByRole("link", { name: "Win time back" }).click();
      await page.getByLabel("Which date").selectOption({ label: "Handed over" });
      await page.getByRole("button", { name: /^Look/ }).click();
      const ways = page.locator(".way");
      await expect(ways.first()).toBeVisible({ timeout: 60_000 });
      await expect(page.locator("h1")).toContainText("Handed over");
      await expect(ways.first().locator(".way-won")).toContainText(/\d+\s+days?/);
      await ways.first().getByText("How to put it into effect").click();
      await ways.first().getByText("Who must hear of it").click();
      await page.screenshot({ path: join(out, `ways-${size.name}.png`), fullPage: true });
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      const after = (await (await request.get(`${JOB}/notes.jsonl`)).text()).split("\n").length;
      expect(after).toBe(before);
    });
  });
}

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("ways to win time back are there once the page is loaded again", async ({ page }) => {
    await page.goto(`${JOB}/win-back?for=kitchen-ready`);
    await page.getByRole("button", { name: /^Look/ }).click();
    await expect(page.locator("h1")).toContainText("Kitchen in use");
    await expect(async () => {
      await page.goto(`${JOB}/win-back?for=kitchen-ready`);
      await expect(page.locator("[data-live-at-once]")).toHaveCount(0, { timeout: 500 });
    }).toPass({ timeout: 30_000 });
    expect(await page.locator(".way, #nothing").count()).toBeGreaterThan(0);
  });
});

test("how sure the dates are comes a moment later, and has a page of its own", async ({ page }) => {
  await page.goto(`${JOB}/now`);
  const chances = page.locator("[data-live-chances]");
  await settled(page);
  await expect(chances).toContainText(/Even chance .* four in five/, { timeout: 15_000 });
  await chances.click();
  await expect(page.locator("h1")).toContainText("Even chance");
  expect(await page.locator(".prospect").count()).toBeGreaterThan(3);
  expect(await page.locator(".prospect svg.curve").count()).toBe(await page.locator(".prospect").count());
  await page.locator(".prospect").first().getByText("What drives it").click();
  await expect(page.locator(".prospect").first().getByRole("link").first()).toBeVisible();
  await page.screenshot({ path: join(out, "forecast-whole.png"), fullPage: true });
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
});

for (const script of [true, false]) {
  test.describe(script ? "what if, with script" : "what if, without script", () => {
    test.use({ javaScriptEnabled: script, viewport: { width: 390, height: 844 } });

    test("a late delivery is supposed first and a note only when it is so", async ({ page }) => {
      await page.goto(`${JOB}/what-if?about=range-cooker`);
      await page.locator("#about-arrives").selectOption("stair-glass");
      await page.locator("#on-arrives").fill("2027-10-08");
      await page.getByRole("button", { name: "What then? A delivery comes on another day" }).click();
      await expect(page.locator("h1")).toContainText("later");
      await expect(page.getByRole("row", { name: /Handed over/ })).toContainText("later");
      const notes = async (): Promise<number> =>
        (await (await page.request.get(`${JOB}/notes.jsonl`)).text()).trim().split("\n").length;
      const before = await notes();
      await page.screenshot({ path: join(out, `what-if-${script ? "script" : "plain"}.png`), fullPage: true });
      await page.getByRole("button", { name: "It is so: write it down" }).click();
      await expect(page.locator(".taken")).toContainText("date written down");
      expect(await notes()).toBe(before + 1);
      await page.getByRole("button", { name: "Take it back" }).click();
      await expect(page.locator(".taken")).toContainText("taken back");
    });
  });
}
