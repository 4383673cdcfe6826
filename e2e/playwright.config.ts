import { defineConfig } from "@playwright/test";
import { BROWSER_SWITCHES, browserPath } from "./browser.ts";

// Several runs may share a machine.
const port = Number(process.env["E2E_PORT"] ?? 4173);

export default defineConfig({
  testDir: ".",
  outputDir: "../test-results",
  // Two browsers on two cores are slower than one.
  workers: 1,
  // Room for a machine that is slow or shared: a right answer is never failed by the clock.
  timeout: 600_000,
  expect: { timeout: 240_000 },
  reporter: [["list"]],
  use: {
    baseURL: `http://127.0.0.1:${port}/`,
    // What a test puts in the network's place must be what the page gets; the tests of the kept program let it in.
    serviceWorkers: "block",
    viewport: { width: 1440, height: 900 },
    trace: "retain-on-failure",
    launchOptions: { executablePath: await browserPath(), args: BROWSER_SWITCHES },
  },
  webServer: {
    command: `npx vite build && npx vite preview --host 127.0.0.1 --port ${port} --strictPort`,
    cwd: "..",
    url: `http://127.0.0.1:${port}/`,
    timeout: 600_000,
    reuseExistingServer: false,
  },
});
