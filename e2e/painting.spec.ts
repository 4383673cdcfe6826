import { expect, type Page, test } from "@playwright/test";
import { atRest, LINE } from "./atrest.ts";
import { block, middleOf, openDay } from "./days.ts";

/**
 * Edges are smoothed a little otherwise where only columns of a canvas are painted: a channel may differ by so much, and so many of
 * a canvas by more, where a dash begins. A word or a mark that is missing is far more.
 */
const SMOOTHED = { by: 32, more: 40 };

/** Has every canvas painted anew as a whole, and counts in each how much that changed beyond smoothing. */
async function strayOf(page: Page): Promise<readonly number[]> {
  return page.evaluate(
    async ({ canvases, by }) => {
      const taken = (): readonly ImageData[] =>
        [...document.querySelectorAll<HTMLCanvasElement>(canvases)].map((canvas) =>
          canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height),
        );
      const pieces = taken();
      const { dataset } = document.documentElement;
      for (let i = 0; i < 2; i += 1) {
        // Another theme is painted as a whole, and so is the first again.
        dataset["theme"] = dataset["theme"] === "dark" ? "light" : "dark";
        for (let k = 0; k < 3; k += 1) await new Promise((next) => requestAnimationFrame(next));
      }
      return taken().map(({ data }, i) => {
        const was = pieces[i]!.data;
        return data.reduce((sum, value, k) => sum + (Math.abs(value - was[k]!) > by ? 1 : 0), 0);
      });
    },
    { canvases: LINE, by: SMOOTHED.by },
  );
}

async function expectWhole(page: Page): Promise<void> {
  // The edges about what an undo moved are canvases of their own, there for a second.
  await expect(page.locator(".moved-edge")).toHaveCount(0);
  await atRest(page);
  const stray = await strayOf(page);
  expect(stray.length).toBeGreaterThan(4);
  expect(Math.max(...stray)).toBeLessThanOrEqual(SMOOTHED.more);
}

/** Until the chances are of the day that is shown, on all the days there will be: what they say is painted too. */
async function chancesKnown(page: Page): Promise<void> {
  await expect(page.locator('.chance-figure[data-current="true"][data-days="2000"]')).toHaveCount(3);
  await page.evaluate(() => new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next))));
}

for (const [shown, key] of [
  ["the stay", "0"],
  ["an EVA", "1"],
] as const) {
  test(`a task dragged over ${shown} is painted piece by piece as it would be as a whole`, async ({
    page,
  }) => {
    await openDay(page);
    await page.keyboard.press(key);
    await atRest(page);
    const from = await middleOf(block(page, "Core at Split Stone"));
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    for (const [x, y] of [
      [30, 0],
      [160, 4],
      [-90, 10],
      [-20, 60],
      [70, -40],
      [9, 3],
    ] as const) {
      await page.mouse.move(from.x + x, from.y + y, { steps: 7 });
      await expectWhole(page);
    }
    await page.keyboard.press("Escape");
    await page.mouse.up();
    await chancesKnown(page);
    await expectWhole(page);
  });
}

test("an EVA that is dragged is painted piece by piece as it would be as a whole", async ({ page }) => {
  await openDay(page);
  await page.keyboard.press("0");
  await atRest(page);
  const from = await middleOf(page.locator(".eva-bar").first());
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (const x of [15, 48, -12, 30]) {
    await page.mouse.move(from.x + x, from.y, { steps: 6 });
    await expectWhole(page);
  }
  await page.mouse.up();
  await chancesKnown(page);
  await expectWhole(page);
});
