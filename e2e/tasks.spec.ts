import { axeOn } from "./axe.ts";
import { expect, type Locator, type Page, test } from "@playwright/test";
import { block, middleOf, openPacked, spanOf } from "./days.ts";
import { DESK_SIZES, goTo, howToPack, setTheme } from "./shell.ts";

/**
 * What a planner does all day, by hand, on the packed demo day. Each press, key, drag or pointing counts as one action; no task may
 * take more than is written here.
 */

test.use({ viewport: { width: 1280, height: 720 } });

/** A hand that counts what it does. */
function handOn(page: Page) {
  let actions = 0;
  return {
    count: () => actions,
    async press(target: Locator, how: Parameters<Locator["click"]>[0] = {}): Promise<void> {
      actions += 1;
      await target.click(how);
    },
    async key(...keys: readonly string[]): Promise<void> {
      for (const key of keys) {
        actions += 1;
        await page.keyboard.press(key);
      }
    },
    async point(target: Locator): Promise<void> {
      actions += 1;
      await target.hover();
    },
    async drag(target: Locator, byX: number, byY: number): Promise<void> {
      actions += 1;
      const from = await middleOf(target);
      await page.mouse.move(from.x, from.y);
      await page.mouse.down();
      await page.mouse.move(from.x + byX / 2, from.y + byY / 2, { steps: 4 });
      await page.mouse.move(from.x + byX, from.y + byY, { steps: 4 });
      await page.mouse.up();
    },
  };
}

const score = (page: Page, name: string): Locator =>
  page.getByRole("region", { name: "Score" }).getByRole("group", { name });
const undo = (page: Page): Locator => page.getByRole("button", { name: /^Undo/ });
const readout = (page: Page): Locator => page.locator(".readout");

test.beforeEach(({ page }) => openPacked(page));

test("what sets the worst margin is read without a press, and from what it comes with one", async ({
  page,
}) => {
  const hand = handOn(page);
  await expect(score(page, "worst margin")).toContainText(/EV\d .*, EVA \d/);
  expect(hand.count()).toBe(0);
  await hand.press(score(page, "worst margin").getByRole("button"));
  await expect(page.getByRole("group", { name: "How it is worked out: worst margin" })).toContainText(
    "left - reserve",
  );
  expect(hand.count()).toBe(1);
});

test("the rule that holds by least is gone to with one press", async ({ page }) => {
  const hand = handOn(page);
  const shown = page.getByRole("scrollbar", { name: "Shown part of the stay" });
  const before = await shown.getAttribute("aria-valuetext");
  await hand.press(page.locator(".rule-row", { hasText: "Battery reserve" }));
  await expect(page.getByRole("list", { name: "Battery reserve" }).locator(".finding").first()).toContainText(
    /above the reserve|below the reserve/,
  );
  expect(await shown.getAttribute("aria-valuetext")).not.toBe(before);
  expect(hand.count()).toBe(1);
});

test("what was dropped, and why, is read without a press", async ({ page }) => {
  const bench = page.getByRole("region", { name: "Bench" });
  await expect(bench.locator(".card").first()).toContainText(/\d/);
  await expect(bench.locator(".card-why").first()).toContainText(/[a-z]{3,}.*\./);
});

/** Where the line shows a moment, in pixels of the page: found by reading two others off the readout. */
async function xOf(page: Page, atMin: number): Promise<{ x: number; y: number }> {
  const box = (await page.locator(".stage").boundingBox())!;
  const y = box.y + 8;
  const read = async (x: number): Promise<number> => {
    await page.mouse.move(x, y);
    const first = readout(page).locator("b").first();
    await expect(first).toHaveText(/^\d+:\d\d$/);
    const [h, m] = (await first.innerText()).split(":").map(Number);
    return h! * 60 + m!;
  };
  const [left, right] = [box.x + 40, box.x + box.width - 40];
  const [from, to] = [await read(left), await read(right)];
  return { x: left + ((atMin + 0.5 - from) / (to - from)) * (right - left), y };
}

