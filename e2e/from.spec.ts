import { axeOn } from "./axe.ts";
import { expect, test } from "@playwright/test";
import { middleOf } from "./days.ts";
import { howToPack } from "./shell.ts";

/** Every figure answers from what it comes: by press and by key, and the answer adds up. */
test("a figure of the day says from what it comes", async ({ page }) => {
  await page.goto("./?plan=small");
  const pack = page.getByRole("button", { name: "Pack", exact: true });
  await pack.click();
  await expect(page.getByRole("group", { name: "Packing" })).toBeVisible();
  // The day is what was packed, and stays it.
  await expect(pack).toBeVisible();
  const score = page.getByRole("region", { name: "Score" });
  const worst = score.getByRole("group", { name: "worst margin" }).getByRole("button");
  await expect(worst).toBeVisible();

  await worst.press("Enter");
  const answer = page.getByRole("group", { name: "How it is worked out: worst margin" });
  await expect(answer).toContainText("(left - reserve) / stock * 100");
  await expect(answer.getByRole("table")).toContainText("Ingress work");
  for (const theme of ["light", "dark"]) {
    await page.evaluate((name) => (document.documentElement.dataset["theme"] = name), theme);
    expect((await (await axeOn(page)).analyze()).violations).toEqual([]);
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

/** Escape belongs to the box that it closes; and a figure may change under the pointer that presses it. */
test("while the packer is at work an answer is opened and closed, and nothing else happens", async ({
  page,
}) => {
  await page.goto("./?plan=demo");
  await howToPack(page, 60);
  await page.getByRole("button", { name: "Pack", exact: true }).click();
  const score = page.getByRole("region", { name: "Score" });
  const worst = score.getByRole("group", { name: "worst margin" }).getByRole("button");
  await worst.press("Enter");
  const answer = page.getByRole("group", { name: "How it is worked out: worst margin" });
  await expect(answer).toContainText("(left - reserve) / stock * 100");
  await worst.press("Escape");
  await expect(answer).toBeHidden();
  await expect(page.getByRole("group", { name: "Packing" })).toBeVisible();

  const { x, y } = await middleOf(worst);
  await page.mouse.move(x, y);
  await page.mouse.down();
  // As a figure before it that comes or goes moves it.
  await score.evaluate((row) => (row.style.transform = "translateX(-120px)"));
  await page.mouse.up();
  await expect(answer).toContainText("(left - reserve) / stock * 100");
  await page.keyboard.press("Escape");
  await expect(page.getByRole("group", { name: "Packing" })).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(page.getByRole("group", { name: "Packing" })).toBeHidden();
});
