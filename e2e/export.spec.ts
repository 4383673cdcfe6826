import { readFileSync } from "node:fs";
import { axeOn } from "./axe.ts";
import { expect, test } from "@playwright/test";
import { openPacked } from "./days.ts";

for (const theme of ["light", "dark"] as const) {
  test(`the plan is saved for other programs, one file or everything, ${theme}`, async ({ page }) => {
    await page.addInitScript((name) => localStorage.setItem("lopeline-theme", name), theme);
    await page.goto("./?plan=small");
    await page.getByRole("button", { name: "Plan file" }).click();
    await page.getByText("Export…", { exact: true }).click();
    const dialog = page.getByRole("dialog", { name: "Export for other programs" });
    await expect(dialog.getByRole("button", { name: "Save schedule.ics" })).toBeEnabled();
    const { violations } = await (await axeOn(page)).analyze();
    expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
    for (const [name, begin] of [
      ["Save schedule.ics", "BEGIN:VCALENDAR"],
      ["Save everything as one zip", "PK"],
    ] as const) {
      const [file] = await Promise.all([
        page.waitForEvent("download"),
        dialog.getByRole("button", { name }).click(),
      ]);
      expect(readFileSync(await file.path(), "latin1").startsWith(begin)).toBe(true);
      await expect(dialog.getByRole("status")).toHaveText(`${file.suggestedFilename()} is written.`);
    }
    if (process.env["SHOTS"]) {
      await page.setViewportSize({ width: 1280, height: 720 });
      await page.screenshot({ path: `${process.env["SHOTS"]}/export-${theme}.png` });
    }
  });
}

test("the page of the day is read without a script or a network, on any screen", async ({
  page,
  browser,
}, info) => {
  await openPacked(page);
  await page.getByRole("button", { name: "Plan file" }).click();
  await page.getByText("Export…", { exact: true }).click();
  const save = page.getByRole("button", { name: "Save day.html" });
  await expect(save).toBeEnabled();
  const [file] = await Promise.all([page.waitForEvent("download"), save.click()]);
  const at = info.outputPath("day.html");
  await file.saveAs(at);
  for (const colorScheme of ["light", "dark"] as const) {
    for (const width of [390, 1280, 1920]) {
      const context = await browser.newContext({
        javaScriptEnabled: false,
        colorScheme,
        viewport: { width, height: 900 },
      });
      const asked: string[] = [];
      context.on("request", (request) => asked.push(request.url()));
      const day = await context.newPage();
      await day.goto(`file://${at}`);
      await expect(day.getByRole("heading", { level: 1 })).toHaveText("Tarrow Shelf, two outings");
      await expect(day.getByRole("img", { name: /^EVA 1, EV1, EV2: tasks in time/ })).toBeVisible();
      await expect(day.getByRole("table", { name: "EVA 1 in time" })).toBeVisible();
      expect(asked).toEqual([`file://${at}`]);
      await context.close();
    }
    await page.emulateMedia({ colorScheme });
    await page.goto(`file://${at}`);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wide).toBeLessThanOrEqual(0);
    const { violations } = await (await axeOn(page)).analyze();
    expect(violations.map((one) => `${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
  }
});
