import { readFileSync } from "node:fs";
import { axeOn } from "./axe.ts";
import { expect, type Page, test } from "@playwright/test";
import { block, openDay, openPacked } from "./days.ts";
import { clockAndHand, goTo, setTheme } from "./shell.ts";

const map = (page: Page) => page.getByRole("region", { name: "Map beside the lanes" });
const plate = (page: Page, place: string) => map(page).locator(".plate-of-place").filter({ hasText: place });

/** Points at a share of the width of the lanes, where no block is. */
async function pointAt(page: Page, share: number): Promise<void> {
  const stage = (await page.locator(".stage").boundingBox())!;
  await page.mouse.move(stage.x + stage.width * share, stage.y + 6);
}

test.describe("the map beside the lanes", () => {
  test.use({ viewport: { width: 1920, height: 1080 } });

  test("shows the minute of the line, who is where at it, and the numbers of the tasks at their places", async ({
    page,
  }) => {
    await openDay(page);
    await expect(plate(page, "Split Stone").locator("b").first()).toBeVisible();
    await pointAt(page, 0.5);
    const minute = await page.locator(".cursor-time b").innerText();
    await expect(map(page).locator(".beside-minute")).toHaveText(minute);
    await expect(map(page).locator("[data-person]")).toHaveCount(2);
    // By keys: to the task before and on, each at its own minute.
    await block(page, "First panorama", "EV2").focus();
    await page.keyboard.press("ArrowRight");
    // The stone's samples begin at 8400 s, which is 2:20.
    await expect(map(page).locator(".beside-minute")).toHaveText("2:20");
    await expect(page.locator(".cursor-time b")).toHaveText("2:20");
    await expect(map(page).locator("footer")).toContainText(/EV2 \d+ .*home in \d+ min/);
  });

  test("marks what is selected or pointed at in both", async ({ page }) => {
    await openDay(page);
    const core = plate(page, "Split Stone").locator('[data-task="stone-core"]');
    await core.hover();
    await expect(page.locator(".pointed-block").first()).toBeVisible();
    // Of a block for two nothing goes through the name, which stands at the line home.
    await expect(page.locator('.pointed-block[data-joint="up"]')).toHaveCSS("border-bottom-width", "0px");
    await expect(page.locator('.pointed-block[data-joint="down"]')).toHaveCSS("border-top-width", "0px");
    await core.click();
    await expect(block(page, "Core at Split Stone")).toHaveAttribute("aria-pressed", "true");
    await expect(core).toHaveAttribute("data-selected", "true");
    await expect(map(page).locator(".beside-mark")).toHaveCount(1);
    await block(page, "First panorama", "EV2").hover();
    await expect(map(page).locator('[data-pointed="true"]')).toHaveCount(1);
  });

  test("takes a task from the line or the bench at another place, as one step, and says why not", async ({
    page,
  }) => {
    await openDay(page);
    const onto = async (place: string): Promise<void> => {
      const box = (await plate(page, place).boundingBox())!;
      await page.mouse.move(box.x + 20, box.y + 60, { steps: 3 });
      await page.mouse.move(box.x + 6, box.y + box.height / 2, { steps: 3 });
      await expect(plate(page, place)).toHaveAttribute("data-target", "true");
    };
    const undo = page.getByRole("button", { name: /^Undo/ });
    await page.getByRole("button", { name: "Map of all places" }).click();
    await expect(plate(page, "Low Scarp")).toBeVisible();
    await block(page, "Core at Split Stone").hover();
    await page.mouse.down();
    await onto("Low Scarp");
    await expect(page.locator(".cost")).toContainText("to Low Scarp");
    await page.mouse.up();
    await expect(undo).toHaveAttribute("title", "Undo: Put Core at Split Stone at Low Scarp");
    await expect(plate(page, "Low Scarp").locator('[data-task="stone-core"]')).toHaveCount(1);
    await expect(plate(page, "Split Stone").locator('[data-task="stone-core"]')).toHaveCount(0);
    await undo.click();
    await expect(plate(page, "Split Stone").locator('[data-task="stone-core"]')).toHaveCount(1);
    // From the bench: it stays there, at another place.
    await page.locator('.card-grip[data-task="scarp-soil"]').hover();
    await page.mouse.down();
    await onto("Split Stone");
    await page.mouse.up();
    await expect(page.locator('.card-grip[data-task="scarp-soil"]')).toContainText("Split Stone");
    // What is carried from one place to another has two.
    await block(page, "Carry the ground listener out").hover();
    await page.mouse.down();
    await onto("Low Scarp");
    await page.mouse.up();
    await expect(page.locator(".readout-hint")).toContainText("leads from one place to another");
  });

  test("is put away for good, and brought back by the menu", async ({ page }) => {
    await openDay(page);
    await page.getByRole("button", { name: "Put the map away" }).click();
    await expect(map(page)).toHaveCount(0);
    await page.reload();
    await expect(block(page, "Core at Split Stone")).toBeVisible();
    await expect(map(page)).toHaveCount(0);
    const choice = await clockAndHand(page, "Map beside the lanes");
    await choice.click();
    await expect(map(page)).toBeVisible();
    await page.setViewportSize({ width: 1599, height: 900 });
    await expect(map(page)).toHaveCount(0);
    await page.setViewportSize({ width: 1600, height: 900 });
    await expect(map(page)).toBeVisible();
  });

  test("has nothing of the plan before after another one is opened, nor has the site's screen", async ({
    page,
  }) => {
    await openPacked(page);
    await expect(plate(page, "Anvil Block")).toBeVisible();
    await pointAt(page, 0.5);
    // Moved far away, so that a frame that stays would show.
    for (let i = 0; i < 6; i += 1) await page.getByRole("button", { name: "Map closer" }).click();
    await goTo(page, "Site");
    await expect(page.getByRole("region", { name: "List of places" })).toContainText("Anvil Block");
    for (let i = 0; i < 6; i += 1) await page.getByRole("button", { name: "Closer" }).click();
    await goTo(page, "Day");
    const small = JSON.parse(readFileSync("public/plans/small.json", "utf8")) as {
      site: { places: { name: string }[] };
    };
    const chooser = page.waitForEvent("filechooser");
    await page.keyboard.press("Control+o");
    await (await chooser).setFiles("public/plans/small.json");
    await expect(plate(page, "Split Stone")).toBeVisible();
    await expect(plate(page, "Anvil Block")).toHaveCount(0);
    // All of its places are in the picture, and nobody is out on a day with nothing on the line.
    await expect(map(page).locator(".plate-of-place")).toHaveCount(small.site.places.length);
    await expect(map(page).locator("[data-person]")).toHaveCount(0);
    await expect(map(page).locator(".plate-of-place b")).toHaveCount(0);
    await expect(map(page).locator("footer")).not.toContainText("place outside");
    await goTo(page, "Site");
    await page
      .getByRole("region", { name: "List of places" })
      .getByRole("button", { name: "Split Stone" })
      .click();
    const stage = (await page.getByRole("application", { name: "Map of the site" }).boundingBox())!;
    const ring = (await page.locator(".map-chosen").boundingBox())!;
    expect(ring.x).toBeGreaterThan(stage.x);
    expect(ring.x + ring.width).toBeLessThan(stage.x + stage.width);
  });

  for (const theme of ["light", "dark"] as const)
    test(`has no fault that a machine finds, ${theme}`, async ({ page }) => {
      await openDay(page);
      await setTheme(page, theme);
      await expect(plate(page, "Split Stone")).toBeVisible();
      const found = await (await axeOn(page)).include(".beside-map").analyze();
      expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    });
});
