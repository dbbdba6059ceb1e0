// A demo house of its own for each test file: the server on a free port, its data in a folder of its own.

import { spawn, type ChildProcess } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { test as base, expect, type Page } from "@playwright/test";

const here = dirname(fileURLToPath(import.meta.url));

/** Where pictures are put for looking at. */
export const out = join(here, "..", "out");

/** How to start the server: the program, or any command line that takes an address and a folder. */
function command(folder: string, which: string[], port: number): [string, string[]] {
  const program = process.env["GROUNDS_BIN"];
  if (!program) throw new Error("Set GROUNDS_BIN to the program, such as target/release/grounds.");
  return [program, ["serve", ...which, "--listen", `127.0.0.1:${port}`, "--data", folder]];
}

/** A running server. */
export class Server {
  private constructor(
    readonly address: string,
    private readonly child: ChildProcess,
  ) {}

  /** Serves what is in a folder; the demo house, unless it is said otherwise; without a port, on any that is free. */
  static async start(folder: string, which: string[] = ["--demo"], port = 0): Promise<Server> {
    const [program, args] = command(folder, which, port);
    const child = spawn(program, args, { stdio: ["ignore", "pipe", "inherit"] });
    const lines = createInterface({ input: child.stdout! });
    for await (const line of lines) {
      const address = /http:\/\/\S+:\d+/.exec(line)?.[0];
      if (address) return new Server(address, child);
    }
    throw new Error("The server ended before it printed its address.");
  }

  get port(): number {
    return Number(new URL(this.address).port);
  }

  /** Ends it as the system would: it may finish what it is at. */
  stop(): Promise<void> {
    return this.end("SIGTERM");
  }

  /** Ends it in the middle of whatever it does. */
  kill(): Promise<void> {
    return this.end("SIGKILL");
  }

  private end(signal: NodeJS.Signals): Promise<void> {
    return new Promise((ended) => {
      if (this.child.exitCode !== null || this.child.signalCode !== null) return ended();
      this.child.once("exit", () => ended());
      this.child.kill(signal);
    });
  }
}

/** A folder that is gone when the test is. */
export function folder(): { path: string; remove: () => void } {
  const path = mkdtempSync(join(tmpdir(), "grounds-"));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

type House = { server: Server };

/** Tests with a house. Whatever a page asks for, it must ask this server. */
export const test = base.extend<{ strict: void }, House>({
  server: [
    async ({}, use) => {
      const data = folder();
      const server = await Server.start(data.path);
      await use(server);
      await server.stop();
      data.remove();
    },
    { scope: "worker" },
  ],
  baseURL: async ({ server }, use) => use(server.address),
  strict: [
    async ({ page, server }, use) => {
      const foreign: string[] = [];
      const faults: string[] = [];
      page.on("request", (request) => {
        if (!request.url().startsWith(server.address) && !request.url().startsWith("data:")) foreign.push(request.url());
      });
      page.on("console", (line) => {
        // A form that comes back with what is wrong with it is no error of the page.
        const sentBack = line.text().includes("status of 422");
        if (line.type() === "error" && !sentBack) faults.push(line.text());
      });
      page.on("pageerror", (error) => faults.push(error.message));
      await use();
      expect(foreign, "requests that left the server").toEqual([]);
      expect(faults, "errors in the browser").toEqual([]);
    },
    { auto: true },
  ],
});

export { expect };

/** The sizes that pages are looked at in. */
export const sizes = [
  { name: "phone", width: 390, height: 844 },
  { name: "desk", width: 1280, height: 800 },
] as const;

/** The pages of the mill. */
export const pages = [
  ["now", "/j/alder-sluice/now"],
  ["walk", "/j/alder-sluice/walk"],
  ["walk-place", "/j/alder-sluice/walk?place=mill-hall"],
  ["weeks", "/j/alder-sluice/weeks"],
  ["weeks-2", "/j/alder-sluice/weeks?weeks=2"],
  ["weeks-all", "/j/alder-sluice/weeks?weeks=all"],
  ["house", "/j/alder-sluice/house"],
  ["work", "/j/alder-sluice/work/stair-glass"],
  ["handover", "/j/alder-sluice/work/handover"],
  ["forecast", "/j/alder-sluice/forecast"],
  ["win-back", "/j/alder-sluice/win-back"],
  ["what-if", "/j/alder-sluice/what-if"],
  ["rules", "/j/alder-sluice/rules"],
  ["rule", "/j/alder-sluice/rules/make-up-air/kitchen-hood"],
  ["rule-unknown", "/j/alder-sluice/rules/guard-load/stair-glass"],
  ["work-out", "/j/alder-sluice/rules/work-out"],
  ["work-out-answer", "/j/alder-sluice/rules/work-out/make-up-air?airflow=600+cfm&supply-air=500..700+cfm"],
  ["more", "/j/alder-sluice/more"],
  ["jobs", "/jobs"],
] as const;

/** Waits until nothing is being worked out behind the plan any more. */
export async function settled(page: Page): Promise<void> {
  await expect
    .poll(async () => ((await (await page.request.get("/j/alder-sluice/live")).json()) as { busy: boolean }).busy, {
      timeout: 60_000,
    })
    .toBe(false);
}

/** The words of a page's sentence. */
export function sentence(page: Page): Promise<string> {
  return page.locator("h1").first().innerText();
}