test("who is alone at 5:10, and at 5:20, is read by pointing there once", async ({ page }) => {
  for (const [atMin, said] of [
    [5 * 60 + 10, ["EV1 and EV2: 6 Carry heat bank and node out"]],
    [5 * 60 + 20, ["EV1 alone: 7 Carry the instruments out", "EV2 alone: 8 Set up and level the node"]],
  ] as const) {
    const at = await xOf(page, atMin);
    // One action: the pointer goes there.
    await page.mouse.move(at.x, at.y);
    for (const words of said) await expect(readout(page)).toContainText(words);
    await expect(readout(page)).toContainText(/\d m apart/);
  }
  // By keys: the task that has the keyboard says so too.
  await page.mouse.move(0, 0);
  await block(page, "Dig the trench", "EV2").focus();
  await expect(readout(page)).toContainText(/EV2\s*alone/);
});

test("twenty minutes are freed before pass 4: one drag, judged while it is held", async ({ page }) => {
  const hand = handOn(page);
  // EV1 is done with the heat bank at 5:48; pass 4 begins at 6:10.
  const task = block(page, "Lay the strain fibre", "EV1");
  const { width } = await middleOf(task);
  await hand.drag(task, (width / 33) * 10, 0);
  const [start] = (await spanOf(page, "Lay the strain fibre", "EV1")).split(" to ");
  const [h, m] = start!.split(":").map(Number);
  expect(h! * 60 + m! - (5 * 60 + 48)).toBeGreaterThanOrEqual(20);
  await expect(score(page, "breach")).toBeVisible();
  expect(hand.count()).toBe(1);
});

test("two people swap their tasks with three actions, judged, and one takes it back", async ({ page }) => {
  const hand = handOn(page);
  await hand.press(block(page, "Lay the strain fibre", "EV1"));
  await hand.press(block(page, "Dig the trench", "EV2"), { modifiers: ["Control"] });
  await hand.key("x");
  await expect(block(page, "Lay the strain fibre", "EV2")).toHaveCount(1);
  await expect(block(page, "Dig the trench", "EV1")).toHaveCount(1);
  await expect(undo(page)).toHaveAttribute("title", /^Undo: Swap crew/);
  expect(hand.count()).toBe(3);
  await hand.press(undo(page));
  await expect(block(page, "Lay the strain fibre", "EV1")).toHaveCount(1);
});

test("a station is moved on the map and the day judged with it, in three actions", async ({ page }) => {
  const hand = handOn(page);
  await hand.press(page.getByRole("navigation", { name: "Screens" }).getByRole("button", { name: "Site" }));
  await hand.press(
    page
      .getByRole("region", { name: "List of places" })
      .getByRole("button", { name: "Pebble Row", exact: true }),
  );
  await hand.drag(page.locator(".map-chosen"), 40, -30);
  await expect(undo(page)).toHaveAttribute("title", "Undo: Move Pebble Row");
  // The verdict beside it is that of the day with the station there.
  await expect(score(page, "breach")).toBeVisible();
  expect(hand.count()).toBe(3);
});

test("a task is moved and judged in one drag, the cost beside the line at its fixed place", async ({
  page,
}) => {
  const hand = handOn(page);
  const was = await spanOf(page, "Dig the trench", "EV2");
  await hand.drag(block(page, "Dig the trench", "EV2"), 40, 0);
  expect(await spanOf(page, "Dig the trench", "EV2")).not.toBe(was);
  await expect(score(page, "breach")).toBeVisible();
  expect(hand.count()).toBe(1);
});

test("a task of the bench is tried on the line in one drag, taken by any part of its card", async ({
  page,
}) => {
  const hand = handOn(page);
  // What the simulated days find stands above the bench and moves it when it comes.
  await expect(page.getByRole("list", { name: "Below the wish" })).toBeVisible();
  const card = page.locator(".card", { hasText: "Section up Grey Step" });
  const worth = card.locator(".card-worth");
  const to = await middleOf(page.locator(".stage"));
  const from = await middleOf(worth);
  await hand.drag(worth, to.x - from.x, to.y - from.y);
  await expect(undo(page)).toHaveAttribute("title", /^Undo: Place Section up Grey Step/);
  expect(hand.count()).toBe(1);
});

