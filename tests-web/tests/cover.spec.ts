// Cover: what is about to be hidden, let go with a reason that stays, the sheet of an inspection, behind a wall.

import { AxeBuilder } from "@axe-core/playwright";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { expect, out, test } from "./house";

const JOB = "/j/alder-sluice";
const SIZES = [
  { name: "phone", width: 360, height: 780 },
  { name: "desk", width: 1280, height: 800 },
] as const;
const PAGES = [
  ["cover", `${JOB}/cover`],
  ["hold", `${JOB}/cover/hold/plant-fire-stopping`],
  ["hold-failed", `${JOB}/cover/hold/steam-flood`],
  ["behind", `${JOB}/behind?ask=where+is+the+pipe+in+the+main+bathroom+shower`],
] as const;

async function clean(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(wide, "nothing stands out at the side").toBeLessThanOrEqual(0);
}

for (const { name, width, height } of SIZES) {
  for (const [file, address] of PAGES) {
    test(`${file} can be read by everyone, ${name}`, async ({ page }) => {
      await page.setViewportSize({ width, height });
      await page.goto(address);
      await clean(page);
      await page.screenshot({ path: join(out, `${file}-${name}.png`), fullPage: true });
    });
  }
}

test("the bar has Cover at the desk, and More leads to it on the phone", async ({ page }) => {
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.goto(`${JOB}/now`);
  await page.locator(".bar").getByRole("link", { name: "Cover" }).click();
  await expect(page.locator("h1")).toContainText("in the next four weeks");
  await page.setViewportSize({ width: 360, height: 780 });
  await expect(page.locator(".bar").getByRole("link", { name: "Cover" })).toBeHidden();
  await page.goto(`${JOB}/more`);
  await page.getByRole("link", { name: /in the next four weeks/ }).click();
  await expect(page).toHaveURL(/\/cover$/);
});

test("a covering that lacks what is asked wants a reason and a name before it starts, and the mark stays", async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 780 });
  await page.goto(`${JOB}/work/bin-landing.ceiling/board`);
  const fold = page.getByText("It has begun all the same");
  if (await fold.count()) await fold.click();
  await page.getByRole("button", { name: /^Start/ }).click();
  await expect(page.locator("h1")).toContainText("hides it");
  await expect(page.getByText("Photo of every lap and penetration", { exact: false }).first()).toBeVisible();
  await clean(page);
  await page.screenshot({ path: join(out, "before-phone.png"), fullPage: true });
  await page.getByLabel("Why it may be covered without").fill("Photos are still on a phone");
  await page.getByLabel("Your name").fill("Rosa");
  await page.getByRole("button", { name: "Cover it without" }).click();
  await expect(page).toHaveURL(/work\/bin-landing\.ceiling\/board/);
  await expect(page.getByText("In hand since", { exact: false }).first()).toBeVisible();

  await page.goto(`${JOB}/cover`);
  const mark = page.locator("#without").locator("xpath=..").getByText(/Let go by Rosa on .*“Photos are still on a phone”/);
  // What somebody answered for stands after what nobody did, and that is much here.
  await expect(mark).toHaveCount(1);
  await page.reload();
  await expect(mark).toHaveCount(1);
  await page.locator("#without").locator("xpath=..").getByText(/more/).first().click();
  await expect(mark).toBeVisible();
});

test("an inspection is booked, fails and passes from the register", async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 780 });
  const sheet = `${JOB}/cover/hold/plant-fire-stopping`;
  await page.goto(sheet);
  await expect(page.locator(".lead")).toContainText("To book by");
  await page.getByText("Book, pass or fail").click();
  await page.getByLabel("Booked for").fill("2027-06-11");
  await page.getByRole("button", { name: /^Booked/ }).click();
  await expect(page.locator(".lead").first()).toContainText("Booked for tomorrow");
  await expect(page.locator(".lead").first()).toContainText("too soon for the notice");
  await page.getByText("Book, pass or fail").click();
  await page.getByLabel("Why it failed").fill("two collars missing");
  await page.getByRole("button", { name: /^Failed/ }).click();
  await expect(page.locator(".lead").first()).toContainText("Failed");
  await expect(page.locator(".lead").first()).toContainText("two collars missing");
  await page.getByText("Book, pass or fail").click();
  await page.getByRole("button", { name: /^Passed/ }).click();
  await expect(page.locator(".lead").first()).toContainText("after one fail");
});

test("the sheet of an inspection prints on one page of A4 and of letter", async ({ page }) => {
  await page.goto(`${JOB}/cover/hold/plant-fire-stopping`);
  for (const format of ["A4", "Letter"] as const) {
    const pdf = await page.pdf({ format, path: join(out, `hold-${format}.pdf`) });
    const pages = pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g)?.length ?? 0;
    expect(pages, format).toBe(1);
  }
});

test("somebody asks what is behind a wall without script", async ({ browser, server }) => {
  const context = await browser.newContext({ javaScriptEnabled: false, viewport: { width: 360, height: 780 } });
  const page = await context.newPage();
  await page.goto(`${server.address}${JOB}/behind`);
  await page.getByLabel("What are you looking for?").fill("heating pipes in the kitchen floor");
  await page.getByRole("button", { name: "Look" }).click();
  await expect(page.locator(".behind h2").first()).toContainText("Kitchen, floor");
  await expect(page.locator("mark").first()).toContainText(/pipes/i);
  await expect(page.getByText("with a detector before you drill")).toBeVisible();
  await context.close();
});
