import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "@playwright/test";

/** Every figure answers from what it comes: by press and by key, and the answer adds up. */
test("a figure of the day says from what it comes", async ({ page }) => {
  await page.goto("./?plan=small");
  await page.getByRole("button", { name: "Pack", exact: true }).click();
  const score = page.getByRole("region", { name: "Score" });
  const worst = score.getByRole("group", { name: "worst margin" }).getByRole("button");
  await expect(worst).toBeVisible();

  await worst.press("Enter");
  const answer = page.getByRole("group", { name: "How it is worked out: worst margin" });
  await expect(answer).toContainText("(left - reserve) / stock * 100");
  await expect(answer.getByRole("table")).toContainText("Ingress work");
  for (const theme of ["light", "dark"]) {
    await page.evaluate((name) => (document.documentElement.dataset["theme"] = name), theme);
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  }
  await page.keyboard.press("Escape");
  await expect(answer).toBeHidden();

  // The worth of the lines is the worth of the day.
  const worth = score.getByRole("button", { name: /^[\d\u202f ]+$/ });
  const shown = Number((await worth.textContent())!.replace(/\D/g, ""));
  await worth.click();
  const cells = page.getByRole("group", { name: "How it is worked out: worth" }).locator("tbody td");
  await expect(cells.first()).toBeVisible();
  const parts = await cells.allTextContents();
  expect(parts.reduce((sum, part) => sum + Number(part), 0)).toBe(shown);
});
