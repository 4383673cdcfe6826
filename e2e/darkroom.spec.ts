import { axeOn } from "./axe.ts";
import { expect, type Page, test } from "@playwright/test";
import { block, openDay } from "./days.ts";
import { goTo, setTheme } from "./shell.ts";

/** The theme for a dark room on every screen, and the dialogs and panels that no other test opens for everybody. */

async function clean(page: Page, where: string): Promise<void> {
  const { violations } = await (await axeOn(page)).analyze();
  expect(
    violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`),
    where,
  ).toEqual([]);
}

test("every screen can be read and worked by everybody in a dark room", async ({ page }) => {
  test.slow();
  await openDay(page);
  await setTheme(page, "dim");
  await clean(page, "Day");
  await goTo(page, "Site");
  await page.getByRole("button", { name: "Split Stone", exact: true }).first().click();
  await clean(page, "Site");
  await goTo(page, "Variants");
  await page.getByRole("textbox", { name: "Name of the variant" }).fill("Quiet day");
  await page.keyboard.press("Enter");
  await expect(page.getByText("being worked out…")).toHaveCount(0);
  await clean(page, "Variants");
  await goTo(page, "Odds");
  await expect(page.getByRole("region", { name: "The day" })).toContainText("simulated days");
  await clean(page, "Odds");
  await goTo(page, "Rehearsal");
  await page.getByRole("button", { name: "Begin with the day as it stands" }).click();
  for (let calls = 0; calls < 4; calls += 1)
    await page.getByRole("button", { name: "To the next call" }).click();
  await clean(page, "Rehearsal");
  await page.getByRole("button", { name: "Debrief" }).click();
  await clean(page, "Debrief");
  await goTo(page, "Setup");
  for (const tab of await page.getByRole("tab").all()) {
    await tab.click();
    await clean(page, await tab.innerText());
  }
  await goTo(page, "Paper");
  await expect(page.locator(".paper-page").first()).toBeVisible();
  await clean(page, "Paper");
});

test("what opens over a screen can be read and worked by everybody in a dark room", async ({ page }) => {
  test.slow();
  await openDay(page);
  await setTheme(page, "dim");
  await block(page, "Core at Split Stone").click();
  await page.getByRole("button", { name: "Details" }).click();
  await page.getByText("Comments and sign-off").click();
  await page.getByLabel("Your name").fill("A planner");
  await page.getByLabel("Comment", { exact: true }).fill("Two cores, if there is time.");
  await page.getByRole("button", { name: "Add comment" }).click();
  await expect(page.getByRole("list", { name: /^Comments on/ })).toContainText(
    "Two cores, if there is time.",
  );
  await clean(page, "Details with a comment");
  // Nothing of the details is wider than they are: they would scroll sideways under what is read.
  const wide = await page
    .locator(".task")
    .evaluate(
      (one) =>
        [one, ...one.querySelectorAll("*")].filter(
          (part) => part.scrollWidth > part.clientWidth + 1 && getComputedStyle(part).overflowX === "auto",
        ).length,
    );
  expect(wide).toBe(0);

  await page.keyboard.press("Control+k");
  await expect(page.getByRole("combobox", { name: "Find a command" })).toBeFocused();
  await clean(page, "Commands");
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Help and theme" }).click();
  await page.getByRole("button", { name: "Keys and legend" }).click();
  await clean(page, "Keys and legend");
  await page.keyboard.press("Escape");

  await goTo(page, "Setup");
  await page.getByRole("tab", { name: /^Tasks/ }).click();
  const form = page.getByRole("button", { name: "Form", exact: true });
  await form.click();
  await expect(page.getByRole("complementary", { name: /^All fields of / })).toBeVisible();
  await clean(page, "A row as a form");
  await page.getByRole("tab", { name: /^Site and places/ }).click();
  await page
    .getByRole("row", { name: /^Split Stone/ })
    .getByRole("gridcell")
    .first()
    .click();
  await page.locator('[data-table="places"]').getByRole("button", { name: "Remove" }).click();
  await expect(page.getByRole("dialog", { name: "Split Stone cannot be removed yet" })).toBeVisible();
  await clean(page, "What stands against removing");
  await page.keyboard.press("Escape");

  await goTo(page, "Paper");
  await expect(page.locator(".paper-page").first()).toBeVisible();
  await page.getByRole("button", { name: "Print", exact: true }).click();
  await expect(page.getByRole("dialog")).toBeVisible();
  await clean(page, "Print");
});
