// The survey of a house that somebody else left half-done: marks in a few taps a room, what nobody knows, a look in the
// plan. Each test file has a house of its own: here the small house that `grounds new` makes.

import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { AxeBuilder } from "@axe-core/playwright";
import { test as base, expect, type Page } from "@playwright/test";
import { folder, out, Server } from "./house";

const test = base.extend<object, { house: Server }>({
  house: [
    async ({}, use) => {
      const data = folder();
      const program = process.env["GROUNDS_BIN"]!;
      const job = join(data.path, "small-house");
      execFileSync(program, ["new", job]);
      const text = readFileSync(join(job, "job.toml"), "utf8");
      // Taken over today, not next summer.
      const begins = new Date(Date.now() - 14 * 86_400_000).toISOString().slice(0, 10);
      writeFileSync(join(job, "job.toml"), text.replace(/begins = "[\d-]+"/, `begins = "${begins}"`).replace(/due = "[\d-]+"/, 'due = "2030-06-28"'));
      execFileSync(program, ["import", job, "--data", data.path]);
      const house = await Server.start(data.path, []);
      await use(house);
      await house.stop();
      data.remove();
    },
    { scope: "worker" },
  ],
  baseURL: async ({ house }, use) => use(house.address),
});

const SURVEY = "/j/small-house/survey";

async function fair(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);
  expect(wide, "no sideways scroll").toBe(false);
}

/** Taps a layer of a face, and counts. */
let taps = 0;
async function tap(page: Page, face: string, layer: string | RegExp): Promise<void> {
  taps += 1;
  const button = page.getByRole("group", { name: face }).getByRole("button", { name: layer });
  await button.click();
  await expect(button).toHaveAttribute("aria-pressed", "true");
}

async function press(page: Page, role: "link" | "button", name: string | RegExp): Promise<void> {
  taps += 1;
  await page.getByRole(role, { name }).first().click();
}

test.describe.configure({ mode: "serial", timeout: 150_000 });
test.use({ viewport: { width: 360, height: 740 }, actionTimeout: 20_000 });

test("the first page of a house without notes offers a survey", async ({ page }) => {
  await page.goto("/j/small-house/now");
  await page.getByRole("link", { name: "Survey the house" }).click();
  await expect(page.locator("h1")).toHaveText("0 of 3 places looked at.");
  await page.screenshot({ path: join(out, "survey-begin-phone.png"), fullPage: true });
  await fair(page);
});

test("three rooms are surveyed in a few taps each, one of them as a copy", async ({ page }) => {
  await page.goto(SURVEY);
  taps = 0;
  await press(page, "link", /Begin with: /);
  await expect(page.locator("h1")).toContainText("Bathroom");
  await page.screenshot({ path: join(out, "survey-room-phone.png"), fullPage: true });
  await fair(page);
  await tap(page, "walls", /^Wall tile/);
  await tap(page, "floor", "Cannot see");
  await tap(page, "ceiling", /^Moisture-resistant board/);
  await page.screenshot({ path: join(out, "survey-room-marked-phone.png"), fullPage: true });
  await fair(page);
  await press(page, "link", /Next: Front room/);
  await tap(page, "walls", /^Plasterboard/);
  await tap(page, "ceiling", "Nothing yet");
  await tap(page, "floor", "Nothing yet");
  await press(page, "link", /Next: Hall/);
  await press(page, "button", /Same as Front room/);
  await expect(page.locator("h1")).toHaveText("Hall: looked at.");
  await page.goto(SURVEY);
  await expect(page.locator("h1")).toHaveText("All 3 places are looked at.");
  console.log(`taps per room: ${(taps / 3).toFixed(1)}`);
  expect(taps / 3, "taps per room").toBeLessThanOrEqual(6);
});

test("what lies behind is kept apart from what was seen", async ({ page }) => {
  await page.goto(`${SURVEY}/in/bath`);
  const walls = page.getByRole("group", { name: "walls" });
  await expect(walls.getByRole("button", { name: /^Wall tile/ })).toContainText("seen");
  await expect(walls.getByText("behind, not seen").first()).toBeVisible();
  const log = await (await page.request.get("/j/small-house/notes.jsonl")).text();
  const notes = log.trim().split("\n").map((line) => JSON.parse(line) as { about: string; kind: string; presumed?: boolean });
  const tile = notes.find((note) => note.about === "bath.walls/tile" && note.kind === "done");
  expect(tile?.presumed).toBeUndefined();
  expect(notes.some((note) => note.about.startsWith("bath.walls/") && note.presumed)).toBe(true);
});

