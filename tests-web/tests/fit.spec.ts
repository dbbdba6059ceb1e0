// Fit: what is in trouble, a need to scale, a reading by thumb, by keyboard and without script, and going on as it is.

import { AxeBuilder } from "@axe-core/playwright";
import { join } from "node:path";
import { expect, out, sizes, test } from "./house";

const FIT = "/j/alder-sluice/fit";

/** The pages of fit of the mill. */
const PAGES = [
  ["fit", FIT],
  ["fit-grille", `${FIT}/need/kitchen-slot-grille.flush`],
  ["fit-glass", `${FIT}/need/dining-glass.flush`],
  ["fit-threshold", `${FIT}/need/bin-studio.threshold`],
  ["fit-rail", `${FIT}/need/stair-upper-rail.clear`],
  ["fit-pocket", `${FIT}/need/dressing-pocket.far-play`],
  ["fit-unknown", `${FIT}/need/guest-valve.flush`],
  ["fit-paper", `${FIT}/need/kitchen-slot-grille.flush/paper?at=1:1`],
  ["fit-opening", `${FIT}/opening/wheel-opening`],
  ["fit-stair", `${FIT}/stair/stair-upper`],
  ["fit-plane", `${FIT}/plane/tower-plane`],
  ["fit-read", `${FIT}/read?about=kitchen.floor&what=from%20mill-floor&need=hall-kitchen.threshold`],
  ["set-out", `${FIT}/set-out`],
  ["set-out-gaps", `${FIT}/set-out/gaps?clear=1830&piece=38&under=102`],
  ["set-out-boards", `${FIT}/set-out/boards?row=3000&piece=600&joint=3&edge=5&least=150&centres=1000`],
  ["set-out-risers", `${FIT}/set-out/risers`],
  ["set-out-cuts", `${FIT}/set-out/cuts?pieces=jamb:%206%20x%202100%0Ahead:%203%20x%20980&stock=4800%0A3600`],
  ["set-out-pocket", `${FIT}/set-out/pocket?clear=16%0A15.5%0A16&piece=12&seals=2&play=1.5`],
  ["set-out-wood", `${FIT}/set-out/wood?species=white%20oak&board=178&across=4200&edge=15`],
  ["set-out-shims", `${FIT}/set-out/shims`],
  ["set-out-empty", `${FIT}/set-out/pocket`],
] as const;

