import { readFileSync } from "node:fs";
import { axeOn } from "./axe.ts";
import { expect, type Page, test } from "@playwright/test";
import { parseText } from "../src/plan/index.ts";
import { packRun } from "../src/solver/index.ts";
import { atRest } from "./atrest.ts";
import { block, openDay, openPacked } from "./days.ts";
import { mindPainting, type PaintedText, paintedTexts, textsOnTexts } from "./painted.ts";
import { DESK_SIZES, goTo, howToPack, setTheme } from "./shell.ts";

/** What can be seen and hit: magnified, by fingers, with long names, in the system's own colours, and while something is said. */

const SCREENS = ["Day", "Site", "Variants", "Odds", "Setup", "Paper"];

/** Buttons and fields in sight that reach beyond the page to the right, in words. */
const beyond = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const scrolls = (one: Element): boolean =>
      one.closest(".grid-box, .odds-table, .variants-comparison, .stage, .overview") !== null;
    return [...document.querySelectorAll("button, input, select, h2, h3")]
      .filter((one) => !scrolls(one) && one.getBoundingClientRect().right > window.innerWidth + 1)
      .map((one) => `${one.tagName} ${one.textContent} ${one.getAttribute("aria-label") ?? ""}`);
  });

async function violations(page: Page): Promise<string[]> {
  const found = await (await axeOn(page)).analyze();
  return found.violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`);
}

test.describe("magnified to twice its size", () => {
  // 1440 by 900 pixels at 200 %.
  test.use({ viewport: { width: 720, height: 450 } });

  test("every screen keeps its height, the page scrolls to all of it, and who decides stays in sight", async ({
    page,
  }) => {
    await openDay(page);
    for (const name of SCREENS) {
      await goTo(page, name);
      expect(await beyond(page), name).toEqual([]);
      const box = (await page.getByRole("main").boundingBox())!;
      expect(box.height, name).toBeGreaterThanOrEqual(600);
      await expect(page.locator(".safety:visible")).toBeInViewport();
    }
    await goTo(page, "Day");
    for (const lane of ["EV1", "EV2"]) {
      const core = block(page, "Core at Split Stone", lane);
      await core.scrollIntoViewIfNeeded();
      await expect(core).toBeInViewport({ ratio: 1 });
    }
  });
});

test.describe("by fingers", () => {
  test.use({ viewport: { width: 820, height: 1180 }, hasTouch: true, isMobile: true });

  test("what is pressed is 44 pixels high on every screen", async ({ page }) => {
    await openDay(page);
    await block(page, "First scoop").tap();
    for (const name of SCREENS) {
      await goTo(page, name);
      const low = await page.evaluate(() => {
        // Figures that answer are text among text; blocks and ticks with labels have their own measure.
        const own =
          ".from-figure, .margin-switch, .stage, .eva-bar, .card-grip, .finding, [type=checkbox], [type=range]";
        return (
          [...document.querySelectorAll("button, select, input, [data-cell]")]
            .filter((one) => !one.matches(own) && !one.closest(".stage, .margins, .overview"))
            // One of several choices is pressed by its words as well.
            .map((one) => ({
              one,
              box: ((one.matches("[type=radio]") && one.closest("label")) || one).getBoundingClientRect(),
            }))
            .filter(({ box }) => box.height > 0 && box.height < 43.5)
            .map(({ one, box }) => `${one.textContent || one.getAttribute("aria-label")}: ${box.height}`)
        );
      });
      expect(low, name).toEqual([]);
    }
    await page.getByRole("button", { name: "Help and theme" }).tap();
    await page.getByRole("button", { name: /^Every command/ }).tap();
    const command = page.getByRole("listbox", { name: "Commands" }).getByRole("option").first();
    expect((await command.boundingBox())!.height).toBeGreaterThanOrEqual(43.5);
  });
});

test("every button has its place at any width, with an answer beside the day and without", async ({
  page,
}) => {
  await openDay(page);
  const ask = page
    .locator(".bench")
    .getByRole("button", { name: /^Why not\?/ })
    .first();
  for (const asked of [false, true]) {
    // Where the side is a rail the bench is not in sight.
    if (asked) {
      await page.setViewportSize({ width: 1440, height: 900 });
      await ask.click();
    }
    for (const width of [1600, 1440, 1280, 1100, 1024, 970, 820, 720]) {
      await page.setViewportSize({ width, height: 900 });
      await expect.poll(() => beyond(page), { message: `${width} px` }).toEqual([]);
      // None under the answer or another part: what is at its middle is the button itself.
      const covered = (): Promise<(string | null)[]> =>
        page.evaluate(() =>
          [...document.querySelectorAll(".header button, .corner button, .rail button")]
            .filter((one) => one.checkVisibility())
            .filter((one) => {
              const box = one.getBoundingClientRect();
              const top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
              return top === null || !one.contains(top);
            })
            .map((one) => one.textContent),
        );
      // The line is laid out a frame after the window has another width.
      await expect.poll(covered, { message: `${width} px${asked ? ", asked" : ""}` }).toEqual([]);
    }
  }
});

test("the screens keep their place while the packer is at work, and the keyboard keeps its own", async ({
  page,
}) => {
  // A day that is not packed to its proof within a minute.
  await page.goto("./?plan=demo");
  await expect(page.getByText("Nothing is on the line yet.")).toBeVisible();
  const widths = [1440, 1280, 1100, 1024, 970, 820];
  const pack = page.getByRole("button", { name: "Pack", exact: true });
  /** Where the screens are chosen at each width. */
  const places = async (): Promise<number[]> => {
    const found: number[] = [];
    for (const width of widths) {
      await page.setViewportSize({ width, height: 900 });
      await expect.poll(() => beyond(page), { message: `${width} px` }).toEqual([]);
      const box = (await page.getByRole("navigation", { name: "Screens" }).boundingBox())!;
      found.push(Math.round(box.x), Math.round(box.y));
    }
    return found;
  };
  const before = await places();
  await howToPack(page, 60);
  await pack.press("Enter");
  await expect(page.getByRole("group", { name: "Packing" })).toBeVisible();
  expect(await places()).toEqual(before);
  await expect(page.getByRole("button", { name: /^Take this day/ })).toBeFocused();
  await page.getByRole("button", { name: /^Stop/ }).click();
  await expect(pack).toBeVisible();
});

test.describe("with long names", () => {
  test("names give way to figures and stay in their places", async ({ page }) => {
    const plan = JSON.parse(readFileSync("public/plans/small.json", "utf8")) as {
      crew: { name: string }[];
      evas: { name: string }[];
      tasks: { id: string; name: string }[];
    };
    plan.crew[0]!.name = "Commander Wilhelmina Long";
    plan.evas[0]!.name = "The first outing to the split stone and the ground about it";
    plan.tasks[0]!.name = "Sample ".repeat(17).trim();
    const placements = [{ task: plan.tasks[0]!.id, crew: ["ev1"], startS: 6900, eva: "eva-1" }];
    await page.route("**/plans/small.json", (route) =>
      route.fulfill({
        body: JSON.stringify({ ...plan, schedule: { placements } }),
        contentType: "application/json",
      }),
    );
    for (const viewport of [
      { width: 1440, height: 900 },
      { width: 820, height: 1180 },
    ]) {
      await page.setViewportSize(viewport);
      await page.goto("./?plan=small");
      await expect(page.locator(".stage .block").first()).toBeVisible();
      expect(await beyond(page)).toEqual([]);
      const within = (inner: string, outer: string): Promise<string[]> =>
        page.evaluate(
          ([a, b]) =>
            [...document.querySelectorAll(a!)]
              .filter((one) => {
                const box = one.getBoundingClientRect();
                const room = one.closest(b!)!.getBoundingClientRect();
                return box.left < room.left - 1 || box.right > room.right + 1;
              })
              .map((one) => one.textContent ?? ""),
          [inner, outer],
        );
      expect(await within(".gutter-name", ".gutter-lane")).toEqual([]);
      expect(await within(".margin-label b", ".margin-label")).toEqual([]);
      expect(await page.locator(".margin-figure .from-figure").count()).toBeGreaterThan(0);
      expect(await within(".margin-rows .from-figure", "li")).toEqual([]);
    }
  });
});

test("boxes, menus and the last step of undo give the keyboard its place back", async ({ page }) => {
  await openDay(page);
  const focused = page.locator(":focus");
  const press = async (...keys: string[]): Promise<void> => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const help = page.getByRole("button", { name: "Help and theme" });
  await help.focus();
  await press("Enter", "Enter");
  await expect(page.getByRole("dialog", { name: "Keys and legend" })).toBeVisible();
  await press("Enter");
  await expect(help).toBeFocused();

  const file = page.getByRole("button", { name: "Plan file" });
  await file.focus();
  await press("Enter", "ArrowUp", "Enter");
  await expect(page.getByRole("dialog", { name: "Plans kept aside" })).toBeVisible();
  await page.getByRole("dialog").getByRole("button", { name: "Close" }).press("Enter");
  await expect(file).toBeFocused();

  await block(page, "First scoop").focus();
  await press("Shift+F10");
  await expect(page.getByRole("menu", { name: "Selected tasks" })).toBeVisible();
  await press("Escape");
  await expect(block(page, "First scoop")).toBeFocused();

  const undo = page.getByRole("button", { name: /^Undo/ });
  await undo.focus();
  for (let steps = 0; (await undo.getAttribute("aria-disabled")) !== "true"; steps += 1) {
    expect(steps).toBeLessThan(5);
    await press("Enter");
  }
  await expect(focused).toHaveText(/^Undo/);
});

test.describe("in the system's own colours", () => {
  test.use({ contextOptions: { forcedColors: "active" } });

  test("what is chosen differs from what is not", async ({ page }) => {
    await openDay(page);
    const ground = (name: string): Promise<string> =>
      page
        .getByRole("button", { name, exact: true })
        .first()
        .evaluate((one) => getComputedStyle(one).backgroundColor);
    await page.getByRole("button", { name: "Clock and hand" }).click();
    for (const [chosen, other] of [
      ["Day", "Site"],
      ["Others stay", "Others slide"],
      ["MET", "UTC"],
    ] as const)
      expect(await ground(chosen)).not.toBe(await ground(other));
    await page.keyboard.press("Control+k");
    const options = page.getByRole("listbox", { name: "Commands" }).getByRole("option");
    // The list is fetched when it is asked for the first time.
    await expect(options.nth(1)).toBeVisible();
    const grounds = await options.evaluateAll((all) =>
      all.map((one) => getComputedStyle(one).backgroundColor),
    );
    expect(grounds[0]).not.toBe(grounds[1]);
  });
});

for (const theme of ["light", "dark"] as const) {
  test(`no accessibility violation with a notice, a refused file, menus and the pages of setup, ${theme}`, async ({
    page,
  }) => {
    test.slow();
    // A worker that cannot start is told of in a notice.
    await page.route(/worker/i, (route) => route.abort());
    await openDay(page);
    await setTheme(page, theme);
    await expect(page.getByRole("region", { name: "Notices" }).getByRole("alert").first()).toBeVisible();
    expect(await violations(page)).toEqual([]);

    await page.getByRole("button", { name: "Plan file" }).click();
    expect(await violations(page)).toEqual([]);
    const [chooser] = await Promise.all([
      page.waitForEvent("filechooser"),
      page.getByRole("button", { name: "Open file…" }).click(),
    ]);
    await chooser.setFiles({
      name: "torn.json",
      mimeType: "application/json",
      buffer: Buffer.from('{"crew":[{}]}'),
    });
    const refused = page.getByRole("dialog", { name: "torn.json was not opened" });
    await expect(refused).toBeVisible();
    expect(await violations(page)).toEqual([]);
    await refused.getByRole("button", { name: "Close" }).click();

    for (const menu of ["Clock and hand", "Shown part", "How to pack", "Help and theme"]) {
      await page.getByRole("button", { name: menu }).click();
      expect(await violations(page), menu).toEqual([]);
      await page.keyboard.press("Escape");
    }

    await goTo(page, "Setup");
    for (const tab of await page.getByRole("tab").all()) {
      await tab.click();
      expect(await violations(page), await tab.innerText()).toEqual([]);
    }
  });
}

/** Pairs of texts of the line that lie on each other, in words; and how many texts there are. */
async function crossing(page: Page): Promise<{ readonly pairs: string[]; readonly texts: number }> {
  const texts = await paintedTexts(page, ".board");
  return { pairs: textsOnTexts(texts).map(([a, b]) => `${a.text} on ${b.text}`), texts: texts.length };
}

/** No two texts of the line lie on each other, no lane is hidden, and lanes have most of the height, over an EVA and over the stay. */
async function readable(page: Page, width: number, height: number): Promise<void> {
  const of = `${width} by ${height}`;
  await page.setViewportSize({ width, height });
  for (const shown of ["1", "0"]) {
    await page.keyboard.press(shown);
    await atRest(page);
    await expect.poll(async () => (await crossing(page)).texts, { message: of }).toBeGreaterThan(20);
    expect((await crossing(page)).pairs, `${of}, ${shown}`).toEqual([]);
  }
  const lanes = (await page.locator(".stage").boundingBox())!;
  expect(lanes.height / height, of).toBeGreaterThan(0.55);
  for (const lane of await page.locator(".gutter-lane").all()) {
    const box = (await lane.boundingBox())!;
    expect(box.y, of).toBeGreaterThanOrEqual(lanes.y - 1);
    expect(box.y + box.height, of).toBeLessThanOrEqual(lanes.y + lanes.height + 1);
  }
  // Nothing of the top row lies over another part of it.
  const row = await page
    .locator(".header > *")
    .evaluateAll((all) =>
      all.map((one) => one.getBoundingClientRect()).map(({ left, right }) => [left, right]),
    );
  for (const [k, [left]] of row.entries())
    if (k > 0) expect(left, of).toBeGreaterThanOrEqual(row[k - 1]![1]! - 1);
}

for (const [width, height] of DESK_SIZES)
  test(`no two texts of the line lie on each other, no lane is hidden, lanes have most of the height, ${width} by ${height}`, async ({
    page,
  }) => {
    await mindPainting(page);
    await page.setViewportSize({ width, height });
    await openDay(page);
    await readable(page, width, height);
  });

/** The large ready plan packed a little, its crew the first so many. */
function largeDay(crew: number): string {
  const plan = JSON.parse(readFileSync("public/plans/large.json", "utf8")) as { crew: { id: string }[] };
  const gone = plan.crew.slice(crew).map(({ id }) => id);
  const kept = JSON.stringify(plan, (_, value: unknown) =>
    Array.isArray(value)
      ? value.filter((one: unknown) => !gone.includes((one as { id?: string } | null)?.id ?? String(one)))
      : value,
  );
  const read = parseText(kept);
  if (!read.ok) throw new Error(`no plan: ${JSON.stringify(read.error)}`);
  const packing = packRun(read.value, { seed: 1, iterations: 4000, seconds: 600, clock: () => 0 });
  while (packing.step(50)) continue;
  return JSON.stringify({ ...read.value, schedule: packing.best() });
}

for (const [who, open] of [
  ["the demo plan", openPacked],
  ["three people", (page: Page) => openLarge(page, 3)],
  ["four people", (page: Page) => openLarge(page, 4)],
] as const)
  test(`the same holds for ${who} in every size`, async ({ page }) => {
    test.slow();
    await mindPainting(page);
    await open(page);
    await expect(page.locator(".stage .block").first()).toBeVisible();
    for (const [width, height] of DESK_SIZES) await readable(page, width, height);
  });

/** Texts on texts while a task is dragged, apart from what it is held over itself; takes the task back. */
async function inDrag(page: Page, nth: number, byX: number): Promise<string[]> {
  const box = (await page.locator(".stage .block").nth(nth).boundingBox())!;
  const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x + byX, at.y + 8, { steps: 4 });
  await expect(page.locator(".cost")).toBeVisible();
  await atRest(page);
  // It lies on what it is held over: between its plumb lines, as high as where it was taken from.
  const [left, right] = await page
    .locator(".plumb")
    .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().left).toSorted((a, b) => a - b));
  const rows = await page
    .locator(".block.held")
    .evaluateAll((all) =>
      all.map((one) => one.getBoundingClientRect()).map(({ top, bottom }) => ({ top, bottom })),
    );
  const free = (one: PaintedText): boolean =>
    one.x1 < left! || one.x0 > right! || rows.every(({ top, bottom }) => one.y1 < top || one.y0 > bottom);
  const pairs = textsOnTexts(await paintedTexts(page)).filter(([a, b]) => free(a) && free(b));
  await page.keyboard.press("Escape");
  await page.mouse.up();
  return pairs.map(([a, b]) => `${a.text} on ${b.text}`);
}

for (const [who, open] of [
  ["the demo plan", openPacked],
  ["four people", (page: Page) => openLarge(page, 4)],
] as const)
  test(`no text lies on another while a task of ${who} is dragged, in every size`, async ({ page }) => {
    test.slow();
    await mindPainting(page);
    await open(page);
    await expect(page.locator(".stage .block").first()).toBeVisible();
    for (const [width, height] of DESK_SIZES) {
      await page.setViewportSize({ width, height });
      await page.keyboard.press("1");
      await atRest(page);
      const count = await page.locator(".stage .block").count();
      for (const [share, byX] of [
        [0.3, 70],
        [0.7, -90],
      ] as const)
        expect(await inDrag(page, Math.floor(count * share), byX), `${width} by ${height}, ${byX}`).toEqual(
          [],
        );
    }
  });

async function openLarge(page: Page, crew: number): Promise<void> {
  const body = largeDay(crew);
  await page.route("**/plans/large.json", (route) =>
    route.fulfill({ body, contentType: "application/json" }),
  );
  await page.goto("./?plan=large");
}
