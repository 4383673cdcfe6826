import { readFileSync } from "node:fs";
import { expect, type Page, test } from "@playwright/test";
import { parseText } from "../src/plan/index.ts";
import { packRun } from "../src/solver/index.ts";
import { openPacked } from "./days.ts";
import { crossingTexts, cutTexts, teachTexts } from "./seentexts.ts";
import { DESK_SIZES, goTo } from "./shell.ts";

/** On every screen, in every window that the desk is built for, no text is cut unsaid and none lies on another. */

/** Opens the large plan with a day packed into it, the same each time. */
async function openLarge(page: Page): Promise<void> {
  const read = parseText(readFileSync("public/plans/large.json", "utf8"));
  if (!read.ok) throw new Error("the large plan is no plan");
  const run = packRun(read.value, { seed: 1, iterations: 200, clock: () => 0 });
  while (run.step(10)) continue;
  const body = JSON.stringify({ ...read.value, schedule: run.best() });
  await page.route("**/plans/large.json", (route) =>
    route.fulfill({ body, contentType: "application/json" }),
  );
  await page.goto("./?plan=large");
}

/** Nothing is wrong with a text in any of the windows; `what` is shown. */
async function reads(page: Page, what: string): Promise<void> {
  for (const [width, height] of DESK_SIZES) {
    await page.setViewportSize({ width, height });
    const faults = async (): Promise<string[]> => [...(await cutTexts(page)), ...(await crossingTexts(page))];
    // What a new width lays out anew settles a frame later.
    await expect.poll(faults, { message: `${what}, ${width} by ${height}` }).toEqual([]);
  }
}

/** Screens, with what is there once they are. */
const SCREENS = [
  ["Site", ".site-table tbody tr"],
  ["Variants", "text=Keep the day as a variant"],
  ["Odds", ".odds-report"],
  ["Rehearsal", "text=Begin with the day as it stands"],
  ["Paper", ".paper-page"],
] as const;

const PLANS = [
  ["demo", openPacked],
  ["large", openLarge],
] as const;

for (const [name, open] of PLANS) {
  test(`every screen of the ${name} plan`, async ({ page }) => {
    await teachTexts(page);
    await open(page);
    for (const [screen, sign] of SCREENS) {
      await goTo(page, screen);
      await expect(page.locator(sign).first()).toBeVisible();
      expect(await page.evaluate(() => window.seenTexts().length)).toBeGreaterThan(20);
      await reads(page, screen);
    }
  });

  test(`every page of setup of the ${name} plan`, async ({ page }) => {
    await teachTexts(page);
    await open(page);
    await goTo(page, "Setup");
    for (const tab of await page.getByRole("tab").all()) {
      await tab.click();
      await reads(page, await tab.innerText());
    }
  });

  test(`a rehearsal of the ${name} plan under way`, async ({ page }) => {
    await teachTexts(page);
    await open(page);
    await goTo(page, "Rehearsal");
    await page.getByRole("button", { name: "Begin with the day as it stands" }).click();
    for (let calls = 0; calls < 6; calls += 1)
      await page.getByRole("button", { name: "To the next call" }).click();
    await reads(page, "under way");
    await page.getByRole("button", { name: "Debrief" }).click();
    await reads(page, "debrief");
  });
}

test("dialogs", async ({ page }) => {
  await teachTexts(page);
  await openPacked(page);
  for (const [menu, item] of [
    ["Plan file", "Plans in this browser…"],
    ["Plan file", "Import a list…"],
    ["Plan file", "Export…"],
    ["Plan file", "Plans kept aside…"],
    ["Help and theme", "Keys and legend"],
    ["Help and theme", /^Every command/],
  ] as const) {
    await page.getByRole("button", { name: menu }).click();
    await page.getByRole("button", { name: item }).click();
    await expect(page.locator("dialog[open]")).toBeVisible();
    await reads(page, String(item));
    await page.keyboard.press("Escape");
    await expect(page.locator("dialog[open]")).toHaveCount(0);
  }
});

test("a text that is cut, and one on another, are found", async ({ page }) => {
  await teachTexts(page);
  await page.goto("./?plan=small");
  await goTo(page, "Setup");
  await expect(page.getByRole("tab").first()).toBeVisible();
  expect([...(await cutTexts(page)), ...(await crossingTexts(page))]).toEqual([]);
  // Below the table and its help, where nothing of the page stands.
  await page.evaluate(() => {
    const [cut, under, over] = ["Cut in the middle", "Below", "Above"].map((words) => {
      const one = document.body.appendChild(document.createElement("p"));
      one.textContent = words;
      one.style.cssText = "position: fixed; left: 40vw; top: 76vh; z-index: 99; white-space: nowrap";
      return one;
    });
    cut!.style.cssText += "; top: 86vh; width: 3em; overflow: hidden";
    under!.style.cssText += "; z-index: 98";
    over!.style.cssText += "; margin: 0 4px";
  });
  expect(await cutTexts(page)).toEqual([expect.stringContaining("Cut in the middle")]);
  expect(await crossingTexts(page)).toEqual(["on each other: “Below” and “Above”"]);
});
