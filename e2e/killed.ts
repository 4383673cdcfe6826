import { type ChildProcess, spawn } from "node:child_process";
import { type Browser, chromium, type Page } from "@playwright/test";
import { BROWSER_SWITCHES, browserPath } from "./browser.ts";

/** A browser with a profile that outlasts it, so that it can be killed and started again. */
export interface Mortal {
  readonly browser: Browser;
  readonly page: Page;
  /** Ends the process at once, as a power cut or the system would. */
  kill(): Promise<void>;
}

/** Starts a browser on the profile in `folder`. */
export async function mortal(folder: string): Promise<Mortal> {
  const args = [...BROWSER_SWITCHES, "--headless", "--remote-debugging-port=0", `--user-data-dir=${folder}`];
  const child = spawn(await browserPath(), args, {
    stdio: ["ignore", "ignore", "pipe"],
    // A group of its own: its helpers die with it, and let go of the profile.
    detached: true,
  });
  const browser = await chromium.connectOverCDP(await address(child));
  const context = browser.contexts()[0] ?? (await browser.newContext());
  const page = context.pages()[0] ?? (await context.newPage());
  return {
    browser,
    page,
    kill: () =>
      new Promise((resolve) => {
        child.once("exit", () => resolve());
        if (child.pid !== undefined) process.kill(-child.pid, "SIGKILL");
      }),
  };
}

function address(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = "";
    child.stderr?.on("data", (more: Buffer) => {
      said += more.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(said)?.[1];
      if (found) resolve(found);
    });
    child.once("exit", () => reject(new Error(`the browser ended: ${said}`)));
  });
}

/** Kills the tab: its process ends at once, the browser goes on. A new tab is the answer. */
export async function killTab(page: Page): Promise<Page> {
  const context = page.context();
  const session = await context.newCDPSession(page);
  const gone = page.waitForEvent("crash");
  // It is answered by nobody.
  void session.send("Page.crash").catch(() => undefined);
  await gone;
  const next = await context.newPage();
  await page.close().catch(() => undefined);
  return next;
}
