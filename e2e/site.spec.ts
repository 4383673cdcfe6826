import { readFileSync } from "node:fs";
import { axeOn } from "./axe.ts";
import { expect, type Page, test } from "@playwright/test";
import { openDay } from "./days.ts";
import { goTo, setTheme } from "./shell.ts";

const map = (page: Page) => page.getByRole("application", { name: "Map of the site" });
const places = (page: Page) => page.getByRole("region", { name: "List of places" });
const placeButton = (page: Page, name: string) => places(page).getByRole("button", { name, exact: true });
const row = (page: Page, name: string) => places(page).getByRole("row").filter({ hasText: name });
const undo = (page: Page) => page.getByRole("button", { name: /^Undo/ });
const minute = (page: Page) => page.getByRole("slider", { name: "Minute of the stay" });

async function showSite(page: Page): Promise<void> {
  await goTo(page, "Site");
  await expect(row(page, "Split Stone")).toContainText("min");
}

/** Where the chosen place's ring stands on the page. */
async function ring(page: Page): Promise<{ x: number; y: number }> {
  const box = (await page.locator(".map-chosen").boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

test.describe("the small plan's site", () => {
  test.beforeEach(async ({ page }) => {
    await openDay(page);
    await showSite(page);
  });

  test("a place is dragged with the mouse: ways and plan follow, and one undo brings it back", async ({
    page,
  }) => {
    await placeButton(page, "Split Stone").click();
    const before = await row(page, "Split Stone").innerText();
    const from = await ring(page);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 40, from.y + 10, { steps: 5 });
    await page.mouse.move(from.x + 80, from.y + 20, { steps: 5 });
    await expect(page.locator(".site-move")).toContainText("Split Stone");
    await expect(page.locator(".site-move")).toContainText(/walked [+−]?[\d ]+ m/);
    await page.mouse.up();
    await expect(page.locator(".site-move")).toHaveCount(0);
    await expect(undo(page)).toHaveAttribute("title", "Undo: Move Split Stone");
    await expect.poll(() => row(page, "Split Stone").innerText()).not.toBe(before);
    await undo(page).click();
    await expect.poll(() => row(page, "Split Stone").innerText()).toBe(before);
  });

  test("by keys alone: a place is chosen, moved by arrows, set down as one step, another put back", async ({
    page,
  }) => {
    await map(page).focus();
    await page.keyboard.press("n");
    await page.keyboard.press("n");
    const name = await places(page).locator("button[aria-pressed=true]").innerText();
    const before = await row(page, name).innerText();
    await page.keyboard.press("Enter");
    for (let i = 0; i < 6; i += 1) await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Shift+ArrowUp");
    await expect(page.locator(".site-move")).toContainText(name);
    await page.keyboard.press("Enter");
    await expect(undo(page)).toHaveAttribute("title", `Undo: Move ${name}`);
    await expect.poll(() => row(page, name).innerText()).not.toBe(before);
    await undo(page).click();
    await expect.poll(() => row(page, name).innerText()).toBe(before);
    await expect(undo(page)).not.toHaveAttribute("title", `Undo: Move ${name}`);
    await map(page).focus();
    await page.keyboard.press("Enter");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("Escape");
    await expect(page.locator(".site-move")).toHaveCount(0);
    await expect.poll(() => row(page, name).innerText()).toBe(before);
  });

  test("the lander stays where coordinates begin", async ({ page }) => {
    await map(page).focus();
    await page.keyboard.press("n");
    await page.keyboard.press("Enter");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Enter");
    await expect(undo(page)).not.toHaveAttribute("title", /Move/);
  });

  test("wheel, keys and buttons zoom and move the map, and 0 shows all again", async ({ page }) => {
    await placeButton(page, "Split Stone").click();
    const first = await ring(page);
    const box = (await map(page).boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.wheel(0, -200);
    await expect.poll(async () => (await ring(page)).x).not.toBeCloseTo(first.x, 0);
    const zoomed = await ring(page);
    await map(page).focus();
    await page.keyboard.press("ArrowLeft");
    await expect.poll(async () => (await ring(page)).x).toBeCloseTo(zoomed.x + 60, 0);
    await page.keyboard.press("-");
    await page.keyboard.press("0");
    await expect.poll(async () => (await ring(page)).x).toBeCloseTo(first.x, 0);
    await page.getByRole("button", { name: "Closer" }).click();
    await expect.poll(async () => (await ring(page)).x).not.toBeCloseTo(first.x, 0);
  });

  test("minute and selection are shared with the day line, both ways", async ({ page }) => {
    await minute(page).fill(String(2 * 3600 + 180));
    await expect(page.locator(".site-where")).toContainText("EV1");
    await expect(page.locator(".site-minute")).toContainText("2:03");
    await goTo(page, "Day");
    await expect(page.locator(".cursor-time")).toContainText("2:03");
    // Point at another minute on the day line and look at the site again.
    const stage = (await page.locator(".stage").boundingBox())!;
    await page.mouse.move(stage.x + stage.width * 0.6, stage.y + 8);
    const pointed = (await page.locator(".cursor-time b").innerText()).trim();
    await goTo(page, "Site");
    await expect(page.locator(".site-minute b")).toHaveText(pointed);
    await placeButton(page, "Split Stone").click();
    await goTo(page, "Day");
    await expect(page.locator('.block[data-task="stone-core"]').first()).toHaveAttribute(
      "aria-pressed",
      "true",
    );
  });

  test("GeoJSON goes out and comes in; a wrong file says why and leaves the plan", async ({ page }) => {
    const [file] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save GeoJSON" }).click(),
    ]);
    expect(file.suggestedFilename()).toMatch(/-[0-9a-f]{8}-site\.geojson$/);
    const text = readFileSync(await file.path(), "utf8");
    const kinds = (JSON.parse(text) as { features: { properties: { kind: string } }[] }).features.map(
      (one) => one.properties.kind,
    );
    expect(new Set(kinds)).toEqual(
      new Set(["lander", "station", "deployment", "way", "walk-back"].filter((kind) => kinds.includes(kind))),
    );
    expect(kinds).toContain("way");
    const add = page.locator('input[type=file][aria-label="Add GeoJSON…"]');
    const rows = await places(page).getByRole("row").count();
    await add.setInputFiles({
      name: "wrong.geojson",
      mimeType: "application/geo+json",
      buffer: Buffer.from("{}"),
    });
    await expect(page.getByRole("alert")).toContainText("wrong.geojson was not taken: this is no GeoJSON");
    await expect(places(page).getByRole("row")).toHaveCount(rows);
    await add.setInputFiles({
      name: "more.geojson",
      mimeType: "application/geo+json",
      buffer: Buffer.from(text),
    });
    await expect(page.locator(".site-files")).toContainText("places and 0 keep-outs added");
    await expect(places(page).getByRole("row")).toHaveCount(2 * rows - 1);
    await undo(page).click();
    await expect(places(page).getByRole("row")).toHaveCount(rows);
  });

  test("heights come from an ASCII grid; what is none says why", async ({ page }) => {
    const heights = page.locator('input[type=file][aria-label="Heights from file…"]');
    await heights.setInputFiles({ name: "odd.asc", mimeType: "text/plain", buffer: Buffer.from("hello") });
    await expect(page.getByRole("alert")).toContainText("odd.asc was not taken");
    await expect(undo(page)).not.toHaveAttribute("title", /Ground/);
    const line = Array.from({ length: 41 }, (_, k) => (k % 7) / 10).join(" ");
    const grid = `ncols 41\nnrows 41\nxllcenter 0\nyllcenter 0\ncellsize 50\nNODATA_value -9999\n${Array.from({ length: 41 }, () => line).join("\n")}\n`;
    await heights.setInputFiles({ name: "site.asc", mimeType: "text/plain", buffer: Buffer.from(grid) });
    // It says neither its unit nor where north is: both are asked for and nothing is taken before.
    const dialog = page.getByRole("dialog", { name: "Heights from site.asc" });
    await expect(dialog).toContainText("does not say where it lies nor where north is");
    const take = dialog.getByRole("button", { name: "Take these heights" });
    await expect(take).toBeDisabled();
    await dialog.getByLabel("Unit of the heights").selectOption("metres");
    await dialog.getByLabel("Else: bearing of its upward side").fill("0");
    await expect(dialog).toContainText("41 by 41 heights, 50 m apart");
    await take.click();
    await expect(page.getByRole("list", { name: "What was taken" })).toContainText(
      "Unit: metres, given by hand.",
    );
    await expect(page.getByText("Ground site.asc.", { exact: false })).toBeVisible();
    await undo(page).click();
    await expect(page.getByText("the plan has no height grid", { exact: false })).toBeVisible();
  });
});

