// Rules: what is not kept first, each with its working, and a rule worked out with figures of one's own.

import { AxeBuilder } from "@axe-core/playwright";
import { join } from "node:path";
import { expect, out, test } from "./house";

const RULES = "/j/alder-sluice/rules";

test("Fit and More lead to Rules, and the bar stays as it is", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  for (const from of ["fit", "more"]) {
    await page.goto(`/j/alder-sluice/${from}`);
    await page.getByRole("link", { name: /rules of the trade or the code are not kept/ }).click();
    await page.waitForURL(/\/rules$/);
    await expect(page.locator(".bar a:visible")).toHaveCount(5);
  }
});

test("what is not kept leads to its working, its source and its caution", async ({ page }) => {
  await page.goto(RULES);
  await page.getByRole("link", { name: /make-up air/ }).first().click();
  await expect(page.locator("h1")).toContainText("150 L/s; at least 252 L/s");
  await expect(page.locator(".rule-working > .broken")).toHaveCount(1);
  await expect(page.getByText("(published)").first()).toBeVisible();
  await expect(page.getByText(/Check with the authority having jurisdiction/)).toBeVisible();
});

test("a rule that fails is tried with other figures until it is kept", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto(`${RULES}/make-up-air/kitchen-hood`);
  await page.getByRole("link", { name: "Try other figures" }).click();
  await expect(page.getByLabel("The air brought in while the hood runs")).toHaveValue("150 L/s");
  await page.getByLabel("The air brought in while the hood runs").fill("260 L/s");
  await page.getByRole("button", { name: "Work it out" }).click();
  await expect(page.locator(".rule-working > .broken")).toHaveCount(0);
  await expect(page.locator(".rule-working > .kept")).toHaveCount(2);
});

test("what cannot be read is asked for again, and nothing typed is lost", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto(`${RULES}/work-out/riser-and-going`);
  await page.getByLabel("The riser", { exact: true }).fill("soon");
  await page.getByLabel(/^The going/).fill("250 mm");
  await page.getByRole("button", { name: "Work it out" }).click();
  await expect(page.locator(".fault")).toHaveCount(1);
  await expect(page.getByLabel("The riser", { exact: true })).toHaveValue("soon");
  await expect(page.getByLabel(/^The going/)).toHaveValue("250 mm");
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  await page.screenshot({ path: join(out, "work-out-fault.png"), fullPage: true });
});
