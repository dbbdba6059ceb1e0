// Every page at both sizes and in both lights: nothing sticks out, axe finds nothing, and a picture is kept.

import { AxeBuilder } from "@axe-core/playwright";
import { join } from "node:path";
import { expect, out, pages, sizes, test } from "./house";

for (const size of sizes) {
  for (const light of ["light", "dark"] as const) {
    for (const [name, path] of pages) {
      test(`${name} on the ${size.name}, ${light}`, async ({ page }) => {
        await page.setViewportSize(size);
        await page.emulateMedia({ colorScheme: light });
        const answer = await page.goto(path);
        expect(answer?.status()).toBe(200);
        await expect(page.locator("h1")).toHaveCount(1);
        await page.screenshot({ path: join(out, `${name}-${size.name}-${light}.png`) });

        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        expect(wide, "pixels that stick out at the side").toBeLessThanOrEqual(0);

        // A thousand bars of one kind: once at each size is enough.
        if (name.startsWith("weeks-") && (size.name === "phone") !== (light === "light")) return;
        const { violations } = await new AxeBuilder({ page }).analyze();
        const found = violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => node.html).join(" | ")}`);
        expect(found).toEqual([]);
      });
    }
  }
}

test("touch targets on the phone are 44 px high and text is not below 14.5 px", async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto("/j/alder-sluice/now");
  const low = await page.evaluate(() =>
    [...document.querySelectorAll("main button, .bar a, main summary")]
      .filter((each) => each.getClientRects().length > 0 && each.getBoundingClientRect().height < 44)
      .map((each) => each.textContent),
  );
  expect(low).toEqual([]);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("main *")]
      .filter((each) => [...each.childNodes].some((node) => node.nodeType === 3 && node.textContent!.trim() !== ""))
      .filter((each) => each.getClientRects().length > 0 && parseFloat(getComputedStyle(each).fontSize) < 14.5)
      .map((each) => each.outerHTML.slice(0, 80)),
  );
  expect(small).toEqual([]);
});

test("a printed page has the address and no buttons", async ({ page }) => {
  await page.goto("/j/alder-sluice/now");
  await page.emulateMedia({ media: "print" });
  await expect(page.getByText(/http:\/\/127\.0\.0\.1:\d+\/j\/alder-sluice\/now/)).toBeVisible();
  await expect(page.getByText("Plan made")).toBeVisible();
  await expect(page.getByRole("button", { name: /^Start/ }).first()).toBeHidden();
  await page.screenshot({ path: join(out, "now-print.png") });
});