test("a task is handed over to the other one with two actions", async ({ page }) => {
  const hand = handOn(page);
  await hand.press(block(page, "Dig the trench", "EV2"), { button: "right" });
  await hand.press(page.getByRole("menuitem", { name: /^Hand over/ }));
  await expect(block(page, "Dig the trench", "EV1")).toHaveCount(1);
  expect(hand.count()).toBe(2);
});

test("a pack is one press, each better day stands on the line, and taking it is one key", async ({
  page,
}) => {
  const hand = handOn(page);
  await howToPack(page, 60);
  await hand.press(page.getByRole("button", { name: "Pack", exact: true }));
  await expect(page.getByRole("group", { name: "Packing" })).toBeVisible();
  await expect(page.getByRole("progressbar", { name: "Time used" })).toBeVisible();
  await expect(readout(page)).toContainText(/better day \d+: worth/);
  // Never more than was allowed.
  await expect(readout(page)).toContainText(/\d+ (s|min) of 1 min/);
  await page.locator("body").press("Enter");
  await expect(page.getByRole("button", { name: "Pack", exact: true })).toBeVisible();
  await expect(undo(page)).toHaveAttribute("title", "Undo: Pack");
  expect(hand.count()).toBe(1);
});

test("by keys alone: how to pack, stop, a finding, the fields of a task, why not, every command, a theme, paper", async ({
  page,
}) => {
  const press = async (...keys: readonly string[]): Promise<void> => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const focused = page.locator(":focus");
  // The menu beside Pack: its fields are gone through by Tab, and the way back is Escape.
  await page.getByRole("button", { name: "How to pack" }).focus();
  await press("Enter");
  await expect(page.getByLabel("How long to search")).toBeFocused();
  await press("End", "Escape");
  await expect(page.getByRole("button", { name: "How to pack" })).toBeFocused();
  await page.getByRole("button", { name: "Pack", exact: true }).focus();
  await press("Enter");
  await expect(page.getByRole("button", { name: /^Take this day/ })).toBeFocused();
  await press("Escape");
  await expect(page.getByRole("button", { name: "Pack", exact: true })).toBeFocused();
  // From finding to finding: each is unfolded where it is gone to.
  await press("f");
  await expect(page.locator(".finding[aria-pressed=true]")).toHaveCount(1);
  await press("1");
  // A task is walked to, taken, moved, set down, and its fields opened.
  await block(page, "Dig the trench", "EV2").focus();
  await press("ArrowRight", "Enter");
  await expect(page.locator(".cost")).toBeVisible();
  await press("ArrowRight", "Enter");
  await expect(page.locator(".cost")).toHaveCount(0);
  await press("Control+z");
  await page.getByRole("button", { name: "Details" }).press("Enter");
  await expect(page.getByRole("region", { name: /^Task / })).toBeVisible();
  await page.getByRole("button", { name: "Close details" }).press("Enter");
  // Another place, without a map: a key opens the field, a choice in it judges the day.
  await block(page, "Dig the trench", "EV2").focus();
  await press("g");
  const place = page.getByRole("combobox", { name: /^Place/ });
  await expect(place).toBeFocused();
  await place.selectOption({ label: "Pebble Row" });
  await press("Enter");
  await expect(block(page, "Dig the trench", "EV2")).toHaveAttribute("aria-label", /at Pebble Row/);
  await page.getByRole("button", { name: "Close details" }).press("Enter");
  await press("Control+z");
  // The bench is found by a key; a task of it is asked about.
  await block(page, "Dig the trench", "EV2").focus();
  await press("/");
  await expect(page.getByRole("searchbox", { name: "Find on the bench" })).toBeFocused();
  await page.keyboard.type("grey");
  await page.locator(".card-grip").first().focus();
  await press("w");
  await expect(page.getByRole("complementary", { name: "Why not" })).toBeVisible();
  await press("Escape");
  await press("Control+k");
  await page.keyboard.type("dark theme");
  await press("Enter");
  await expect(page.locator("html")).toHaveAttribute("data-theme", "dark");
  await page.getByRole("button", { name: "Paper", exact: true }).press("Enter");
  await expect(page.locator(".paper-page").first()).toBeAttached();
  await expect(focused).toHaveText("Paper");
});

