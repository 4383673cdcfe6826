import { readFileSync } from "node:fs";
import { axeOn } from "./axe.ts";
import { expect, type Locator, type Page, test } from "@playwright/test";
import { openDay } from "./days.ts";
import { howToPack, mend } from "./shell.ts";

const outcome = (page: Page): Locator => page.getByRole("complementary", { name: "Mended" });

/** The small plan with its day laid by hand, all of it must-do but one task, on an EVA that is too short for it. */
async function openShort(page: Page): Promise<void> {
  const plan = JSON.parse(readFileSync("public/plans/small.json", "utf8")) as {
    evas: { longestS: number }[];
    tasks: { id: string; must?: boolean }[];
  };
  const evas = plan.evas.map((eva, k) => (k === 0 ? { ...eva, longestS: 4800 } : eva));
  const tasks = plan.tasks.map((task) => ({ ...task, must: task.id !== "stone-samples" }));
  await openDay(page, { evas, tasks });
}

test("a mend says what it drops, must-do first and counted, and is taken back with one press", async ({
  page,
}) => {
  await openShort(page);
  await howToPack(page, 2);
  await mend(page);
  await expect(outcome(page)).toBeVisible();
  const said = outcome(page).locator(".changes-dropped .state");
  await expect(said.first()).toHaveClass(/breach/);
  await expect(said.first()).toContainText(/^\d+ must-do tasks? dropped: /);
  // Each of the must-do tasks on the bench now is named, and counted.
  const count = Number(/^\d+/.exec((await said.first().textContent())!)![0]);
  const names = (await said.first().textContent())!
    .replace(/^.*?: /, "")
    .replace(/\.$/, "")
    .split(", ")
    .map((name) => name.replace(/^\d+ /, ""));
  expect(names).toHaveLength(count);
  for (const name of names)
    await expect(
      page.locator(".bench").getByRole("button", { name: new RegExp(`^${name}, `) }),
    ).toBeVisible();
  for (const theme of ["light", "dark"]) {
    await page.evaluate((name) => (document.documentElement.dataset["theme"] = name), theme);
    const { violations } = await (await axeOn(page)).include(".mended").analyze();
    expect(violations.map((one) => `${theme}: ${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
  }
  await outcome(page).getByRole("button", { name: "Take the mend back" }).click();
  await expect(outcome(page)).toHaveCount(0);
  // The day is broken again: the way to mend it is offered.
  await page.getByRole("button", { name: "How to pack" }).click();
  await expect(page.getByRole("button", { name: "Mend", exact: true })).toBeVisible();
});
