import { readFileSync } from "node:fs";
import { expect, type Locator, type Page } from "@playwright/test";
import { parseText } from "../src/plan/index.ts";
import { demoDay } from "../test/solver/question/late/demoDay.ts";

/**
 * A day laid by hand on the small ready plan: both crew members have work with time between, and at the end a core
 * that takes both. Seconds from touchdown.
 */
const PLACEMENTS = [
  { task: "first-scoop", crew: ["ev1"], startS: 6900 },
  { task: "carry-listener", crew: ["ev1"], startS: 7800 },
  { task: "level-listener", crew: ["ev1"], startS: 9000 },
  { task: "first-look", crew: ["ev2"], startS: 6900 },
  { task: "stone-samples", crew: ["ev2"], startS: 8400 },
  { task: "stone-core", crew: ["ev1", "ev2"], startS: 10_800 },
].map((one) => ({ ...one, eva: "eva-1" }));

/** Opens the small plan with that day on it, and what is `otherwise` in place of the plan's own, at the page's address. */
export async function openDay(page: Page, otherwise: object = {}, address = "./"): Promise<void> {
  const plan = JSON.parse(readFileSync("public/plans/small.json", "utf8")) as object;
  const body = JSON.stringify({ ...plan, ...otherwise, schedule: { placements: PLACEMENTS } });
  await page.route("**/plans/small.json", (route) =>
    route.fulfill({ body, contentType: "application/json" }),
  );
  await page.goto(`${address}?plan=small`);
  await expect(block(page, "Core at Split Stone")).toBeVisible();
}

/** Opens the demo plan with a packed day on it that misses must-do work on many simulated days. */
export async function openPacked(page: Page): Promise<void> {
  const read = parseText(readFileSync("public/plans/demo.json", "utf8"));
  if (!read.ok) throw new Error("the demo plan is no plan");
  const body = JSON.stringify({ ...read.value, schedule: demoDay });
  await page.route("**/plans/demo.json", (route) => route.fulfill({ body, contentType: "application/json" }));
  await page.goto("./?plan=demo");
}

/** A task's block on a lane. */
export function block(page: Page, name: string, lane = "EV1"): Locator {
  return page
    .getByRole("group", { name: new RegExp(`^Lane ${lane}`) })
    .getByRole("button", { name: new RegExp(`^${name}`) });
}

/** Start and end of a task as its block says them: "1:55 to 2:03". */
export async function spanOf(page: Page, name: string, lane = "EV1"): Promise<string> {
  const label = (await block(page, name, lane).getAttribute("aria-label")) ?? "";
  return /\d+:\d\d(?::\d\d)? to \d+:\d\d(?::\d\d)?/.exec(label)?.[0] ?? label;
}

export async function middleOf(target: Locator): Promise<{ x: number; y: number; width: number }> {
  const box = (await target.boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2, width: box.width };
}
