import { axeOn } from "./axe.ts";
import { expect, type Page, test } from "@playwright/test";
import { readFileSync } from "node:fs";
import { block, openDay, spanOf } from "./days.ts";
import { setTheme } from "./shell.ts";

const shelf = (page: Page) => page.getByRole("dialog", { name: "Plans in this browser" });
const card = (page: Page, title: string) =>
  shelf(page)
    .getByRole("listitem")
    .filter({ has: page.getByRole("button", { name: `Rename ${title}`, exact: true }) });

async function openShelf(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Plan file" }).click();
  await page.getByRole("button", { name: "Plans in this browser" }).click();
  await expect(shelf(page)).toBeVisible();
}

async function title(page: Page): Promise<string> {
  return page.locator("header.header h1").innerText();
}

test("opening a plan leaves the other on the shelf; it is opened, copied, renamed, put away and brought back", async ({
  page,
}) => {
  await openDay(page);
  const small = await title(page);
  await block(page, "First scoop").focus();
  await page.keyboard.press("]");
  await page.getByRole("button", { name: "Plan file" }).click();
  await page.getByRole("button", { name: "Open the demo plan" }).click();
  await expect(page.locator("header.header h1")).not.toHaveText(small);
  const demo = await title(page);
  await openShelf(page);
  await expect(card(page, demo)).toContainText("Open");
  await card(page, small)
    .getByRole("button", { name: `Open ${small}` })
    .click();
  await expect(shelf(page)).toHaveCount(0);
  await expect(page.locator("header.header h1")).toHaveText(small);
  await expect(page.getByRole("button", { name: /^Undo/ })).toHaveAttribute(
    "title",
    "Undo: Move First scoop",
  );

  await openShelf(page);
  await card(page, demo).getByRole("button", { name: "Rename" }).click();
  await page.getByLabel("New title").fill("Northern rim");
  await page.keyboard.press("Enter");
  await expect(card(page, "Northern rim")).toBeVisible();
  await card(page, "Northern rim").getByRole("button", { name: "To the bin" }).click();
  await expect(card(page, "Northern rim")).toHaveCount(0);
  await shelf(page).getByRole("button", { name: "Bin (1)" }).click();
  await shelf(page).getByRole("button", { name: "Put back Northern rim" }).click();
  await shelf(page).getByRole("button", { name: "Plans", exact: true }).click();
  await card(page, "Northern rim").getByRole("button", { name: "Copy" }).click();
  await expect(page.locator("header.header h1")).toHaveText("Northern rim (copy)");
  await page.reload();
  await openShelf(page);
  await expect(shelf(page).getByRole("listitem").filter({ hasText: "on the line" })).toHaveCount(3);
});

test("a revision is kept with its author's note, compared in words, and gone back to in one step", async ({
  page,
}) => {
  await openDay(page);
  await openShelf(page);
  await page.getByLabel("Revision", { exact: true }).fill("R1");
  await page.getByLabel("By", { exact: true }).fill("A planner");
  await page.getByLabel("What is new in it").fill("As agreed in the morning");
  await page.keyboard.press("Enter");
  const states = shelf(page)
    .getByRole("list", { name: /^States of/ })
    .getByRole("listitem");
  await expect(states.first()).toContainText("Revision R1");
  await expect(states.first()).toContainText("As agreed in the morning");
  await expect(states.first()).toContainText("by A planner");
  await page.keyboard.press("Escape");
  await block(page, "First scoop").focus();
  await page.keyboard.press("b");
  await expect(block(page, "First scoop")).toHaveCount(0);
  await openShelf(page);
  await shelf(page).getByRole("button", { name: "Compare" }).click();
  await expect(shelf(page).getByRole("region", { name: "Differences" })).toContainText(
    "First scoop goes back to the bench.",
  );
  await states
    .first()
    .getByRole("button", { name: /^Go back/ })
    .click();
  await expect(shelf(page)).toHaveCount(0);
  await expect(block(page, "First scoop")).toBeVisible();
  await expect(page.getByRole("button", { name: /^Undo/ })).toHaveAttribute(
    "title",
    "Undo: Go back to a state",
  );
});

