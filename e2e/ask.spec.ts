import { axeOn } from "./axe.ts";
import { expect, type Locator, type Page, test } from "@playwright/test";
import { openDay, openPacked } from "./days.ts";
import { goTo, howToPack, openSide, setTheme } from "./shell.ts";

const undo = (page: Page): Locator => page.getByRole("button", { name: /^Undo/ });
const answer = (page: Page): Locator => page.getByRole("complementary", { name: "Why not" });
const worth = (page: Page): Locator =>
  page.getByRole("region", { name: "Score" }).getByRole("group", { name: "worth" });
const figure = async (page: Page): Promise<string> => worth(page).locator(".figure").innerText();

/** Opens the demo plan and packs it for two seconds. */
async function packDemo(page: Page, aim: "wish" | "likely" = "wish"): Promise<void> {
  await page.goto("./?plan=demo");
  await howToPack(page, 2, aim);
  await page.getByRole("button", { name: "Pack", exact: true }).click();
  await expect(page.getByRole("button", { name: /^Undo.*Pack/ })).toBeEnabled();
  await expect(page.getByRole("button", { name: "Pack", exact: true })).toBeVisible();
  await openSide(page);
  await expect(page.getByText("14 of 14").first()).toBeVisible();
}

/**
 * Asks about bench tasks, one after the other, until an answer has something that could give. A slow machine may stop before it
 * has tried anything: then it is told to look longer.
 */
async function askUntilSomethingGives(page: Page): Promise<void> {
  await openSide(page);
  const asks = page.locator(".bench").getByRole("button", { name: /^Why not\?/ });
  const stop = answer(page).getByRole("button", { name: "Stop" });
  const longer = answer(page).getByRole("button", { name: "Look longer" });
  const ended = answer(page).getByText(/changes? tried|Nothing had to be tried|Stopped before/);
  const gives = answer(page).getByRole("button", { name: /^Try as a variant/ });
  const count = await asks.count();
  for (let i = 0; i < count; i += 1) {
    await asks.nth(i).click();
    await expect(answer(page)).toBeVisible();
    await expect(stop).toHaveCount(0);
    await expect(ended).toBeVisible();
    if ((await gives.count()) === 0 && (await longer.count()) > 0) {
      await longer.click();
      await expect(stop).toHaveCount(0);
      await expect(ended).toBeVisible();
    }
    if ((await gives.count()) > 0) return;
  }
  throw new Error("no bench task has anything that could give");
}

test("a bench task's why not, its first relaxation as a variant, compared, adopted and taken back", async ({
  page,
}) => {
  await openPacked(page);
  await expect(worth(page)).toBeVisible();
  const before = await figure(page);
  await askUntilSomethingGives(page);
  // One figure: what the card says is the first thing that could give, as the panel has it; nothing is said to be missing beside it.
  await expect(answer(page)).not.toContainText("missing");
  const first = await answer(page).locator(".way-sentence").first().innerText();
  await expect(page.locator(".bench").getByText(first)).toBeVisible();
  await expect(answer(page).getByText(/^(Proved|Searched, not proved): /)).toBeVisible();

  await answer(page)
    .getByRole("button", { name: /^Try as a variant/ })
    .first()
    .press("Enter");
  expect(await figure(page)).toBe(before);
  await expect(page.getByRole("status").first()).toContainText("Kept as variant");
  await expect(undo(page)).toHaveAttribute("title", /^Undo: Keep variant/);
  await expect(answer(page).getByRole("button", { name: "Compare" })).toBeFocused();

  await page.keyboard.press("Enter");
  const comparison = page.getByRole("region", { name: "Comparison" });
  await expect(comparison.getByRole("columnheader")).toHaveCount(2);
  await expect(comparison.getByRole("row", { name: /^Worth/ })).toContainText(before);
  const cells = comparison.getByRole("row", { name: /^Worth/ }).getByRole("cell");
  const offered = /^[\d\u202f]+/.exec(await cells.nth(1).innerText())?.[0] ?? "";
  await expect(page.getByText(/\d+ tasks? dropped, \d+ added, \d+ moved\./)).toBeVisible();
  // Beside each day its chances, by themselves.
  await expect(comparison.getByRole("row", { name: /^Every must-do done/ })).toContainText(/% .*%/s);

  await page.getByRole("button", { name: /^Adopt/ }).press("Enter");
  await expect(page.getByText("as the day stands")).toBeVisible();
  expect(await figure(page)).toBe(offered);
  await expect(undo(page)).toHaveAttribute("title", /^Undo: Adopt variant/);
  await page.keyboard.press("Control+z");
  expect(await figure(page)).toBe(before);
  await expect(page.getByText("as the day stands")).toHaveCount(0);
});