test("a slip is taken back, and tapping again corrects", async ({ page }) => {
  await page.goto(`${SURVEY}/in/hall`);
  const ceiling = page.getByRole("group", { name: "ceiling" });
  const before = await ceiling.locator("[aria-pressed=true]").innerText();
  await ceiling.getByRole("button").nth(1).click();
  await expect(ceiling.getByRole("button").nth(1)).toHaveAttribute("aria-pressed", "true");
  await ceiling.getByRole("button", { name: before }).click();
  await expect(ceiling.locator("[aria-pressed=true]")).toHaveText(before);
  await page.getByRole("button", { name: "Take it back" }).click();
  await expect(ceiling.locator("[aria-pressed=true]")).toHaveCount(0);
  await ceiling.getByRole("button", { name: "Nothing yet" }).click();
  await expect(page.locator("h1")).toHaveText("Hall: looked at.");
});

test("what nobody knows is ranked, and a look goes into the plan", async ({ page }) => {
  await page.goto(SURVEY);
  const first = page.locator(".unknown").first();
  await expect(first.locator("h3")).toContainText("?");
  await page.screenshot({ path: join(out, "survey-unknown-phone.png"), fullPage: true });
  await fair(page);
  const pipes = page.locator(".unknown", { hasText: /Behind the wall tile.*(pipes|cables)/ }).first();
  await pipes.getByRole("button", { name: /^Open it and look/ }).click();
  await expect(pipes.getByText(/Decided: open it and look, planned/)).toBeVisible();
  await page.goto("/j/small-house/weeks?weeks=all");
  await expect(page.getByRole("link", { name: /^Look behind the wall tile for/ }).first()).toBeAttached();
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.screenshot({ path: join(out, "survey-weeks-desk.png"), fullPage: true });
});

test("letting go is by name and with a reason", async ({ page }) => {
  await page.goto(SURVEY);
  const unknown = page.locator(".unknown").filter({ hasNotText: "Decided:" }).first();
  const asks = await unknown.locator("h3").innerText();
  await unknown.getByText("Let it go").first().click();
  await unknown.getByLabel("Who lets it go").fill("Ines Harrow");
  await unknown.getByLabel("Why that will do").fill("Photos of the last builder show it");
  await unknown.getByRole("button", { name: "Let it go" }).click();
  const same = page.locator(".unknown", { hasText: asks }).first();
  await expect(same.getByText(/Let go by Ines Harrow, .*Photos of the last builder show it/)).toBeVisible();
});

test("a look that finds nothing takes off what covers it and puts the work back", async ({ page }) => {
  await page.goto("/j/small-house/survey");
  await page.getByRole("link", { name: /^Look behind the wall tile for/ }).first().click();
  await page.getByRole("button", { name: /^Not there/ }).click();
  await expect(page.getByRole("button", { name: "Take it back" })).toBeVisible();
  await page.goto(`${SURVEY}/in/bath`);
  const walls = page.getByRole("group", { name: "walls" });
  await expect(walls.locator("[aria-pressed=true]")).not.toContainText("Wall tile");
});

test("a piece is on site, and is held against its opening", async ({ page }) => {
  await page.goto(`${SURVEY}/in/bath`);
  await page.getByRole("button", { name: /^On site.*Shower screen/ }).click();
  await page.goto(SURVEY);
  await expect(page.getByRole("heading", { name: /^Shower screen: / })).toBeVisible();
});

test("the survey works without script", async ({ browser, baseURL }) => {
  const context = await browser.newContext({ javaScriptEnabled: false, viewport: { width: 360, height: 740 }, baseURL: baseURL! });
  const page = await context.newPage();
  await page.goto(`${SURVEY}/in/front-room`);
  await page.getByRole("group", { name: "floor" }).getByRole("button", { name: "Cannot see" }).click();
  const pressed = page.getByRole("group", { name: "floor" }).locator("[aria-pressed=true]");
  await expect(pressed).toHaveText("Cannot see");
  await context.close();
});

test("at the desk the survey stands in two columns and is fair", async ({ page }) => {
  await page.setViewportSize({ width: 1280, height: 800 });
  for (const [name, path] of [["survey", SURVEY], ["survey-room", `${SURVEY}/in/bath`]] as const) {
    await page.goto(path);
    await page.screenshot({ path: join(out, `${name}-desk.png`), fullPage: true });
    await fair(page);
  }
});
