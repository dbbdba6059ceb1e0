// The walk on the phone: a day without a signal, a server that is killed half way, two phones that disagree.

import { AxeBuilder } from "@axe-core/playwright";
import { join } from "node:path";
import { type Browser, type BrowserContext, expect, type Page, test } from "@playwright/test";
import { folder, out, Server } from "./house";
import { jpegWithTags } from "./photos";

const JOB = "/j/alder-sluice";
const PHONE = { viewport: { width: 360, height: 640 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true };
const NOTES = 200;
const PHOTOS = 20;

type Line = { id: string; by: string; about: string; kind: string; words?: string; photos?: string[]; replaces?: string };

/** The photos that went to the server, as it was given them. */
type Given = Map<string, { times: number; taken: string | undefined; facing: string | undefined; bytes: Buffer }>;

async function phone(browser: Browser, server: Server, name: string): Promise<{ context: BrowserContext; page: Page; given: Given }> {
  const context = await browser.newContext({ ...PHONE, baseURL: server.address });
  const given: Given = new Map();
  await context.route("**/api/jobs/*/photos/*", async (route) => {
    const request = route.request();
    const key = request.url().split("/").at(-1)!;
    const headers = await request.allHeaders();
    const before = given.get(key)?.times ?? 0;
    given.set(key, { times: before + 1, taken: headers["x-taken"], facing: headers["x-facing"], bytes: request.postDataBuffer()! });
    await route.continue();
  });
  const page = await context.newPage();
  await page.addInitScript((name) => localStorage.setItem("grounds-who", name), name);
  await page.goto(`${JOB}/walk`);
  await expect(page.locator(".queue-line")).toBeVisible();
  await expect
    .poll(() => page.evaluate(async (job) => !!(await caches.match(`${job}/walk.json`)) && !!(await caches.match(`${job}/walk`)) && !!navigator.serviceWorker.controller, JOB))
    .toBe(true);
  return { context, page, given };
}

async function log(server: Server): Promise<Line[]> {
  const text = await (await fetch(`${server.address}${JOB}/notes.jsonl`)).text();
  return text.trim().split("\n").map((line) => JSON.parse(line) as Line);
}

const line = (page: Page) => page.locator(".queue-line");

/** Taps the buttons of the open rows of one place, as far as they go. */
async function tapPlace(page: Page, most: number): Promise<number> {
  return page.evaluate(async (most) => {
    const count = (): number => document.querySelectorAll(".walk-row .walk-noted").length;
    let taps = 0;
    const ids = [...document.querySelectorAll<HTMLElement>(".walk-rows > .walk-row:not(.done)")].map(({ id }) => id);
    for (const id of ids) {
      if (taps >= most) break;
      const button = document.getElementById(id)?.querySelector<HTMLButtonElement>(".taps button:not(.taps-more)");
      if (!button) continue;
      const before = count();
      button.click();
      for (let turn = 0; turn < 200 && count() === before; turn++) await new Promise((pass) => setTimeout(pass, 10));
      if (count() === before) throw new Error(`a tap on ${id} noted nothing`);
      taps++;
    }
    return taps;
  }, most);
}

async function takePhoto(page: Page, index: number): Promise<void> {
  await page.getByRole("button", { name: /^Photo, words or air/ }).click();
  const file = { name: `p${index}.jpg`, mimeType: "image/jpeg", buffer: await jpegWithTags(page, index) };
  await page.locator(index % 2 ? "#sheet-camera" : "#sheet-gallery").setInputFiles(file);
  await expect(page.locator(".sheet-photos canvas")).toHaveCount(1);
  await page.getByRole("button", { name: "Write it down" }).click();
  await expect(page.locator("dialog")).toHaveCount(0);
}

test("a day without a signal: two hundred notes and their photos, a closed tab, a killed server, all there once", async ({ browser }) => {
  test.setTimeout(600_000);
  const data = folder();
  let server = await Server.start(data.path);
  const before = (await log(server)).length;
  const { context, page } = await phone(browser, server, "Ana");
  await context.setOffline(true);

  // A dozen by thumb, from place to place.
  await page.locator(".walk-to").first().tap();
  let noted = 0;
  while (noted < 12) {
    const rows = page.locator(".walk-rows > .walk-row:not(:has(.walk-noted)):not(.done):visible:has(.taps button:not(.taps-more))");
    if ((await rows.count()) === 0) {
      await page.locator(".route [rel=next]").tap();
      continue;
    }
    const row = page.locator(`[id="${await rows.first().getAttribute("id")}"]`);
    await row.locator(".taps button").first().tap();
    await expect(row.locator(".walk-noted")).toContainText("not yet sent");
    noted++;
  }
  await page.screenshot({ path: join(out, "walk-offline.png") });
  for (let index = 0; index < PHOTOS; index++) {
    await takePhoto(page, index);
    noted++;
    if (index % 5 === 4) await page.locator(".route [rel=next]").tap();
  }
  while (noted < NOTES) {
    noted += await tapPlace(page, NOTES - noted);
    if (noted < NOTES) await page.locator(".route [rel=next]").tap();
  }
  await expect(line(page)).toContainText(new RegExp(`^${NOTES} notes and ${PHOTOS} photos wait for a signal; oldest \\d+:\\d\\d\\.`));

  // The tab is closed, the phone put away, and all opened again without a signal.
  await page.close();
  const again = await context.newPage();
  await again.goto(`${JOB}/walk`);
  await expect(again.locator("h1")).toContainText("36 places");
  await expect(line(again)).toContainText(`${NOTES} notes and ${PHOTOS} photos wait for a signal`);
  await again.goto(`${JOB}/walk#queue`);
  await expect(again.locator("h1")).toContainText(`${NOTES} notes on this phone still wait`);
  await again.screenshot({ path: join(out, "walk-queue.png") });
  expect((await log(server)).length).toBe(before);

  // The signal comes back, and the server dies in the middle of it.
  await context.setOffline(false);
  await expect.poll(async () => (await log(server)).length, { timeout: 60_000, intervals: [25] }).toBeGreaterThan(before);
  const half = (await log(server)).length - before;
  await server.kill();
  expect(half, "notes that the server had when it was killed").toBeLessThan(NOTES);
  await expect(line(again)).toContainText("for a signal", { timeout: 30_000 });
  server = await Server.start(data.path, ["--demo"], server.port);
  await expect(line(again)).toContainText("All that was noted here is sent", { timeout: 300_000 });

  const ours = (await log(server)).filter(({ by }) => by === "Ana");
  expect(ours.length).toBe(NOTES);
  expect(new Set(ours.map(({ id }) => id)).size).toBe(NOTES);
  const photos = ours.flatMap(({ photos }) => photos ?? []);
  expect(new Set(photos).size).toBe(PHOTOS);
  for (const key of photos) {
    const kept = await fetch(`${server.address}${JOB}/photos/${key}`);
    expect([kept.status, kept.headers.get("content-type")], key).toEqual([200, "image/jpeg"]);
  }
  await server.stop();
  await context.close();
  data.remove();
});

test.describe("with one server", () => {
  let server: Server;
  let data: ReturnType<typeof folder>;

  test.beforeAll(async () => {
    data = folder();
    server = await Server.start(data.path);
  });

  test.afterAll(async () => {
    // What it was given is on its disk: nothing is waited for.
    await server.kill();
    data.remove();
  });

  test("two phones that disagree: both notes are kept, and Now asks which is right", async ({ browser }) => {
    const [ana, ben] = [await phone(browser, server, "Ana"), await phone(browser, server, "Ben")];
    for (const { context } of [ana, ben]) await context.setOffline(true);
    const row = (page: Page) => page.locator(".walk-row.next").first();
    for (const { page } of [ana, ben]) {
      await page.locator('.walk-to[href="#at-steam-room"]').tap();
      await expect(row(page)).toBeVisible();
    }
    const about = (await row(ana.page).getAttribute("id"))!.slice(2);
    await row(ana.page).getByRole("button", { name: /^Done/ }).tap();
    await row(ben.page).getByRole("button", { name: /^Not right/ }).tap();
    for (const { page } of [ana, ben]) await expect(page.locator(`[id="w-${about}"] .walk-noted`)).toContainText("not yet sent");
    for (const { context, page } of [ben, ana]) {
      await context.setOffline(false);
      await expect(line(page)).toContainText("All that was noted here is sent", { timeout: 30_000 });
    }
    const said = (await log(server)).filter((note) => note.about === about && ["Ana", "Ben"].includes(note.by));
    expect(said.map(({ by, kind }) => `${by} ${kind}`).sort()).toEqual(["Ana done", "Ben problem"]);
    await ana.page.goto(`${JOB}/now`);
    const question = ana.page.getByText(/Ana noted .* done .* but Ben noted it in trouble .* Which is right\?/);
    await question.scrollIntoViewIfNeeded();
    await expect(question).toBeVisible();
    for (const { context } of [ana, ben]) await context.close();
  });

  test("what was tapped by mistake is taken back by a note that replaces it", async ({ browser }) => {
    const { context, page } = await phone(browser, server, "Cleo");
    await page.locator('.walk-to[href="#at-studio"]').tap();
    const row = page.locator(".walk-row:not(.done):visible").first();
    const id = (await row.getAttribute("id"))!;
    const there = page.locator(`[id="${id}"]`);
    const state = await there.locator(".walk-name").innerText();
    await there.locator(".taps button").first().tap();
    await there.getByRole("button", { name: /^Undo/ }).tap();
    await expect(there.locator(".walk-noted")).toContainText("Taken back");
    await expect(there.locator(".walk-name")).toHaveText(state);
    await expect(line(page)).toContainText("All that was noted here is sent", { timeout: 30_000 });
    const ours = (await log(server)).filter(({ by }) => by === "Cleo");
    expect(ours.length).toBe(2);
    expect(ours.find(({ replaces }) => replaces)?.replaces).toBe(ours.find(({ replaces }) => !replaces)?.id);
    await context.close();
  });

  test("a note that the server will not have says why, holds up no other, and can be mended", async ({ browser }) => {
    const { context, page } = await phone(browser, server, "Dora");
    await context.route("**/api/jobs/*/notes", async (route) => {
      const isBad = route.request().postData()?.includes("unheard of");
      await (isBad ? route.fulfill({ status: 422, json: { error: "Not saved: that is unheard of." } }) : route.continue());
    });
    await context.setOffline(true);
    await page.locator('.walk-to[href="#at-cellar"]').tap();
    for (const words of ["dry underfoot", "unheard of", "lamp out by the door"]) {
      await page.getByRole("button", { name: /^Photo, words or air/ }).tap();
      await page.getByLabel(/^Words \(/).fill(words);
      await page.getByRole("button", { name: "Write it down" }).tap();
      await expect(page.locator("dialog")).toHaveCount(0);
    }
    await context.setOffline(false);
    await expect(line(page)).toContainText("1 note was not taken", { timeout: 30_000 });
    const words = async (): Promise<(string | undefined)[]> => (await log(server)).filter(({ by }) => by === "Dora").map(({ words }) => words);
    expect((await words()).sort()).toEqual(["dry underfoot", "lamp out by the door"]);

    await line(page).getByRole("link", { name: /not taken/ }).tap();
    await expect(page.getByText("Not saved: that is unheard of.")).toBeVisible();
    await page.screenshot({ path: join(out, "walk-refused.png") });
    await page.getByRole("button", { name: /^Mend/ }).tap();
    await page.getByLabel(/^Words \(/).fill("heard of now");
    await page.getByRole("button", { name: "Write it down" }).tap();
    await expect(line(page)).toContainText("All that was noted here is sent", { timeout: 30_000 });
    await expect(page.getByText("not taken")).toHaveCount(0);
    expect((await words()).sort()).toEqual(["dry underfoot", "heard of now", "lamp out by the door"]);
    await context.close();
  });

  test("a photo keeps its time and direction, and loses where and with what it was taken", async ({ browser }) => {
    const { context, page, given } = await phone(browser, server, "Eva");
    await page.locator('.walk-to[href="#at-pantry"]').tap();
    await takePhoto(page, 7);
    await expect.poll(() => given.size, { timeout: 20_000 }).toBe(1);
    const [key, photo] = [...given][0]!;
    expect(photo.taken).toBe("2027-06-10T06:15:07.000Z");
    expect(photo.facing).toBe("212.5");
    const digest = Buffer.from(await crypto.subtle.digest("SHA-256", new Uint8Array(photo.bytes)));
    expect(key).toBe(digest.toString("hex"));
    for (const tag of ["Exif", "Mirror Works"]) expect(photo.bytes.includes(tag), tag).toBe(false);
    const size = await page.evaluate(async (bytes) => {
      const { width, height } = await createImageBitmap(new Blob([new Uint8Array(bytes)]));
      return [width, height];
    }, [...photo.bytes]);
    // 2400 × 600 as the sensor has it, held upright by its tag.
    expect(size).toEqual([512, 2048]);
    await context.close();
  });

  for (const light of ["light", "dark"] as const) {
    test(`at 360 px, one-handed, ${light}: axe finds nothing, and everything is large enough`, async ({ browser }) => {
      test.setTimeout(240_000);
      const { context, page } = await phone(browser, server, "Fay");
      await page.emulateMedia({ colorScheme: light });
      const views: [string, () => Promise<void>][] = [
        ["list", async () => undefined],
        ["place", async () => void (await page.locator('.walk-to[href="#at-mill-hall"]').tap())],
        ["noted", async () => void (await page.locator(".walk-row:not(.done):visible .taps button").first().tap())],
        ["sheet", async () => void (await page.locator(".walk-row .taps-more").first().tap())],
        ["reading", async () => void (await page.locator(".sheet-kinds label", { hasText: "Reading" }).tap())],
        ["queue", async () => (await page.getByRole("button", { name: "Close" }).tap(), void (await line(page).locator("a").first().tap()))],
      ];
      for (const [name, go] of views) {
        await go();
        await page.waitForTimeout(200);
        await page.screenshot({ path: join(out, `walk-${name}-${light}.png`) });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        expect(wide, `${name}: pixels that stick out at the side`).toBeLessThanOrEqual(0);
        const small = await page.evaluate(() =>
          [...document.querySelectorAll<HTMLElement>(".walk button, .walk a, .walk summary, .sheet button, .sheet label:has(input), .sheet label.can, .sheet textarea, .sheet select, .bar a")]
            .filter((each) => each.getClientRects().length > 0)
            .filter((each) => each.getBoundingClientRect().height < 44 || each.getBoundingClientRect().width < 44)
            .map((each) => `${each.tagName} ${each.textContent} ${each.getBoundingClientRect().height}`),
        );
        expect(small, `${name}: targets below 44 px`).toEqual([]);
        // What is fixed to the screen lies in its lower two thirds; all else can be scrolled to the thumb.
        const high = await page.evaluate(() =>
          [...document.querySelectorAll<HTMLElement>("body button, body a")]
            .filter((each) => each.getClientRects().length > 0 && ["fixed", "sticky"].includes(getComputedStyle(each.closest(".bar, .route, .sheet-do") ?? document.body).position))
            .filter((each) => each.getBoundingClientRect().top < window.innerHeight / 3)
            .map((each) => each.textContent),
        );
        expect(high, `${name}: fixed controls out of the thumb's reach`).toEqual([]);
        const { violations } = await new AxeBuilder({ page }).analyze();
        expect(violations.map(({ id, nodes }) => `${name} ${id}: ${nodes[0]?.html}`)).toEqual([]);
      }
      await context.close();
    });
  }

  test("without a signal Now is shown as it was last seen, and other pages say what can be done", async ({ browser }) => {
    const { context, page } = await phone(browser, server, "Gus");
    await page.goto(`${JOB}/now`);
    await context.setOffline(true);
    await page.goto(`${JOB}/now`);
    await expect(page.getByText(/^No signal: this is Now as this phone last saw it/)).toBeVisible();
    await page.goto(`${JOB}/weeks`);
    await expect(page.locator("h1")).toHaveText("No signal here.");
    await page.screenshot({ path: join(out, "no-signal.png") });
    await page.getByRole("link", { name: "Walk alder sluice" }).tap();
    await expect(page.locator("h1")).toContainText("36 places");
    await context.close();
  });

  test("a press that lasts opens what a tap cannot say, and writes nothing by itself", async ({ browser }) => {
    const { context, page } = await phone(browser, server, "Hal");
    await page.locator('.walk-to[href="#at-kitchen"]').tap();
    const before = (await log(server)).length;
    const box = (await page.locator(".walk-row:visible .walk-name").first().boundingBox())!;
    await page.mouse.move(box.x + 20, box.y + 10);
    await page.mouse.down();
    await expect(page.locator("dialog.sheet")).toBeVisible();
    await page.mouse.up();
    await page.getByText("How far", { exact: true }).click();
    await page.getByText("50 %", { exact: true }).click();
    await page.getByRole("button", { name: "Write it down" }).click();
    await expect(page.locator(".walk-noted").first()).toContainText("50 %");
    await expect(line(page)).toContainText("All that was noted here is sent", { timeout: 30_000 });
    expect((await log(server)).length).toBe(before + 1);
    await context.close();
  });

  test("a phone that is no longer let in keeps its notes and says so", async ({ browser }) => {
    const { context, page } = await phone(browser, server, "Jan");
    await context.route("**/api/jobs/*/notes", (route) => route.fulfill({ status: 401, json: { error: "This phone has not joined." } }));
    await page.locator('.walk-to[href="#at-wheel-room"]').tap();
    await page.locator(".walk-row:not(.done):visible .taps button").first().tap();
    await expect(line(page)).toContainText("1 note waits: this phone is not let in", { timeout: 20_000 });
    await context.unroute("**/api/jobs/*/notes");
    await page.evaluate(() => dispatchEvent(new Event("online")));
    await expect(line(page)).toContainText("All that was noted here is sent", { timeout: 30_000 });
    expect((await log(server)).filter(({ by }) => by === "Jan").length).toBe(1);
    await context.close();
  });

  test("without script the walk goes from place to place, and one press writes one note", async ({ browser }) => {
    const context = await browser.newContext({ ...PHONE, baseURL: server.address, javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(`${JOB}/walk`);
    await page.getByRole("link", { name: /^Scullery/ }).tap();
    const before = (await log(server)).length;
    await page.locator(".walk-row:visible .taps button").first().tap();
    await expect(page.locator(".taken")).toContainText(/: (started|done|passed|on site)\./);
    expect((await log(server)).length).toBe(before + 1);
    await page.getByRole("button", { name: "Take it back" }).tap();
    await expect(page.locator(".taken")).toContainText("taken back");
    await context.close();
  });

  test("in two tabs at once nothing is sent twice", async ({ browser }) => {
    const { context, page } = await phone(browser, server, "Ivo");
    const other = await context.newPage();
    await other.goto(`${JOB}/walk#at-laundry`);
    const sent: string[] = [];
    context.on("request", (request) => request.method() === "POST" && request.url().endsWith("/notes") && sent.push(...(JSON.parse(request.postData() ?? "[]") as Line[]).map(({ id }) => id)));
    await page.bringToFront();
    await page.goto(`${JOB}/walk#at-laundry`);
    const row = page.locator(".walk-row:not(.done):visible").first();
    await row.locator(".taps button").first().tap();
    await expect(line(other)).toContainText("All that was noted here is sent", { timeout: 30_000 });
    await other.evaluate(() => dispatchEvent(new Event("online")));
    await page.waitForTimeout(500);
    expect(new Set(sent).size).toBe(sent.length);
    expect((await log(server)).filter(({ by }) => by === "Ivo").length).toBe(1);
    await context.close();
  });

  test("script and style of the phone's pages weigh less than 100 kB; how soon they are painted", async ({ browser }) => {
    const context = await browser.newContext({ ...PHONE, baseURL: server.address, serviceWorkers: "block" });
    for (const [name, path] of [["now", `${JOB}/now`], ["walk", `${JOB}/walk`]] as const) {
      const page = await context.newPage();
      const cdp = await context.newCDPSession(page);
      await cdp.send("Network.enable");
      await cdp.send("Network.emulateNetworkConditions", { offline: false, latency: 150, downloadThroughput: 200_000, uploadThroughput: 94_000 });
      await cdp.send("Network.setCacheDisabled", { cacheDisabled: true });
      await cdp.send("Emulation.setCPUThrottlingRate", { rate: 4 });
      await page.goto(path);
      await page.waitForTimeout(1000);
      const bytes = await page.evaluate(() =>
        (performance.getEntriesByType("resource") as PerformanceResourceTiming[])
          .filter(({ name }) => /\.(css|js)$/.test(name))
          .reduce((sum, { decodedBodySize }) => sum + decodedBodySize, 0),
      );
      const paint = await page.evaluate(() => performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? 0);
      console.log(`${name}: ${bytes} bytes of script and style, first paint after ${Math.round(paint)} ms at 1.6 Mbit/s, 150 ms and a fourth of this processor`);
      expect(bytes).toBeLessThan(100_000);
      await page.close();
    }
    await context.close();
  });
});