test("a breach is asked about, and the answer is marked when the day changes", async ({ page }) => {
  await openDay(page);
  const level = page.getByRole("button", { name: /^Level the ground listener/ }).first();
  await level.focus();
  await page.keyboard.press("Enter");
  for (let k = 0; k < 9; k += 1) await page.keyboard.press("Shift+ArrowLeft");
  await page.keyboard.press("Enter");
  const findings = page.getByRole("region", { name: "Findings" });
  await findings
    .getByRole("button", { name: /breach/, expanded: false })
    .first()
    .press("Enter");
  const ask = findings.getByRole("button", { name: /^Why not\?/ }).first();
  await ask.press("Enter");
  await expect(answer(page).getByRole("heading", { name: "The day as it stands" })).toBeFocused();
  await expect(answer(page).getByRole("button", { name: "Stop" })).toHaveCount(0);
  await expect(answer(page).getByText(/^Asked at:/)).toBeVisible();
  await page.keyboard.press("Control+z");
  await expect(answer(page).getByText("The day has changed since")).toBeVisible();
  await answer(page).getByRole("button", { name: "Ask again" }).press("Enter");
  await expect(answer(page).getByText("The day has changed since")).toHaveCount(0);
  await page.keyboard.press("Escape");
  await expect(answer(page)).toHaveCount(0);
});

test("variants are kept by name, renamed, there after a reload, and removed", async ({ page }) => {
  await packDemo(page);
  await goTo(page, "Variants");
  await page.getByRole("textbox", { name: "Name of the variant" }).fill("Quiet day");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("row", { name: /^Compare Quiet day/ })).toBeVisible();
  await expect(page.getByText("Every task is where it is")).toBeVisible();

  await page.getByRole("button", { name: "Rename Quiet day" }).press("Enter");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("Calm day");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("button", { name: "Rename Calm day" })).toBeFocused();
  await expect(page.getByText("Saved here")).toBeVisible();
  await page.goto("./");
  await goTo(page, "Variants");
  await expect(page.getByRole("row", { name: /^Compare Calm day/ })).toBeVisible();
  await page.getByRole("button", { name: "Remove Calm day" }).press("Enter");
  await expect(page.getByText("No variant is kept yet.")).toBeVisible();
  await page.getByRole("button", { name: "Keep the day as a variant" }).press("Enter");
  await expect(page.getByRole("alert")).toHaveText("It needs a name.");
});

test("the odds of 2000 days come by themselves, the same again with the same seed, and follow the day", async ({
  page,
}) => {
  await packDemo(page);
  await goTo(page, "Odds");
  const work = page.getByRole("button", { name: "Work out the odds" });
  const day = page.getByRole("region", { name: "The day" });
  await expect(day).toContainText(/2\u202f?000 simulated days, durations PERT, seed 1/);
  const first = await day.innerText();
  await expect(page.getByRole("region", { name: "EVAs" }).getByRole("row")).toHaveCount(3);
  await expect(page.getByRole("region", { name: "Margins over time" }).getByRole("img")).toHaveCount(16);
  await expect(page.getByRole("region", { name: "How a day is played" })).toContainText("Not simulated:");
  await expect(page.locator(".odds-hurts li").first()).toContainText("likely time exactly");

  await page.getByRole("spinbutton", { name: "Seed" }).fill("2");
  await work.click();
  await expect(day).toContainText("seed 2");
  await page.getByRole("spinbutton", { name: "Seed" }).fill("1");
  await work.click();
  await expect(day).toContainText("seed 1");
  expect(await day.innerText()).toBe(first);

  await day.getByRole("button").first().press("Enter");
  const from = page.getByRole("group", { name: "How it is worked out: everybody home" });
  await expect(from).toContainText("happened / days * 100");
  await expect(from).toContainText("Wilson 1927");
  await page.keyboard.press("Escape");

  // Back to the day with nothing on it, which has no odds, and to the packed one, whose odds come anew.
  await page.keyboard.press("Control+z");
  await expect(page.getByText("Of the day before. Nothing is placed now.")).toBeVisible();
  expect(await day.innerText()).toBe(first);
  await page.keyboard.press("Control+Shift+z");
  await expect(page.getByText("Of the day as it stands.")).toBeVisible();
  expect(await day.innerText()).toBe(first);
});