test.describe("the demo plan's site", () => {
  test.beforeEach(async ({ page }) => {
    await page.goto("./?plan=demo");
    await goTo(page, "Site");
    await expect(row(page, "Osier, far lip")).toContainText("34 min");
  });

  test("says of every place how far, which way, how long home, and whether the sun shines", async ({
    page,
  }) => {
    await expect(row(page, "Osier, far lip")).toHaveText(/1\.59 km, 048°\s*34 min\s*(lit|shadow)/);
    await placeButton(page, "Osier, far lip").click();
    await page
      .getByRole("button", { name: "How it is worked out: walk back from Osier, far lip" })
      .press("Enter");
    const box = page.getByRole("group", { name: "How it is worked out: walk back from Osier, far lip" });
    await expect(box).toBeVisible();
    await expect(box).toContainText("levelM / speedMs");
    await expect(box).toContainText("Tobler 1993");
    await page.keyboard.press("Escape");
    await expect(box).toBeHidden();
  });

  test("layers are switched by their words", async ({ page }) => {
    const shot = () => map(page).screenshot();
    const before = await shot();
    await page.getByRole("checkbox", { name: "Keep-outs" }).uncheck();
    expect((await shot()).equals(before)).toBe(false);
    await page.getByRole("checkbox", { name: "Keep-outs" }).check();
    await expect.poll(async () => (await shot()).equals(before)).toBe(true);
  });

  for (const theme of ["light", "dark"] as const)
    for (const width of [1280, 820])
      test(`no accessibility violation, ${theme}, ${width} px wide`, async ({ page }) => {
        await page.setViewportSize({ width, height: 900 });
        await setTheme(page, theme);
        await placeButton(page, "Osier, near lip").click();
        await page.getByRole("button", { name: /^How it is worked out: walk back/ }).click();
        const { violations } = await (await axeOn(page)).analyze();
        expect(
          violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.target).join(", ")}`),
        ).toEqual([]);
      });
});

test.describe("by touch", () => {
  test.use({ hasTouch: true });

  test("two fingers zoom the map about the ground between them", async ({ page }) => {
    await openDay(page);
    await showSite(page);
    await placeButton(page, "Split Stone").click();
    const before = await ring(page);
    const box = (await map(page).boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const client = await page.context().newCDPSession(page);
    const fingers = (apart: number) => [
      { x: x - apart, y, id: 1 },
      { x: x + apart, y, id: 2 },
    ];
    const send = (type: string, touchPoints: object[]) =>
      client.send("Input.dispatchTouchEvent", { type, touchPoints } as never);
    await send("touchStart", fingers(60));
    for (const apart of [70, 80, 90, 100, 110, 120]) await send("touchMove", fingers(apart));
    await send("touchEnd", []);
    // Twice as far apart, twice as close: the ring stands twice as far from the middle.
    await expect.poll(async () => ((await ring(page)).x - x) / (before.x - x)).toBeCloseTo(2, 0);
  });

  test("a finger pans the map, and moves a place only when it is chosen", async ({ page }) => {
    await openDay(page);
    await showSite(page);
    const drag = async (from: { x: number; y: number }, byX: number): Promise<void> => {
      const client = await page.context().newCDPSession(page);
      let atS = Date.now() / 1000;
      /** So many seconds after the one before, by the clock of the touch itself. */
      const send = (type: string, touchPoints: { x: number; y: number }[], laterS = 0.02) =>
        client.send("Input.dispatchTouchEvent", { type, touchPoints, timestamp: (atS += laterS) } as never);
      await send("touchStart", [from]);
      for (let k = 1; k <= 5; k += 1) await send("touchMove", [{ x: from.x + (byX * k) / 5, y: from.y }]);
      // A finger that rests before it is lifted flings nothing: a tap during a fling is taken to stop it.
      await send("touchMove", [{ x: from.x + byX, y: from.y }], 0.3);
      await send("touchEnd", []);
    };
    const tap = async (pressed: "true" | "false"): Promise<void> => {
      await placeButton(page, "Split Stone").tap();
      await expect(placeButton(page, "Split Stone")).toHaveAttribute("aria-pressed", pressed);
    };
    await tap("true");
    const stone = await ring(page);
    await tap("false");
    await drag(stone, 40);
    await expect(undo(page)).not.toHaveAttribute("title", /Move/);
    await tap("true");
    expect((await ring(page)).x).toBeCloseTo(stone.x + 40, 0);
    await drag(await ring(page), 40);
    await expect(undo(page)).toHaveAttribute("title", "Undo: Move Split Stone");
  });
});
