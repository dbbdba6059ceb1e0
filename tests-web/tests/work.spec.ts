// The day's work: start, trouble, finish, and back again. The plan follows each time.

import { join } from "node:path";
import { expect, out, sentence, test } from "./house";

const NOW = "/j/alder-sluice/now";

for (const script of [true, false]) {
  test.describe(script ? "with script" : "without script", () => {
    test.use({ javaScriptEnabled: script, viewport: { width: 390, height: 844 } });

    test("what is started is in hand, and can be taken back", async ({ page }) => {
      await page.goto(NOW);
      const before = await sentence(page);
      const row = page.locator(".row").filter({ has: page.locator("button[value=start]:visible") }).first();
      const id = await row.getAttribute("id");
      const name = await row.locator(".row-name").innerText();
      await row.locator("button[value=start]").click();

      const started = page.locator(`[id="${id}"]`);
      await expect(started.getByRole("button", { name: /^Finish/ })).toBeVisible();
      await expect(started).toContainText("In hand");
      await expect(page.locator("#saved")).toHaveText(/^Saved \d+:\d\d$/);
      expect(await sentence(page)).not.toBe(before);
      await expect(page.locator(".taken")).toContainText(name.split(",")[0]!);
      await page.screenshot({ path: join(out, `started-${script ? "script" : "plain"}.png`) });

      await page.getByRole("button", { name: "Take it back" }).click();
      await expect(started.locator("button[value=start]").first()).toBeAttached();
      expect(await sentence(page)).toBe(before);
    });

    test("trouble becomes a cause, and goes when it is cleared", async ({ page }) => {
      const words = `The lift is broken ${script ? "again" : "still"}`;
      await page.goto(NOW);
      const row = page.locator(".row").filter({ has: page.locator("button[value=start]:visible") }).nth(1);
      await row.locator("summary").click();
      await row.locator("textarea").fill(words);
      await row.locator("input[type=date]").fill("2027-07-30");
      await row.getByRole("button", { name: "Write it down" }).click();

      const cause = page.locator(".cause").filter({ hasText: words });
      await expect(cause).toHaveCount(1);
      await expect(cause).toContainText("30 July");
      await page.screenshot({ path: join(out, `trouble-${script ? "script" : "plain"}.png`) });

      const fold = page.locator("details.fold").filter({ has: cause });
      if ((await cause.isHidden()) && (await fold.count()) > 0) await fold.locator("> summary").click();
      await cause.getByRole("button", { name: /^Cleared/ }).click();
      await expect(page.locator(".cause").filter({ hasText: words })).toHaveCount(0);
    });

    test("what is finished is gone from the page, and done on its own", async ({ page }) => {
      await page.goto(NOW);
      const row = page.locator(".row").filter({ has: page.locator("button[value=finish].do:visible") }).first();
      const id = await row.getAttribute("id");
      const link = await row.locator(".row-name a").getAttribute("href");
      await row.locator("button[value=finish]").click();
      await expect(page.locator(`[id="${id}"]`)).toHaveCount(0);
      await page.goto(link!);
      await expect(page.locator(".lead").first()).toContainText("Done");
    });
  });
}

test("a note says who wrote it", async ({ page }) => {
  await page.goto("/j/alder-sluice/more");
  await page.getByLabel("Your name").fill("Ana <b>Merrick</b>");
  await page.getByRole("button", { name: "That is me" }).click();
  await expect(page.locator(".title-block")).toContainText("Ana <b>Merrick</b>");
  await page.goto(NOW);
  const row = page.locator(".row").filter({ has: page.locator("button[value=start]:visible") }).first();
  const link = await row.locator(".row-name a").getAttribute("href");
  await row.locator("button[value=start]").click();
  await expect(page.locator(".taken")).toBeVisible();
  await page.goto(link!);
  await expect(page.getByText("Ana <b>Merrick</b>").first()).toBeVisible();
});

test("a double tap is one note", async ({ page, request }) => {
  await page.goto(NOW);
  const form = page.locator("form:has(button[value=start])").first();
  const fields = await form.evaluate((form: HTMLFormElement) =>
    Object.fromEntries([...new FormData(form)].map(([name, value]) => [name, String(value)])),
  );
  const count = async (): Promise<number> =>
    (await (await request.get("/j/alder-sluice/notes.jsonl")).text()).trim().split("\n").length;
  const before = await count();
  const press = { form: { ...fields, act: "start" } };
  await Promise.all([request.post("/j/alder-sluice/notes", press), request.post("/j/alder-sluice/notes", press)]);
  const after = await count();
  await request.post("/j/alder-sluice/notes", press);
  expect(after).toBeGreaterThan(before);
  expect(await count()).toBe(after);
});

test("by keyboard alone: from the top of the page to a started thing", async ({ page }) => {
  await page.goto(NOW);
  await page.keyboard.press("Tab");
  await expect(page.getByText("Skip to the page")).toBeFocused();
  await page.keyboard.press("Enter");
  for (let step = 0; step < 60; step++) {
    await page.keyboard.press("Tab");
    if (await page.evaluate(() => document.activeElement?.matches("button[value=start]"))) break;
  }
  const id = await page.evaluate(() => document.activeElement!.closest(".row")!.id);
  await page.keyboard.press("Enter");
  const row = page.locator(`[id="${id}"]`);
  await expect(row.getByRole("button", { name: /^Finish/ })).toBeVisible();
  await expect(row.locator(":focus")).toHaveCount(1);
});
