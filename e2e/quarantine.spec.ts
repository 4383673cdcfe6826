import { axeOn } from "./axe.ts";
import { expect, type Page, test } from "@playwright/test";
import { readFileSync } from "node:fs";

const shelf = (page: Page) => page.getByRole("dialog", { name: "Plans kept aside" });

/** A visit that finds a record that cannot be read, and a plan another window had saved. */
async function withAside(page: Page): Promise<void> {
  await page.goto("./");
  await expect(page.getByText("Saved here")).toBeVisible();
  const text = readFileSync("public/plans/small.json", "utf8");
  await page.evaluate(async (plan) => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const asked = indexedDB.open("lopeline");
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });
    const step = db.transaction(["documents", "plans", "aside"], "readwrite");
    const slot = await new Promise<string>((resolve) => {
      const asked = step.objectStore("documents").get("last") as IDBRequest<string>;
      asked.onsuccess = () => resolve(asked.result);
    });
    const found = { text: plan, savedAtMs: 1, writer: "another" };
    step
      .objectStore("aside")
      .add({ found, reason: "another window had saved its plan in the meantime", atMs: 1e12 });
    step.objectStore("plans").put({ text: '{"title":"Torn plan"', savedAtMs: 2, writer: "b" }, slot);
    await new Promise((resolve) => (step.oncomplete = resolve));
    db.close();
  }, text);
  await page.reload();
  await expect(page.getByRole("alert")).toContainText("kept aside, under Plan");
}

async function openShelf(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Plan file" }).click();
  await page.getByRole("button", { name: "Plans kept aside" }).click();
  await expect(shelf(page)).toBeVisible();
}

test("what was kept aside is listed, saved as a file, deleted and brought back, and opened", async ({
  page,
}) => {
  await withAside(page);
  await openShelf(page);
  const rows = shelf(page).getByRole("listitem");
  await expect(rows).toHaveCount(2);
  await expect(rows.first()).toContainText("Torn plan");
  await expect(rows.first()).toContainText("not JSON");
  await expect(rows.first().getByRole("button", { name: /^Open/ })).toBeDisabled();
  await expect(rows.nth(1)).toContainText("9 Sep 2001 01:46 UTC");
  for (const theme of ["light", "dark"]) {
    await page.evaluate((name) => (document.documentElement.dataset["theme"] = name), theme);
    const { violations } = await (await axeOn(page)).analyze();
    expect(violations.map((one) => `${theme}: ${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
  }

  const [file] = await Promise.all([
    page.waitForEvent("download"),
    rows.first().getByRole("button", { name: "Save Torn plan as a file" }).click(),
  ]);
  expect(file.suggestedFilename()).toBe("torn-plan.json");
  expect(readFileSync(await file.path(), "utf8")).toBe('{"title":"Torn plan"');

  await rows.first().getByRole("button", { name: "Delete Torn plan" }).click();
  await expect(shelf(page).getByRole("status")).toContainText("Torn plan deleted");
  await expect(rows.first().getByRole("button", { name: "Bring back Torn plan" })).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(shelf(page).getByRole("status")).toContainText("Torn plan brought back");
  await rows.first().getByRole("button", { name: "Delete Torn plan" }).click();
  await expect(rows.first().getByRole("button", { name: "Bring back Torn plan" })).toBeVisible();
  await page.keyboard.press("Escape");
  // Out of the page, not only out of sight: keys pressed in a dialog are its own.
  await expect(page.locator("dialog")).toHaveCount(0);

  await page.keyboard.press("Control+k");
  await page.getByRole("combobox", { name: "Find a command" }).fill("kept aside");
  await page.keyboard.press("Enter");
  await expect(rows).toHaveCount(1);
  await rows.first().getByRole("button", { name: /^Open/ }).click();
  await expect(shelf(page)).toHaveCount(0);
  // It is a plan of its own: there is nothing of the one that was open to take back.
  await expect(page.getByRole("button", { name: /^Undo/ })).toHaveAttribute("title", "Nothing to undo");
});
