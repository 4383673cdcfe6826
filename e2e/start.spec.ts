import { readFileSync } from "node:fs";
import { expect, type Page, test } from "@playwright/test";
import { block, openDay } from "./days.ts";

/** Keeps the code of the worker from the page until it is let go. */
async function withheldWorker(page: Page): Promise<() => void> {
  let letGo = (): void => undefined;
  const gate = new Promise<void>((open) => (letGo = open));
  await page.route(/\/worker-[\w-]+\.js/, async (route) => {
    await gate;
    await route.fallback();
  });
  return letGo;
}

/** The demo plan with 20 keep-outs of 100 corners between its places. */
async function withKeepOuts(page: Page): Promise<void> {
  const plan = JSON.parse(readFileSync("public/plans/demo.json", "utf8")) as { site: { keepOuts: object[] } };
  plan.site.keepOuts = Array.from({ length: 20 }, (_, k) => ({
    ...{ id: `keep-${k}`, name: `Keep-out ${k + 1}`, kind: "walking", exemptTasks: [] },
    shape: {
      type: "polygon",
      points: Array.from({ length: 100 }, (_, corner) => {
        const angle = (corner * Math.PI) / 50;
        const radiusM = 9 + 2 * Math.sin(7 * angle);
        return {
          eastM: Math.round(100 * (55 * (k % 5) - 110 + radiusM * Math.cos(angle))) / 100,
          northM: Math.round(100 * (80 + 55 * Math.floor(k / 5) + radiusM * Math.sin(angle))) / 100,
        };
      }),
    },
  }));
  await page.route("**/plans/demo.json", (route) =>
    route.fulfill({ body: JSON.stringify(plan), contentType: "application/json" }),
  );
}

test("the plan is seen as its document has it before anything of it was worked out, and says that nobody has checked it", async ({
  page,
}) => {
  const letGo = await withheldWorker(page);
  const opened = openDay(page);
  const frame = page.locator(".first-frame");
  await expect(frame.getByRole("status")).toContainText("Not checked yet");
  await expect(frame.getByText("Core at Split Stone").first()).toBeVisible();
  await expect(frame).toContainText("Planning and training aid");
  // No verdict of any kind.
  await expect(page.getByRole("navigation", { name: "Screens" })).toHaveCount(0);
  letGo();
  await opened;
  await expect(frame).toHaveCount(0);
});

test("the day is seen before the program is there, and again from what was saved", async ({ page }) => {
  const withhold = async (): Promise<() => void> => {
    let letGo = (): void => undefined;
    const gate = new Promise<void>((open) => (letGo = open));
    await page.route(/\/program-[\w-]+\.js/, async (route) => {
      await gate;
      await route.fallback();
    });
    return letGo;
  };
  const frame = page.locator(".first-frame");
  let letGo = await withhold();
  await page.goto("./?plan=small", { waitUntil: "commit" });
  await expect(frame.getByText("First scoop").first()).toBeVisible();
  await expect(frame.getByRole("status")).toHaveText("Not checked yet: the plan is being opened.");
  await expect(frame).toContainText("Planning and training aid");
  letGo();
  await expect(page.getByText(/^Saved/).first()).toBeVisible();
  await page.unroute(/\/program-[\w-]+\.js/);
  letGo = await withhold();
  await page.reload({ waitUntil: "commit" });
  await expect(frame.getByText("First scoop").first()).toBeVisible();
  letGo();
  await expect(page.getByRole("navigation", { name: "Screens" })).toBeVisible();
  await expect(frame).toHaveCount(0);
});

test("with 20 keep-outs of 100 corners the page answers while they are worked out, at every start", async ({
  page,
}) => {
  await withKeepOuts(page);
  const letGo = await withheldWorker(page);
  await page.goto("./?plan=demo");
  for (const again of [false, true]) {
    const frame = page.locator(".first-frame");
    await expect(frame.getByRole("status")).toContainText("Not checked yet");
    // The page takes turns with its own work: what is asked of it is answered.
    expect(await page.evaluate(() => new Promise((answer) => setTimeout(() => answer("here"), 0)))).toBe(
      "here",
    );
    if (again) break;
    letGo();
    await expect(page.getByRole("navigation", { name: "Screens" })).toBeVisible();
    await expect(page.getByText(/^Saved/).first()).toBeVisible();
    await page.unroute(/\/worker-[\w-]+\.js/);
    await withheldWorker(page);
    await page.reload();
  }
});

test("a plan whose ways take too long need not be opened", async ({ page }) => {
  await withheldWorker(page);
  await page.goto("./?plan=small");
  await page.getByRole("button", { name: "Do not open it" }).click();
  await expect(page.getByRole("navigation", { name: "Screens" })).toBeVisible();
  await expect(block(page, "First scoop")).toHaveCount(0);
});