test("two windows on one plan: one writes, the other follows and takes over", async ({ page, context }) => {
  await openDay(page);
  await expect(page.getByText("Saved here")).toBeVisible();
  const other = await context.newPage();
  await other.goto("./");
  const word = (one: Page) => one.getByRole("region", { name: "Written in another window" });
  await expect(word(other)).toBeVisible();
  await expect(word(page)).toHaveCount(0);
  await block(page, "First scoop").focus();
  await page.keyboard.press("b");
  await expect(block(other, "First scoop")).toHaveCount(0);
  await block(other, "Carry the ground listener").focus();
  await other.keyboard.press("b");
  await expect(other.getByRole("alert").filter({ hasText: "being written in another window" })).toBeVisible();
  await expect(block(other, "Carry the ground listener")).toBeVisible();

  await word(other).getByRole("button", { name: "Take it over here" }).click();
  await expect(word(other)).toHaveCount(0);
  await expect(word(page)).toBeVisible();
  await block(other, "Carry the ground listener").focus();
  await other.keyboard.press("b");
  await expect(block(page, "Carry the ground listener")).toHaveCount(0);

  // The window that writes is closed: the other one writes by itself.
  await other.close();
  await expect(word(page)).toHaveCount(0);
  await page.getByRole("button", { name: /^Undo/ }).click();
  await expect(block(page, "Carry the ground listener")).toBeVisible();
});

test("a file that was sent away comes back and is merged, conflicts side by side", async ({ page }) => {
  await openDay(page);
  const download = page.waitForEvent("download");
  await page.keyboard.press("Control+s");
  const path = await (await download).path();
  const theirs = JSON.parse(readFileSync(path, "utf8")) as {
    tasks: { id: string; worth: number }[];
    schedule: { placements: { task: string; startS: number }[] };
  };
  theirs.tasks[1]!.worth += 7;
  for (const one of theirs.schedule.placements) if (one.task === "first-scoop") one.startS += 600;
  await block(page, "First scoop").focus();
  await page.keyboard.press("]");
  await openShelf(page);
  await page.getByLabel("Merge a file").setInputFiles({
    name: "back.json",
    mimeType: "application/json",
    buffer: Buffer.from(JSON.stringify(theirs)),
  });
  const part = shelf(page).getByRole("region", { name: "Merge a file" });
  await expect(part.getByRole("region", { name: "Changed here" })).toContainText("1 min later");
  await expect(part.getByRole("region", { name: "Changed in the file" })).toContainText("Worth:");
  const clash = part.getByRole("group", { name: "Schedule" });
  await expect(clash).toContainText("Keep mine. 1 First scoop starts at");
  await clash.getByRole("radio", { name: /^Take theirs/ }).check();
  const { violations } = await (await axeOn(page)).analyze();
  expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
  if (process.env["PICTURE"]) await page.screenshot({ path: process.env["PICTURE"] });
  await part.getByRole("button", { name: "Merge", exact: true }).click();
  await expect(shelf(page)).toHaveCount(0);
  expect(await spanOf(page, "First scoop")).toBe("2:05 to 2:13");
  await expect(page.getByRole("button", { name: /^Undo/ })).toHaveAttribute("title", /^Undo: Merge /);
});

for (const theme of ["light", "dark"] as const) {
  test(`no accessibility violation with the shelf, ${theme}`, async ({ page }) => {
    await openDay(page);
    await setTheme(page, theme);
    await openShelf(page);
    await page.getByLabel("Revision", { exact: true }).fill("R1");
    await page.keyboard.press("Enter");
    await shelf(page).getByRole("button", { name: "Compare" }).click();
    await expect(shelf(page).getByText("The two are the same.")).toBeVisible();
    const { violations } = await (await axeOn(page)).analyze();
    expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
  });
}
