import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, type Page, test } from "@playwright/test";
import { random } from "../src/kernel/index.ts";
import { block, openDay } from "./days.ts";
import { killTab, mortal } from "./killed.ts";

// What is killed leaves no trace behind.
test.use({ trace: "off" });

/** Minutes by which the first scoop was put off. */
async function putOffBy(page: Page, from: number): Promise<number> {
  const label = (await block(page, "First scoop").getAttribute("aria-label")) ?? "";
  const [, hours = "0", minutes = "0"] = /(\d+):(\d\d) to/.exec(label) ?? [];
  return Number(hours) * 60 + Number(minutes) - from;
}

const saved = (page: Page) => page.locator(".saved");

test("a browser or tab that is killed at any moment has what the page called saved", async ({ baseURL }) => {
  const folder = mkdtempSync(join(tmpdir(), "lopeline-profile-"));
  const stream = random(7);
  let now = await mortal(folder);
  try {
    await now.page.setViewportSize({ width: 1440, height: 900 });
    await openDay(now.page, {}, `${baseURL}`);
    await expect(saved(now.page)).toHaveText("Saved here");
    const from = await putOffBy(now.page, 0);
    let least = 0;
    for (let kill = 0; kill < 6; kill += 1) {
      const { page } = now;
      await block(page, "First scoop").focus();
      let made = await putOffBy(page, from);
      expect(made, `after kill ${kill}`).toBeGreaterThanOrEqual(least);
      for (let presses = 1 + stream.below(12); presses > 0; presses -= 1) {
        await page.keyboard.press("]");
        made += 1;
        // Nothing is waited for: the kill is to come at any moment of a save.
        // eslint-disable-next-line no-restricted-syntax
        await page.waitForTimeout(stream.below(120));
        if ((await saved(page).textContent()) === "Saved here") least = made;
      }
      if (stream.next() < 0.5) now = { ...now, page: await killTab(page) };
      else {
        await now.kill();
        now = await mortal(folder);
      }
      await now.page.setViewportSize({ width: 1440, height: 900 });
      await now.page.goto(`${baseURL}`);
      await expect(block(now.page, "First scoop")).toBeVisible();
    }
    expect(await putOffBy(now.page, from)).toBeGreaterThanOrEqual(least);
    expect(least).toBeGreaterThan(0);
    await expect(now.page.getByRole("button", { name: /^Undo/ })).toHaveAttribute(
      "title",
      "Undo: Move First scoop",
    );
  } finally {
    await now.kill();
    rmSync(folder, { recursive: true, force: true });
  }
});
