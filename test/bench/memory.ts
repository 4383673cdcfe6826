import { existsSync, readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { chromium, type Page } from "@playwright/test";
import { preview } from "vite";
import { BROWSER_SWITCHES, browserPath } from "../../e2e/browser.ts";
import { goTo, howToPack } from "../../e2e/shell.ts";
import { demoDay } from "../solver/question/late/demoDay.ts";

/**
 * What the program holds after long use, on the build that is there: edits by keys as fast as they go, each taken back every other time,
 * screens shown in turn, and packs; after each round everything is collected, and what is left is told of the page and its workers, MB.
 * An hour with an edit every three seconds is 1,200 of them. [--rounds 12] [--edits 100] [--packs 8] [--seconds 2]
 */
export async function run(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: {
      rounds: { type: "string", default: "12" },
      edits: { type: "string", default: "100" },
      packs: { type: "string", default: "8" },
      seconds: { type: "string", default: "2" },
    },
  });
  if (!existsSync("dist/index.html")) throw new Error("there is no build yet: npm run build");
  const server = await preview({ preview: { port: 0, host: "127.0.0.1" }, logLevel: "silent" });
  const browser = await chromium.launch({
    executablePath: await browserPath(),
    args: BROWSER_SWITCHES,
  });
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, serviceWorkers: "block" });
  const plan = JSON.parse(readFileSync("public/plans/demo.json", "utf8")) as object;
  await page.route("**/plans/demo.json", (route) =>
    route.fulfill({ body: JSON.stringify({ ...plan, schedule: demoDay }), contentType: "application/json" }),
  );
  const heldMB = await ears(page);
  await page.goto(`${server.resolvedUrls?.local[0] ?? ""}?plan=demo`);
  await page.locator(".stage .block").first().waitFor();
  await howToPack(page, Number(values.seconds));
  let [edits, packs] = [0, 0];
  for (let round = 0; round <= Number(values.rounds); round += 1) {
    const held = await heldMB();
    const all = held.map((one) => one.toFixed(1).padStart(7)).join("");
    console.log(
      `${String(edits).padStart(6)} edits ${String(packs).padStart(5)} packs: MB of page and workers${all}`,
    );
    if (round === Number(values.rounds)) break;
    edits += await edited(page, Number(values.edits));
    for (const screen of ["Site", "Variants", "Odds", "Setup", "Paper", "Day"]) await goTo(page, screen);
    for (let k = 0; k < Number(values.packs); k += 1) {
      await page.getByRole("button", { name: "Pack", exact: true }).click();
      // A short pack on a busy machine may be over before it is seen.
      await page
        .getByRole("group", { name: "Packing" })
        .waitFor({ timeout: 5000 })
        .catch(() => undefined);
      await page.getByRole("group", { name: "Packer" }).waitFor({ timeout: 120_000 });
      packs += 1;
    }
  }
  await browser.close();
  await new Promise((resolve) => server.httpServer.close(resolve));
}

/** Edits by keys: a task a minute later and earlier, and every other edit taken back. How many were made. */
async function edited(page: Page, count: number): Promise<number> {
  await page.locator(".stage .block").first().press("Enter");
  for (let k = 0; k < count; k += 2) {
    await page.keyboard.press(k % 4 === 0 ? "BracketRight" : "BracketLeft");
    await page.keyboard.press("BracketRight");
    await page.keyboard.press("Control+z");
  }
  return count;
}

/** Asks the page and each of its workers what is left when everything else was collected, MB. */
async function ears(page: Page): Promise<() => Promise<readonly number[]>> {
  const wire = await page.context().newCDPSession(page);
  const workers = new Set<string>();
  const waiting = new Map<number, (result: { readonly usedSize?: number }) => void>();
  let last = 0;
  wire.on("Target.attachedToTarget", ({ sessionId, targetInfo }) => {
    if (targetInfo.type === "worker") workers.add(sessionId);
  });
  wire.on("Target.detachedFromTarget", ({ sessionId }) => workers.delete(sessionId));
  wire.on("Target.receivedMessageFromTarget", ({ message }) => {
    const { id, result } = JSON.parse(message) as { readonly id?: number; readonly result?: object };
    if (id !== undefined) waiting.get(id)?.(result ?? {});
  });
  await wire.send("Target.setAutoAttach", {
    ...{ autoAttach: true, waitForDebuggerOnStart: false, flatten: false },
  });
  const askWorker = (sessionId: string, method: string): Promise<{ readonly usedSize?: number }> =>
    new Promise((resolve) => {
      last += 1;
      waiting.set(last, resolve);
      const message = JSON.stringify({ id: last, method, params: {} });
      void wire.send("Target.sendMessageToTarget", { sessionId, message });
    });
  return async () => {
    await wire.send("HeapProfiler.collectGarbage");
    const { usedSize } = await wire.send("Runtime.getHeapUsage");
    const held = [usedSize];
    for (const worker of workers) {
      await askWorker(worker, "HeapProfiler.collectGarbage");
      held.push((await askWorker(worker, "Runtime.getHeapUsage")).usedSize ?? NaN);
    }
    return held.map((bytes) => bytes / 1e6);
  };
}