for (const size of sizes) {
  for (const light of ["light", "dark"] as const) {
    for (const [name, path] of PAGES) {
      test(`${name} on the ${size.name}, ${light}`, async ({ page }) => {
        await page.setViewportSize(size);
        await page.emulateMedia({ colorScheme: light });
        const answer = await page.goto(path);
        expect(answer?.status()).toBe(200);
        await expect(page.locator("h1")).toHaveCount(1);
        await page.screenshot({ path: join(out, `${name}-${size.name}-${light}.png`), fullPage: true });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        expect(wide, "pixels that stick out at the side").toBeLessThanOrEqual(0);
        const { violations } = await new AxeBuilder({ page }).analyze();
        const found = violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => node.html).join(" | ")}`);
        expect(found).toEqual([]);
      });
    }
  }
}

test("the bar has five words on the phone, and Fit is one of them", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto("/j/alder-sluice/now");
  await expect(page.locator(".bar a:visible")).toHaveText(["Now", "Walk", "Weeks", "Fit", "More"]);
  await page.getByText(/fits are in trouble/).click();
  await page.waitForURL(/fit/);
  await expect(page.locator(".bar a[aria-current]")).toHaveText("Fit");
});

test("what is in trouble leads to its section, its working and its file", async ({ page }) => {
  await page.goto(FIT);
  await page.getByRole("link", { name: /slot grille/ }).first().click();
  await expect(page.locator("h1")).toContainText("2.2 mm");
  await expect(page.locator(".fit-section").first()).toBeAttached();
  await expect(page.getByRole("heading", { name: "Working" })).toBeVisible();
  const download = page.waitForEvent("download");
  await page.getByRole("link", { name: /for the shop/ }).click();
  expect((await download).suggestedFilename()).toMatch(/\.dxf$/);
});

test("a section prints at full size without its buttons", async ({ page }) => {
  await page.goto(`${FIT}/need/kitchen-slot-grille.flush/paper?at=1:1`);
  await expect(page.getByRole("button", { name: "Print it" })).toBeVisible();
  await page.emulateMedia({ media: "print" });
  await expect(page.getByRole("button", { name: "Print it" })).toBeHidden();
  const wide = await page.locator(".paper-sheet svg").evaluate((svg) => svg.getBoundingClientRect().width);
  // 186 mm of paper are 703 px (CSS Values and Units, section 6.2, absolute lengths).
  expect(Math.abs(wide - 703)).toBeLessThan(1);
  await page.screenshot({ path: join(out, "fit-paper-print.png"), fullPage: true });
});

test("the keys of a reading are large, and work with one thumb", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto(`${FIT}/read?about=wheel-opening&what=width&need=wheel-screen.width`);
  const keys = page.locator(".key");
  const small = await keys.evaluateAll((all) =>
    all.filter((each) => each.getBoundingClientRect().height < 44 || each.getBoundingClientRect().width < 44).length,
  );
  expect(small).toBe(0);
  for (const key of ["3", "2", "1", "9", ".", "5"]) await page.getByRole("button", { name: key, exact: true }).click();
  await page.getByRole("button", { name: "Rub out" }).click();
  await page.getByRole("button", { name: "Rub out" }).click();
  await expect(page.locator("#figure")).toHaveValue("3219");
  await page.screenshot({ path: join(out, "fit-read-typed.png") });
  await page.getByRole("button", { name: "Write it down" }).click();
  await page.waitForURL(/wheel-screen\.width\?wrote=/);
  await expect(page.getByRole("heading", { name: "What that changed" })).toBeVisible();
  await expect(page.locator("h1")).toBeFocused();
  await page.screenshot({ path: join(out, "fit-changed.png"), fullPage: true });
  await page.getByRole("button", { name: "Take it back" }).click();
  await expect(page.locator(".taken")).toContainText("taken back");
});

test("a figure that was missing settles a fit", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto(`${FIT}/need/guest-valve.flush`);
  await expect(page.locator("h1")).toContainText("Ask ");
  await page.getByRole("link", { name: /^Enter a reading/ }).click();
  for (const key of ["9", "5"]) await page.getByRole("button", { name: key, exact: true }).click();
  await page.getByRole("button", { name: "Write it down" }).click();
  await page.waitForURL(/guest-valve\.flush\?wrote=/);
  await expect(page.locator("#main")).toContainText(/It was: nobody can tell yet\. Now: (holds|tight|will not come right)\./);
  await expect(page.locator("h1")).not.toContainText("Ask ");
});

test("a reading by keyboard alone", async ({ page }) => {
  await page.goto(`${FIT}/read?about=kitchen.floor&what=from%20mill-floor&need=hall-kitchen.threshold`);
  await page.getByRole("radio", { name: "Below" }).focus();
  await page.keyboard.press("Space");
  await page.keyboard.press("Tab");
  await page.keyboard.type("42");
  await page.keyboard.press("Enter");
  await page.waitForURL(/hall-kitchen\.threshold\?wrote=/);
  await expect(page.getByRole("heading", { name: "What that changed" })).toBeVisible();
});

test("what is no length is asked for again, and nothing typed is lost", async ({ page }) => {
  await page.goto(`${FIT}/read?about=cellar-doorway&what=width&need=cellar-door.width`);
  await page.locator("#figure").fill("a hand");
  await page.getByRole("button", { name: "Write it down" }).click();
  await expect(page.locator(".fault")).toBeVisible();
  await expect(page.locator("#figure")).toHaveValue("a hand");
  await expect(page.locator("#figure")).toBeFocused();
});

test("somebody lets a fit go on as it is, by name and with a reason", async ({ page }) => {
  await page.goto(`${FIT}/need/dining-glass.flush`);
  await page.getByText("Let it go on as it is").click();
  await page.getByLabel("Who decides").fill("Ana Merrick");
  await page.getByLabel("Why that will do").fill("The joint is behind the curtain.");
  await page.getByRole("button", { name: "Go on as it is" }).click();
  await expect(page.getByText("Goes on as it is: decided by Ana Merrick.")).toBeVisible();
  await page.getByRole("button", { name: "Hold it up again" }).click();
  await expect(page.getByText("Let it go on as it is")).toBeVisible();
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } });

  test("a reading is a plain form", async ({ page }) => {
    await page.goto(`${FIT}/read?about=scullery.floor&what=from%20mill-floor&need=kitchen-scullery.threshold`);
    await expect(page.locator(".pad")).toBeHidden();
    await page.getByLabel("Below").check();
    await page.locator("#figure").fill("35.5");
    await page.getByRole("button", { name: "Write it down" }).click();
    await page.waitForURL(/kitchen-scullery\.threshold\?wrote=/);
    await expect(page.getByRole("heading", { name: "What that changed" })).toBeVisible();
  });
});

test("figures that cannot be read come back with what was typed, by keyboard and without script", async ({ browser, server }) => {
  const context = await browser.newContext({ javaScriptEnabled: false, baseURL: server.address });
  const page = await context.newPage();
  await page.goto(`${FIT}/set-out/gaps`);
  await page.getByLabel("Clear length between the ends").fill("a hand");
  await page.getByLabel("Width of one piece").fill("38");
  await page.getByLabel("Every gap under").fill("102");
  await page.keyboard.press("Enter");
  await expect(page.locator("#clear")).toHaveValue("a hand");
  await expect(page.locator("#clear-fault")).toContainText("is no length");
  await page.locator("#clear").fill("1830");
  await page.getByRole("button", { name: "Set it out" }).click();
  await expect(page.locator("h1")).toContainText("13 pieces of 38");
  expect(page.url()).toContain("clear=1830");
  await context.close();
});