test("after a pack it is said beside the findings what is proved of its worth, until the day is another", async ({
  page,
}) => {
  await page.goto("./?plan=small");
  const findings = page.getByRole("region", { name: "Findings" });
  await expect(findings.getByText(/proved best|more is possible/)).toHaveCount(0);
  // What is proved is how much is possible at likely durations.
  await howToPack(page, 5, "likely");
  await page.getByRole("button", { name: "Pack", exact: true }).click();
  // The whole small request list fits: nothing better can be.
  await expect(findings.getByText("proved best")).toBeVisible();
  await page.locator(".block").first().focus();
  await page.keyboard.press("b");
  await expect(findings.getByText(/proved best|more is possible/)).toHaveCount(0);
  await page.keyboard.press("Control+z");
  await expect(findings.getByText("proved best")).toBeVisible();

  await packDemo(page, "likely");
  const words = await findings.getByText(/proved best|at most [\d.]+ % more is possible/).innerText();
  expect(words).toMatch(/^(proved best|at most \d+(\.\d)? % more is possible)$/);
});

test("the shed order is a table by EVA and is printed with the cuff checklists", async ({ page }) => {
  await packDemo(page);
  await goTo(page, "Odds");
  await page.getByRole("button", { name: "If late", exact: true }).click();
  const table = page.getByRole("region", { name: "EVA 1, when late" });
  await expect(table).toBeVisible();
  await expect(table.getByRole("columnheader")).toHaveText([
    "Leaving",
    "Planned",
    ...[5, 10, 20, 30, 45].map((late) => `${late} min late`),
  ]);
  await expect(page.getByRole("heading", { name: "EVA 2: get-ahead list" })).toBeVisible();
  await page.getByRole("button", { name: "Print with the cuff checklists" }).press("Enter");
  await expect(page.getByText("With the late page of every EVA.")).toBeVisible();
  // Each day that is packed is another: on some every page has an answer, on others none.
  await expect(
    page
      .locator(".paper-page")
      .filter({ hasText: /LEAVE OUT|IF LATE/ })
      .first(),
  ).toBeAttached();
});

const looks = (["light", "dark"] as const).flatMap((theme) =>
  [
    { width: 1280, height: 800 },
    { width: 820, height: 1180 },
  ].map((viewport) => ({ theme, viewport })),
);
for (const { theme, viewport } of looks) {
  test(`no accessibility violation on answers, variants, odds and shed order, ${theme}, ${viewport.width} px`, async ({
    page,
  }) => {
    // Six screens are looked through, each as a whole.
    test.slow();
    await page.setViewportSize(viewport);
    await packDemo(page);
    await setTheme(page, theme);
    const violations = async (where: string): Promise<void> => {
      const found = await (await axeOn(page)).analyze();
      expect(found.violations.map((one) => `${where}: ${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual(
        [],
      );
    };
    await askUntilSomethingGives(page);
    await violations("answer");
    await answer(page)
      .getByRole("button", { name: /^Try as a variant/ })
      .first()
      .click();
    await violations("answer kept");
    await answer(page).getByRole("button", { name: "Compare" }).click();
    await violations("variants");
    await goTo(page, "Odds");
    await expect(page.getByRole("region", { name: "The day" })).toBeVisible();
    await violations("odds");
    // The variant, then the pack.
    for (let k = 0; k < 2; k += 1) await page.keyboard.press("Control+z");
    await expect(page.getByText(/^Of the day before/)).toBeVisible();
    await violations("odds of the day before");
    for (let k = 0; k < 2; k += 1) await page.keyboard.press("Control+Shift+z");
    await page.getByRole("button", { name: "If late", exact: true }).click();
    await expect(page.getByRole("heading", { name: "EVA 2: get-ahead list" })).toBeVisible();
    await violations("if late");
  });
}
