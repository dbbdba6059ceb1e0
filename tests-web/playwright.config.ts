import { defineConfig } from "@playwright/test";

// One browser, one server for each test file: the tests of a file share a house and change it in order.
export default defineConfig({
  testDir: "tests",
  outputDir: "out/traces",
  fullyParallel: false,
  workers: 1,
  retries: 0,
  timeout: 60_000,
  expect: { timeout: 10_000 },
  reporter: [["list"]],
  use: {
    launchOptions: {
      executablePath: process.env["GROUNDS_CHROMIUM"] ?? "/usr/bin/chromium",
      args: [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
      ],
    },
    trace: "retain-on-failure",
  },
});
