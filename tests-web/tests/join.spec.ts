// Phones: one is let in with a code, gets a name, writes a note and sends a photo, and is shut out.

import { AxeBuilder } from "@axe-core/playwright";
import { test as base, expect, type BrowserContext, type Page } from "@playwright/test";
import { spawn, type ChildProcess } from "node:child_process";
import { createHash } from "node:crypto";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { folder, out, sizes } from "./house";

const JOB = "/j/alder-sluice";

type Doors = { desk: string; phones: string };

/** A demo house with both doors. */
const test = base.extend<object, { doors: Doors }>({
  doors: [
    async ({}, use) => {
      const data = folder();
      const program = process.env["GROUNDS_BIN"];
      if (!program) throw new Error("Set GROUNDS_BIN to the program, such as target/release/grounds.");
      const args = ["serve", "--demo", "--listen", "127.0.0.1:0", "--phones", "127.0.0.1:0", "--data", data.path];
      const child = spawn(program, args, { stdio: ["ignore", "pipe", "inherit"] });
      await use(await addresses(child));
      const ended = new Promise((done) => child.once("exit", done));
      child.kill("SIGTERM");
      await ended;
      data.remove();
    },
    { scope: "worker" },
  ],
});

async function addresses(child: ChildProcess): Promise<Doors> {
  let desk = "";
  for await (const line of createInterface({ input: child.stdout! })) {
    desk ||= /http:\/\/\S+:\d+/.exec(line)?.[0] ?? "";
    const phones = /https:\/\/\S+:\d+/.exec(line)?.[0];
    if (phones) return { desk, phones };
  }
  throw new Error("The server ended before it printed its addresses.");
}

/** A browser of its own, as on a phone that went on past the warning. */
async function phone(context: BrowserContext): Promise<Page> {
  const browser = context.browser()!;
  const own = await browser.newContext({ ignoreHTTPSErrors: true, viewport: { width: 360, height: 740 } });
  return own.newPage();
}

/** Makes a code at the desk, and gives its words. */
async function letIn(desk: Page, doors: Doors): Promise<string> {
  await desk.goto(`${doors.desk}${JOB}/phones`);
  await desk.getByRole("button", { name: /^(Let a phone join|Another code)$/ }).click();
  return desk.locator(".join-words").innerText();
}

async function joinAs(page: Page, doors: Doors, code: string, name: string): Promise<void> {
  await page.goto(`${doors.phones}/join?code=${code}`);
  await expect(page.getByLabel("Code from the desk")).toHaveValue(code);
  await page.getByLabel("Your name").fill(name);
  await page.getByRole("button", { name: "Join" }).click();
  await page.waitForURL(`**${JOB}/walk`);
}

async function clean(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
}

test("a phone joins by a code, writes under its name, and is shut out", async ({ page: desk, context, doors }) => {
  const hand = await phone(context);
  await hand.goto(`${doors.phones}${JOB}/now`);
  await expect(hand).toHaveURL(`${doors.phones}/join`);

  const code = await letIn(desk, doors);
  expect(code.split("-")).toHaveLength(4);
  await joinAs(hand, doors, code, "Ana Ruiz");

  await hand.goto(`${doors.phones}${JOB}/now`);
  await expect(hand.locator("footer")).toContainText("Ana Ruiz");
  await hand.locator("button.do").first().click();
  await expect(hand.locator(".taken")).toBeVisible();
  const log = await (await desk.request.get(`${doors.desk}${JOB}/notes.jsonl`)).text();
  expect((JSON.parse(log.trim().split("\n").at(-1)!) as { by: string }).by).toBe("Ana Ruiz");

  await desk.reload();
  const row = desk.locator(".row", { hasText: "Ana Ruiz" });
  await expect(row).toContainText("Last heard of");
  await desk.getByRole("button", { name: "Shut out the phone of Ana Ruiz" }).click();
  await expect(desk.getByRole("heading", { name: "Shut out" })).toBeVisible();
  await hand.goto(`${doors.phones}${JOB}/now`);
  await expect(hand.locator("h1")).toHaveText("This phone was shut out.");
  await clean(hand);
  await hand.context().close();
});

