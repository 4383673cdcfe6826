import { expect, type Page, test } from "@playwright/test";
import { block, middleOf, openDay } from "./days.ts";

const part = (page: Page) => page.getByRole("scrollbar", { name: "Shown part of the stay" });
const findings = (page: Page) => page.getByRole("region", { name: "Findings" });

test.use({ viewport: { width: 1280, height: 800 } });

test("a finding far away and on a lane that is scrolled out is gone to", async ({ page }) => {
  test.setTimeout(90_000);
  await page.goto("./?plan=large");
  await page.getByRole("combobox", { name: "How long to search" }).selectOption({ label: "2 s" });
  await page.getByRole("button", { name: "Pack", exact: true }).click();
  await expect(page.locator(".stage .block").first()).toBeVisible({ timeout: 40_000 });
  await expect(page.getByRole("button", { name: "Pack", exact: true })).toBeVisible({ timeout: 40_000 });
  const before = await part(page).getAttribute("aria-valuetext");
  const row = findings(page)
    .locator(".finding", { hasText: /EV4 on EVA [3-6]/ })
    .last();
  await row.click();
  await expect(row).toHaveAttribute("aria-pressed", "true");
  expect(await part(page).getAttribute("aria-valuetext")).not.toBe(before);
  const lanes = (await page.locator(".lanes").boundingBox())!;
  const lane = (await page.locator(".gutter-lane", { hasText: "EV4" }).boundingBox())!;
  expect(lane.y + lane.height).toBeLessThanOrEqual(lanes.y + lanes.height + 1);
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
