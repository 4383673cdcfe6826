import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { chromium } from "@playwright/test";
import { preview } from "vite";
import { firstLoad } from "../../.config/release/firstload.ts";
import { BROWSER_SWITCHES, browserPath } from "../../e2e/browser.ts";

/** The sizes of the built first load, and when it is seen on a processor slowed down: [--slower 4] [--plan demo] [--rounds 3]. */
export async function run(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: {
      slower: { type: "string", default: "4" },
      plan: { type: "string", default: "demo" },
      rounds: { type: "string", default: "3" },
    },
  });
  if (!existsSync("dist/index.html")) throw new Error("there is no build yet: npm run build");
  const files = firstLoad((file) => readFileSync(join("dist", file), "utf8"));
  const row = (name: string, bytes: number, gzip: number, brotli: number): void =>
    console.log(
      name.padEnd(40),
      ...[bytes, gzip, brotli].map((size) => `${(size / 1000).toFixed(1)} kB`.padStart(12)),
    );
  console.log("".padEnd(40), ...["plain", "gzip", "brotli"].map((word) => word.padStart(12)));
  for (const { file, bytes, gzip, brotli } of files) row(file, bytes, gzip, brotli);
  const sum = (of: "bytes" | "gzip" | "brotli"): number => files.reduce((all, one) => all + one[of], 0);
  row("first load", sum("bytes"), sum("gzip"), sum("brotli"));
  await seen(Number(values.slower), values.plan, Number(values.rounds));
}

async function seen(slower: number, plan: string, rounds: number): Promise<void> {
  const server = await preview({ preview: { port: 0, host: "127.0.0.1" }, logLevel: "silent" });
  const browser = await chromium.launch({ executablePath: await browserPath(), args: BROWSER_SWITCHES });
  const address = server.resolvedUrls?.local[0] ?? "";
  const largest: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, serviceWorkers: "block" });
    const wire = await page.context().newCDPSession(page);
    await wire.send("Emulation.setCPUThrottlingRate", { rate: slower });
    await page.goto(`${address}?plan=${plan}`);
    await page.locator("canvas").first().waitFor();
    const at = await page.evaluate(async () => {
      const day = performance.now();
      const largest = await new Promise<number>((resolve) => {
        new PerformanceObserver((list) => resolve(list.getEntries().at(-1)?.startTime ?? NaN)).observe({
          type: "largest-contentful-paint",
          buffered: true,
        });
      });
      return {
        first: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? NaN,
        largest,
        day,
      };
    });
    const ms = (time: number): string => `${Math.round(time)} ms`;
    console.log(
      `processor ${slower}x slower, ${plan} plan: first paint ${ms(at.first)}, largest paint ${ms(at.largest)}, day drawn ${ms(at.day)}`,
    );
    largest.push(at.largest);
    await page.close();
  }
  const middle = largest.toSorted((a, b) => a - b)[Math.floor(largest.length / 2)] ?? NaN;
  console.log(`largest paint, the middle of ${rounds}: ${Math.round(middle)} ms`);
  await browser.close();
  await new Promise((resolve) => server.httpServer.close(resolve));
}
