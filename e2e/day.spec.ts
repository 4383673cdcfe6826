import { expect, type Locator, type Page, test } from "@playwright/test";

const findings = (page: Page): Locator => page.getByRole("region", { name: "Findings" });
async function open(page: Page): Promise<void> {
  await page.goto("./");
  await expect(page.getByText("Tarrow Shelf, two outings").first()).toBeVisible();
}

/** Packs for two seconds and waits until the day is taken over. */
async function pack(page: Page): Promise<void> {
  await page.getByRole("combobox").first().selectOption({ label: "2 s" });
  await page.getByRole("button", { name: "Pack", exact: true }).click();
  await expect(page.getByText("14 of 14").first()).toBeVisible({ timeout: 20_000 });
  await expect(page.getByRole("button", { name: "Mend" })).toBeVisible();
  await expect(page.getByText(/^Undo/).first()).toBeVisible();
  await expect(findings(page).getByText(/^0 breaches/)).toBeVisible({ timeout: 20_000 });
  await expect(page.getByRole("button", { name: "Pack", exact: true })).toBeVisible({ timeout: 20_000 });
}

test("a reload finds the packed day again", async ({ page }) => {
  await open(page);
  await pack(page);
  const score = await page.getByRole("group", { name: /^Lane/ }).getByRole("button").count();
  await expect(page.getByText("Saved here")).toBeVisible({ timeout: 15_000 });
  await page.reload();
  await expect(page.getByText("14 of 14").first()).toBeVisible();
  await expect(page.getByRole("group", { name: /^Lane/ }).getByRole("button")).toHaveCount(score);
});

test("paper shows the cuff pages of the packed day", async ({ page }) => {
  await open(page);
  await pack(page);
  await page.getByRole("button", { name: "Paper" }).click();
  await expect(page.getByRole("button", { name: "Print" })).toBeVisible();
  await expect(page.locator("main svg, main img").first()).toBeVisible();
});
