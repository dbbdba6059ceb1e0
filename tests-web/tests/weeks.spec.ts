// The weeks and the house: how far ahead, whose work, which place, and why.

import { join } from "node:path";
import { expect, out, sizes, test } from "./house";

const WEEKS = "/j/alder-sluice/weeks";

for (const size of sizes) {
  test.describe(`on the ${size.name}`, () => {
    test.use({ viewport: { width: size.width, height: size.height } });

    test("two weeks, six weeks, all", async ({ page }) => {
      await page.goto(WEEKS);
      const bars = page.locator("[data-weeks] [data-row] a");
      const six = await bars.count();
      await page.locator(".pick").getByText("2 weeks").click();
      await expect(page.locator(".pick").getByText("2 weeks")).toHaveAttribute("aria-current", "true");
      expect(await bars.count()).toBeLessThan(six);
      await page.locator(".pick").getByText("All").click();
      await expect(page.locator(".pick").getByText("All")).toHaveAttribute("aria-current", "true");
      expect(await bars.count()).toBeGreaterThan(six);
    });

    test("one trade, one place", async ({ page }) => {
      await page.goto(WEEKS);
      const bars = page.locator("[data-weeks] [data-row] a");
      const all = await bars.count();
      await page.getByRole("combobox", { name: "Trade" }).selectOption({ index: 2 });
      await page.waitForURL(/trade=\w/);
      const few = await bars.count();
      expect(few).toBeLessThan(all);
      await page.goto(`${WEEKS}?place=mill-hall`);
      await expect(page.locator("[data-weeks] [data-row]")).toHaveCount(1);
    });

    test("touching a bar tells why it is not sooner", async ({ page }) => {
      await page.goto(`${WEEKS}?weeks=2`);
      const bar = page.locator("[data-weeks] [data-row] a.to-come").first();
      await bar.focus();
      await page.keyboard.press("Enter");
      const panel = page.locator("#panel");
      await expect(panel.getByRole("heading", { name: "Why not sooner" })).toBeVisible();
      await expect(panel.locator(".panel-name")).toBeFocused();
      await page.screenshot({ path: join(out, `panel-${size.name}.png`) });
      await page.keyboard.press("Escape");
      await expect(panel).toBeHidden();
      await expect(bar).toBeFocused();
    });
  });
}

test("without script a bar leads to a page of its own", async ({ browser, server }) => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(server.address + WEEKS);
  const link = await page.locator("[data-weeks] [data-row] a.to-come").first().getAttribute("href");
  await page.goto(server.address + link);
  await expect(page.getByRole("heading", { name: "Why not sooner" })).toBeVisible();
  await context.close();
});

test("a shut floor is hatched over every place that it cuts off", async ({ page }) => {
  await page.goto(`${WEEKS}?weeks=all`);
  expect(await page.locator("[data-weeks] .shut").count()).toBeGreaterThan(0);
});

test("the house shows every place with its faces, and leads to its weeks", async ({ page }) => {
  await page.goto("/j/alder-sluice/house");
  const rooms = page.locator(".house .room");
  expect(await rooms.count()).toBeGreaterThan(25);
  await rooms.first().getByRole("link").first().click();
  await page.waitForURL(/weeks\?place=/);
  await expect(page.locator("[data-weeks] [data-row]")).toHaveCount(1);
});
