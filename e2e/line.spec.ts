import { readFileSync } from "node:fs";
import { axeOn } from "./axe.ts";
import { expect, type Page, test } from "@playwright/test";
import type { PlanInput } from "../src/plan/plan.ts";
import { block, middleOf, openDay } from "./days.ts";
import { clockAndHand, setTheme } from "./shell.ts";

const part = (page: Page) => page.getByRole("scrollbar", { name: "Shown part of the stay" });
const findings = (page: Page) => page.getByRole("region", { name: "Findings" });

test.use({ viewport: { width: 1280, height: 800 } });

/** The large plan with two tasks at once for the last crew member, on the last EVA they are out on. */
async function openClash(page: Page): Promise<void> {
  const plan = JSON.parse(readFileSync("public/plans/large.json", "utf8")) as PlanInput;
  const last = plan.crew!.at(-1)!.id;
  const eva = plan.evas!.findLast((one) => one.crew.includes(last))!;
  const tasks = plan.tasks!.filter((task) => (task.crew?.count ?? 1) === 1).slice(0, 2);
  const placements = tasks.map((task) => ({
    task: task.id,
    eva: eva.id,
    crew: [last],
    startS: eva.earliestEgressS + 3600,
  }));
  const body = JSON.stringify({ ...plan, schedule: { placements } });
  await page.route("**/plans/large.json", (route) =>
    route.fulfill({ body, contentType: "application/json" }),
  );
  await page.goto("./?plan=large");
}

test("a finding far away and on a lane that is scrolled out is gone to", async ({ page }) => {
  await openClash(page);
  const rule = findings(page).locator(".rule-row", { hasText: "One task at a time" });
  await expect(rule).toContainText("EV4");
  const row = findings(page).getByRole("list", { name: "One task at a time" }).locator(".finding").first();
  const before = await part(page).getAttribute("aria-valuetext");
  await page.locator(".lanes").evaluate((lanes) => (lanes.scrollTop = 0));
  await rule.click();
  await expect(row).toHaveAttribute("aria-pressed", "true");
  await expect(row).toContainText("EV4");
  expect(await part(page).getAttribute("aria-valuetext")).not.toBe(before);
  const lanes = (await page.locator(".lanes").boundingBox())!;
  const lane = (await page.locator(".gutter-lane", { hasText: "EV4" }).boundingBox())!;
  expect(lane.y + lane.height).toBeLessThanOrEqual(lanes.y + lanes.height + 1);
  const shown = page.locator('.block[data-lane="ev4"]').first();
  await expect(shown).toBeInViewport();
});

test("the title of a plan is read in full at 1280 pixels", async ({ page }) => {
  for (const plan of ["demo", "small", "large"]) {
    await page.goto(`./?plan=${plan}`);
    const cut = await page
      .locator(".header h1")
      .evaluate(
        (title) => title.scrollHeight > title.clientHeight + 1 || title.scrollWidth > title.clientWidth,
      );
    expect(cut, plan).toBe(false);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(1280);
  }
});

test("margins show the line before the move while it is held, after it is set down, and not for another task", async ({
  page,
}) => {
  await openDay(page);
  const note = page.getByText("dashed: before the move");
  await expect(note).toHaveCount(0);
  const from = await middleOf(block(page, "Core at Split Stone"));
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + 60, from.y, { steps: 4 });
  await expect(note).toBeVisible();
  await page.mouse.up();
  await expect(note).toBeVisible();
  await block(page, "First scoop").click();
  await expect(note).toHaveCount(0);
});

test("wheel, keys and M zoom from the whole stay to a minute a centimetre", async ({ page }) => {
  await openDay(page);
  await page.locator("body").press("0");
  const lengthS = async (): Promise<number> => {
    const [from = "", to = ""] = ((await part(page).getAttribute("aria-valuetext")) ?? "").split(" to ");
    const seconds = (text: string): number => {
      const [hours = 0, minutes = 0] = text.replace("\u2212", "").split(":").map(Number);
      return (text.startsWith("\u2212") ? -1 : 1) * (hours * 3600 + minutes * 60);
    };
    return seconds(to) - seconds(from);
  };
  const whole = await lengthS();
  const stage = (await page.locator(".stage").boundingBox())!;
  await page.mouse.move(stage.x + stage.width / 3, stage.y + 6);
  for (let i = 0; i < 20; i += 1) await page.mouse.wheel(0, -200);
  // Minutes a centimetre: the shown part over its width in centimetres of 96 / 2.54 pixels.
  const centimetres = stage.width / (96 / 2.54);
  await expect.poll(async () => (await lengthS()) / 60 / centimetres).toBeLessThan(1);
  await page.locator("body").press("0");
  await expect.poll(lengthS).toBe(whole);
  for (let i = 0; i < 14; i += 1) await page.keyboard.press("+");
  await expect.poll(async () => (await lengthS()) / 60 / centimetres).toBeLessThan(1);
  await page.keyboard.press("m");
  await expect.poll(async () => Math.abs((await lengthS()) / 60 / centimetres - 1)).toBeLessThan(0.1);
});

for (const theme of ["light", "dark"] as const)
  test(`signs and patterns are explained on the day screen, without a violation, ${theme}`, async ({
    page,
  }) => {
    await openDay(page);
    await setTheme(page, theme);
    await (await clockAndHand(page, "Legend and keys")).press("Enter");
    const legend = page.getByRole("dialog", { name: "Keys and legend" });
    await expect(legend).toContainText("longest walk home that the suit carries");
    const { violations } = await (await axeOn(page)).analyze();
    expect(violations.map((one) => `${one.id}: ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
    await page.keyboard.press("Escape");
    await expect(legend).toHaveCount(0);
  });
