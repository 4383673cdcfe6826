import { axeOn } from "./axe.ts";
import { type CDPSession, expect, type Page, test } from "@playwright/test";
import { block, middleOf, openDay, spanOf } from "./days.ts";
import { clockAndHand, goTo } from "./shell.ts";

/** An upright tablet. */
test.use({ viewport: { width: 820, height: 1180 }, hasTouch: true, isMobile: true });

interface Finger {
  readonly x: number;
  readonly y: number;
}

const touch = (
  session: CDPSession,
  type: "touchStart" | "touchMove" | "touchEnd",
  fingers: readonly Finger[],
) =>
  session.send("Input.dispatchTouchEvent", {
    type,
    touchPoints: fingers.map(({ x, y }, id) => ({ x, y, id })),
  });

/** Fingers go down, along and up, in small steps as hands do. */
async function strokes(page: Page, from: readonly Finger[], to: readonly Finger[]): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await touch(session, "touchStart", from);
  for (let step = 1; step <= 8; step += 1) {
    const along = from.map((one, i) => ({
      x: one.x + ((to[i]!.x - one.x) * step) / 8,
      y: one.y + ((to[i]!.y - one.y) * step) / 8,
    }));
    await touch(session, "touchMove", along);
  }
  await touch(session, "touchEnd", []);
  await session.detach();
}

test.beforeEach(({ page }) => openDay(page));

test("a finger drags a task, and dragging it to the bench benches it", async ({ page }) => {
  const at = await middleOf(block(page, "Core at Split Stone"));
  await strokes(page, [at], [{ x: at.x + 40, y: at.y }]);
  expect(await spanOf(page, "Core at Split Stone")).not.toBe("3:00 to 3:26");
  const bench = await middleOf(page.getByRole("button", { name: /^Bench/ }));
  await strokes(page, [await middleOf(block(page, "Core at Split Stone"))], [bench]);
  await expect(block(page, "Core at Split Stone")).toHaveCount(0);
  await page.getByRole("button", { name: /^Bench/ }).tap();
  await expect(page.locator(".card-name", { hasText: "Core at Split Stone" })).toBeVisible();
});

test("two fingers zoom, one on the ground pans, a resting one opens the menu", async ({ page }) => {
  const part = page.getByRole("scrollbar", { name: "Shown part of the stay" });
  const shown = (): Promise<string | null> => part.getAttribute("aria-valuetext");
  const before = await shown();
  const stage = (await page.locator(".stage").boundingBox())!;
  const y = stage.y + 12;
  const x = stage.x + stage.width / 2;
  await strokes(
    page,
    [
      { x: x - 40, y },
      { x: x + 40, y },
    ],
    [
      { x: x - 120, y },
      { x: x + 120, y },
    ],
  );
  const near = await shown();
  expect(near).not.toBe(before);
  await strokes(page, [{ x, y }], [{ x: x - 80, y }]);
  expect(await shown()).not.toBe(near);

  await page.getByRole("button", { name: "Shown part" }).tap();
  await page
    .getByRole("toolbar")
    .getByRole("button", { name: /^EVA 1/ })
    .tap();
  await expect.poll(shown).toBe(before);
  const session = await page.context().newCDPSession(page);
  const task = await middleOf(block(page, "Core at Split Stone"));
  await touch(session, "touchStart", [task]);
  await expect(page.getByRole("menu", { name: "Selected tasks" })).toBeVisible();
  await touch(session, "touchEnd", []);
  await page.getByRole("menuitem", { name: "Pin where it is" }).tap();
  await expect(block(page, "Core at Split Stone")).toHaveAttribute("aria-label", /pinned/);
});

test("to select by dragging is a button away", async ({ page }) => {
  await (await clockAndHand(page, "Select")).tap();
  const stage = (await page.locator(".stage").boundingBox())!;
  const from = { x: stage.x + 6, y: stage.y + 6 };
  await strokes(page, [from], [{ x: stage.x + stage.width - 6, y: stage.y + stage.height * 0.9 }]);
  await expect(page.locator('.block[aria-pressed="true"]')).not.toHaveCount(0);
  // The stroke is the page's own: the tap right after it is not taken for the end of a flick.
  await page.getByRole("button", { name: /^Findings/ }).tap();
  await expect(page.getByText("6 tasks,", { exact: false })).toBeVisible();
});

test("everything has its place on 820 pixels, without a violation on any screen", async ({ page }) => {
  await block(page, "First scoop").tap();
  for (const screen of ["Day", "Setup", "Paper"]) {
    await goTo(page, screen);
    await page.waitForLoadState("networkidle");
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide, screen).toBeLessThanOrEqual(820);
    const outside = await page.evaluate(() =>
      [...document.querySelectorAll(".header button, .corner button, .score-figure, .readout")]
        .filter((one) => one.getBoundingClientRect().right > window.innerWidth + 1)
        .map((one) => one.textContent),
    );
    expect(outside, screen).toEqual([]);
    const { violations } = await (await axeOn(page)).analyze();
    expect(violations.map((one) => `${screen}: ${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
  }
});
