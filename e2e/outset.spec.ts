import AxeBuilder from "@axe-core/playwright";
import { expect, type Page, test } from "@playwright/test";

const strip = (page: Page) => page.getByRole("region", { name: "Steps to a packed day" });
const step = (page: Page, name: string) =>
  strip(page).getByRole("button", { name: new RegExp(`^${name}\\.`) });
const lead = (page: Page) => strip(page).locator(".outset-lead");
const focused = (page: Page) => page.locator(":focus");

async function newPlan(page: Page): Promise<void> {
  await page.goto("./");
  await page.getByRole("button", { name: "Plan file" }).click();
  await page.getByText("New plan", { exact: true }).click();
  await expect(strip(page)).toBeVisible();
}

test("from an empty plan to a packed day, led by the steps, by keys alone", async ({ page }) => {
  await newPlan(page);
  await expect(strip(page).getByRole("status")).toContainText("There is no place to work at yet");
  await lead(page).focus();
  await page.keyboard.press("Enter");
  await expect(focused(page)).toHaveText(/^Site and places/);
  await page.getByRole("button", { name: "Add place" }).focus();
  await page.keyboard.press("Enter");
  await page.keyboard.type("Rim");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Tab");
  await page.keyboard.type("220");
  await page.keyboard.press("Enter");
  await expect(step(page, "Where")).toHaveAttribute("data-state", "begun");
  await step(page, "Crew").focus();
  await page.keyboard.press("Enter");
  await expect(focused(page)).toHaveText("Two crew, one EVA");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await expect(step(page, "EVAs")).toHaveAttribute("data-state", "done");

  await lead(page).focus();
  await step(page, "Requests").focus();
  await page.keyboard.press("Enter");
  for (let sort = 0; sort < 5; sort += 1) {
    await page.getByRole("button", { name: "Add a task of a sort" }).focus();
    await page.keyboard.press("Enter");
    for (let k = 0; k < sort; k += 1) await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Escape");
  }
  await expect(strip(page).getByRole("status")).toContainText("Nothing is on the day line yet: press Pack.");
  await lead(page).focus();
  await page.keyboard.press("Enter");
  await expect(strip(page).getByRole("status")).toContainText("The day holds", { timeout: 20_000 });
  for (const name of ["Requests", "Pack", "Findings", "Paper"])
    await expect(step(page, name)).toHaveAttribute("data-state", "done");
  await lead(page).focus();
  await page.keyboard.press("Enter");
  await expect(focused(page)).toHaveText("Print");
});

test("the steps stay over a reload, are put away for good, and come back from the list", async ({ page }) => {
  await newPlan(page);
  await expect(page.getByText("Saved here")).toBeVisible({ timeout: 15_000 });
  await page.reload();
  await expect(strip(page)).toBeVisible();
  await strip(page).getByRole("button", { name: "Put away" }).click();
  await expect(strip(page)).toHaveCount(0);
  await page.reload();
  await expect(page.getByRole("button", { name: "Plan file" })).toBeVisible();
  await expect(strip(page)).toHaveCount(0);
  await page.keyboard.press("Control+k");
  await page.getByRole("combobox", { name: "Find a command" }).fill("steps packed");
  await page.keyboard.press("Enter");
  await expect(strip(page)).toBeVisible();
});

for (const theme of ["light", "dark"] as const)
  test(`the steps fit 1280 and 820 pixels without a violation, ${theme}`, async ({ page }) => {
    await newPlan(page);
    if (theme === "dark") await page.getByRole("button", { name: "Dark theme" }).click();
    await step(page, "Crew").click();
    for (const width of [1280, 820]) {
      await page.setViewportSize({ width, height: 900 });
      const outside = await strip(page)
        .locator("button, p")
        .evaluateAll((all) =>
          all
            .filter((one) => one.getBoundingClientRect().right > window.innerWidth + 1)
            .map((one) => one.textContent),
        );
      expect(outside).toEqual([]);
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
    }
  });
