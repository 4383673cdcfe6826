import { axeOn } from "./axe.ts";
import { expect, type Page, test } from "@playwright/test";
import { PLACES, REQUESTS } from "../test/exchange/lists/requests.ts";
import { setTheme } from "./shell.ts";

const dialog = (page: Page) => page.getByRole("dialog", { name: "Import a list" });
const take = (page: Page) => dialog(page).getByRole("button", { name: /^Take .* into the plan$/ });
const file = (name: string, text: string, form: BufferEncoding = "utf8") => ({
  name,
  mimeType: "text/plain",
  buffer: Buffer.from(text, form),
});

async function openLists(page: Page, files: ReturnType<typeof file>[]): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.keyboard.press("Control+o");
  await (await chooser).setFiles(files);
  await expect(dialog(page)).toBeVisible();
}

async function newPlan(page: Page): Promise<void> {
  await page.goto("./");
  await page.getByRole("button", { name: "Plan file" }).click();
  await page.getByText("New plan", { exact: true }).click();
}

test("lists as the team keeps them become a packed day in a few actions", async ({ page }) => {
  let actions = 0;
  const act = async (deed: Promise<unknown>): Promise<void> => {
    actions += 1;
    await deed;
  };
  // A new plan: the menu, then its line.
  await act(page.goto("./").then(() => page.getByRole("button", { name: "Plan file" }).click()));
  await act(page.getByText("New plan", { exact: true }).click());
  await act(openLists(page, [file("wishes.csv", REQUESTS), file("places.csv", PLACES)]));
  // Places come first, since tasks name them.
  await expect(dialog(page).getByText("2 new rows")).toBeVisible();
  await act(take(page).click());
  await expect(dialog(page).getByRole("button", { name: "places.csv taken" })).toBeVisible();
  // The blank cell of one request has to be told; every other word is guessed.
  await expect(dialog(page).getByText("it has no place, and a task with crew needs one")).toBeVisible();
  await act(dialog(page).getByLabel("Place a blank cell stands for").selectOption({ label: "Far Ledge" }));
  await expect(dialog(page).getByText("6 new rows")).toBeVisible();
  await act(take(page).click());
  await expect(dialog(page).getByText(/^Import 6 rows from wishes\.csv: done/)).toBeVisible();
  await act(page.keyboard.press("Escape"));
  await act(page.getByRole("button", { name: /^Pack/ }).first().click());
  await expect(page.locator('.block[data-task="q1"]').first()).toBeVisible();
  expect(actions).toBeLessThanOrEqual(8);
});

test("a second issue shows the difference, with the mapping remembered", async ({ page }) => {
  await newPlan(page);
  await openLists(page, [file("places.csv", PLACES)]);
  await take(page).click();
  await page.keyboard.press("Escape");
  await openLists(page, [file("wishes.csv", REQUESTS)]);
  await dialog(page).getByLabel("Remarks is taken as").selectOption({ label: "nothing" });
  await expect(dialog(page).getByText(/column “Remarks”, 2 cells/)).toBeVisible();
  await take(page).click();
  await expect(dialog(page).getByText(/: done\. Undo takes it back/)).toBeVisible();
  await page.keyboard.press("Escape");
  await openLists(page, [file("wishes 2.csv", REQUESTS.replace("Q2,Set mast,", "Q2,Set tall mast,"))]);
  await expect(dialog(page).getByText("name Set tall mast, was Set mast")).toBeVisible();
  await expect(dialog(page).getByLabel("Remarks is taken as")).toHaveValue("");
  await expect(take(page)).toHaveText("Take 1 row into the plan");
});

test("rows are pasted, and what is no list is said to be none", async ({ page }) => {
  await newPlan(page);
  await openLists(page, [file("old.xls", "d0cf11e0", "hex"), file("empty.csv", "")]);
  await expect(dialog(page).getByText("empty.csv: it is empty.")).toBeVisible();
  await dialog(page).getByRole("textbox").fill("Task\tWhere\tDuration\nDig\tLander\t20");
  await dialog(page).getByRole("button", { name: "Read these rows" }).click();
  await expect(dialog(page).getByText("1 new row", { exact: false }).first()).toBeVisible();
  await take(page).click();
  await expect(
    dialog(page).getByText("Import 1 row from Pasted rows: done. Undo takes it back."),
  ).toBeVisible();
});

for (const theme of ["light", "dark"] as const) {
  test(`the window of lists can be read and worked by everybody, ${theme}`, async ({ page }) => {
    await newPlan(page);
    await setTheme(page, theme);
    await openLists(page, [file("wishes.csv", REQUESTS), file("places.csv", PLACES)]);
    await take(page).click();
    await expect(dialog(page).getByText(/no place, and a task/)).toBeVisible();
    const { violations } = await (await axeOn(page)).analyze();
    expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
    if (process.env["SHOTS"]) {
      for (const [width, height] of [
        [1280, 720],
        [1440, 900],
      ] as const) {
        await page.setViewportSize({ width, height });
        await page.screenshot({ path: `${process.env["SHOTS"]}/import-${theme}-${width}.png` });
      }
    }
  });
}