test("a photo from a phone is shown beside its note, without its tags", async ({ page: desk, context, doors }) => {
  const hand = await phone(context);
  await joinAs(hand, doors, await letIn(desk, doors), "Ben");
  await hand.goto(`${doors.phones}${JOB}/now`);
  const shot = await hand.screenshot({ type: "jpeg" });
  // An Exif segment behind the start of the picture, with a place in plain sight.
  const exif = Buffer.concat([Buffer.from([0xff, 0xe1, 0, 20]), Buffer.from("Exif\0\0GPS 52N 002W")]);
  const photo = Buffer.concat([shot.subarray(0, 2), exif, shot.subarray(2)]);
  const key = createHash("sha256").update(photo).digest("hex");
  const note = {
    id: "01974f0c-86a0-7000-8000-00000000a001",
    at: "2027-06-10T05:30:00Z",
    by: "nobody",
    about: "stair-glass",
    kind: "remark",
    words: "Seen from the landing.",
    photos: [key],
  };
  const request = hand.request;
  expect((await request.post(`${doors.phones}/api/jobs/alder-sluice/notes`, { data: [note] })).status()).toBe(200);
  await hand.goto(`${doors.phones}${JOB}/work/stair-glass`);
  await expect(hand.locator(".photo-missing")).toContainText("still on the phone");
  const put = await request.put(`${doors.phones}/api/jobs/alder-sluice/photos/${key}`, {
    data: photo,
    headers: { "x-taken": "2027-06-10T06:30:00+01:00", "x-facing": "90" },
  });
  expect(put.status()).toBe(201);
  await hand.reload();
  const shown = hand.locator(".photos img");
  await expect(shown).toHaveAttribute("alt", /Photo by Ben, Thu 10 June, 6:30, looking east/);
  await shown.scrollIntoViewIfNeeded();
  await expect.poll(() => shown.evaluate((img: HTMLImageElement) => img.naturalWidth)).toBeGreaterThan(50);
  const whole = await (await request.get(`${doors.phones}${JOB}/photos/${key}`)).body();
  expect(whole.includes("GPS")).toBe(false);
  await hand.screenshot({ path: join(out, "photo-phone.png"), fullPage: true });
  await clean(hand);
  await hand.context().close();
});

for (const size of sizes) {
  test(`the desk's page of phones, as on the ${size.name}`, async ({ page, doors }) => {
    await page.setViewportSize({ width: size.width, height: size.height });
    await letIn(page, doors);
    await expect(page.locator("svg.qr")).toBeVisible();
    await page.goto(`${doors.desk}${JOB}/phones`);
    await page.screenshot({ path: join(out, `phones-${size.name}.png`), fullPage: true });
    await clean(page);
  });
}

test("the pages for joining can be used with one hand", async ({ context, doors }) => {
  const hand = await phone(context);
  await hand.goto(`${doors.phones}/join`);
  await hand.screenshot({ path: join(out, "join-phone.png"), fullPage: true });
  await clean(hand);
  await hand.getByLabel("Code from the desk").fill("not-a-good-code");
  await hand.getByLabel("Your name").fill("Cy");
  await hand.getByRole("button", { name: "Join" }).click();
  await expect(hand.locator(".fault")).toContainText("ask for a new one at the desk");
  await clean(hand);
  await hand.getByRole("link", { name: "How to take it in" }).click();
  await expect(hand.locator("h1")).toContainText("Let the phone know");
  await hand.screenshot({ path: join(out, "certificate-phone.png"), fullPage: true });
  await clean(hand);
  const wide = await hand.evaluate(() => document.documentElement.scrollWidth);
  expect(wide).toBeLessThanOrEqual(360);
  await hand.context().close();
});
