import { readFileSync } from "node:fs";
import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "@playwright/test";

for (const theme of ["light", "dark"] as const) {
  test(`the plan is saved for other programs, one file or everything, ${theme}`, async ({ page }) => {
    await page.addInitScript((name) => localStorage.setItem("lopeline-theme", name), theme);
    await page.goto("./?plan=small");
    await page.getByRole("button", { name: "Plan file" }).click();
    await page.getByText("Export…", { exact: true }).click();
    const dialog = page.getByRole("dialog", { name: "Export for other programs" });
    await expect(dialog.getByRole("button", { name: "Save schedule.ics" })).toBeEnabled();
    const { violations } = await new AxeBuilder({ page }).analyze();
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