for (const theme of ["light", "dark", "dim"] as const)
  test(`no accessibility violation at rest, in hand, packing and in dialogs, ${theme}`, async ({ page }) => {
    test.slow();
    const check = async (what: string): Promise<void> => {
      const { violations } = await (await axeOn(page)).analyze();
      expect(violations.map((one) => `${what}: ${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
    };
    await setTheme(page, theme);
    await page.locator(".rule-row").first().click();
    await page.keyboard.press("1");
    await block(page, "Dig the trench", "EV2").click();
    await check("rest");
    await page.getByRole("button", { name: "Details" }).click();
    await check("details");
    await page.getByRole("button", { name: "Close details" }).click();
    await block(page, "Dig the trench", "EV2").focus();
    await page.keyboard.press("Enter");
    for (let k = 0; k < 3; k += 1) await page.keyboard.press("Shift+ArrowLeft");
    await expect(page.locator(".cost.breach")).toBeVisible();
    // Where it breaks is drawn: what lies over each other, and the minute.
    await expect(page.locator(".overlap").first()).toBeVisible();
    await expect(page.locator(".hand-label.breach").first()).toContainText(/\d:\d\d/);
    await check("in hand");
    await page.keyboard.press("Escape");
    await howToPack(page, 60);
    await page.getByRole("button", { name: "Pack", exact: true }).click();
    await expect(readout(page)).toContainText(/better day/);
    await check("packing");
    await page.keyboard.press("Escape");
    await page.keyboard.press("Control+k");
    await check("commands");
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Help and theme" }).click();
    await check("help");
    await page.getByRole("button", { name: "Keys and legend" }).click();
    await check("keys");
    await page.keyboard.press("Escape");
    await goTo(page, "Setup");
    await check("setup");
  });

test("nothing overflows at 1024 to 1920 pixels, at rest, before packing and in hand", async ({ page }) => {
  /** What of the top row, the side and the readout lies outside of its place. */
  const outside = (): Promise<string[]> =>
    page.evaluate(() => {
      const row = document.querySelector(".header")?.getBoundingClientRect();
      const figures = [...document.querySelectorAll(".score-figure")].filter((one) => one.checkVisibility());
      const room = document.querySelector(".score")?.getBoundingClientRect();
      const said = (one: Element): string => `${one.className}: ${one.textContent ?? ""}`;
      return [
        ...[...document.querySelectorAll(".header button, .header h1")].filter(
          (one) =>
            one.checkVisibility() &&
            (one.getBoundingClientRect().bottom > (row?.bottom ?? 0) + 1 ||
              one.getBoundingClientRect().right > window.innerWidth + 1),
        ),
        ...figures.filter((one) => {
          const box = one.getBoundingClientRect();
          return !room || box.left < room.left - 1 || box.right > room.right + 1;
        }),
        ...[...document.querySelectorAll(".side *")].filter(
          (one) =>
            one.checkVisibility({ visibilityProperty: true }) &&
            !one.closest(".unseen, svg") &&
            one.getBoundingClientRect().right > window.innerWidth + 1,
        ),
      ].map(said);
    });
  for (const [width, height] of DESK_SIZES) {
    await page.setViewportSize({ width, height });
    await expect.poll(outside, { message: `${width} px` }).toEqual([]);
    expect((await page.locator(".header").boundingBox())?.height, `${width} px`).toBe(52);
    await block(page, "Dig the trench", "EV2").focus();
    await page.keyboard.press("Enter");
    await page.keyboard.press("Shift+ArrowLeft");
    await expect(page.locator(".cost")).toBeVisible();
    await expect.poll(outside, { message: `${width} px, in hand` }).toEqual([]);
    await page.keyboard.press("Escape");
  }
  await page.unroute("**/plans/demo.json");
  await page.goto("./?plan=demo");
  for (const [width, height] of DESK_SIZES) {
    await page.setViewportSize({ width, height });
    await expect.poll(outside, { message: `${width} px, empty` }).toEqual([]);
  }
  const asked = page.getByRole("region", { name: "Crew time asked and at hand" });
  await expect(asked).toContainText("ways and rests not counted");
  await expect(asked).toContainText(/\d+:\d\d too much/);
});
