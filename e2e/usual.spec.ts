import { axeOn } from "./axe.ts";
import { expect, test } from "@playwright/test";
import { setTheme } from "./shell.ts";

test.beforeEach(async ({ page }) => {
  await page.goto("./?plan=small");
  await page.getByRole("button", { name: "Setup", exact: true }).click();
});

test("low, nominal and high of a suit's number are a press away, with their source, and undone as one step", async ({
  page,
}) => {
  await page.getByRole("tab", { name: /^Crew and suits/ }).click();
  const heat = page.locator('[data-table="suits"] tbody tr').first().locator("[data-cell]").last();
  await heat.click();
  const usual = page.getByRole("group", { name: /^Usual values for Absorbent heat of Suit 1/ });
  await expect(usual).toContainText("Not known: a higher value is the safe side.");
  await expect(
    usual.getByRole("button", { name: /^nominal 3.?030 kJ\/kg, the water made condenses in the pack/ }),
  ).toHaveAttribute("aria-pressed", "true");
  await usual.getByRole("button", { name: /^low/ }).click();
  await expect(heat).toHaveText(/^2.?030$/);
  await page.keyboard.press("Control+z");
  await expect(heat).toHaveText(/^3.?030$/);
  // A number that has no usual values shows none.
  await page.locator('[data-table="suits"] tbody tr').first().locator("[data-cell]").nth(1).click();
  await expect(page.getByRole("group", { name: /^Usual values/ })).toHaveCount(0);
});

for (const theme of ["light", "dark"] as const) {
  test(`the usual values of a flight rule can be read and reached by keyboard, ${theme}`, async ({
    page,
  }) => {
    await setTheme(page, theme);
    await page.getByRole("tab", { name: /^Flight rules/ }).click();
    const carry = page
      .locator("tbody tr", { hasText: "weight for each crew member" })
      .locator("[data-cell]")
      .first();
    await carry.click();
    await expect(page.getByRole("group", { name: /^Usual values for Carried by hand/ })).toContainText(
      "50 kg on the Moon",
    );
    const { violations } = await (await axeOn(page)).analyze();
    expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
    await page.keyboard.press("Tab");
    await expect(page.getByRole("button", { name: /^low 40.5 N/ })).toBeFocused();
    await page.keyboard.press("Enter");
    await expect(carry).toHaveText("40.5");
  });
}
