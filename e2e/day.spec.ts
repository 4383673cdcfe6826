import { axeOn } from "./axe.ts";
import { expect, type Locator, type Page, test } from "@playwright/test";
import { goTo, howToPack, setTheme } from "./shell.ts";

const findings = (page: Page): Locator => page.getByRole("region", { name: "Findings" });
const block = (page: Page, name: string): Locator =>
  page
    .getByRole("group", { name: /^Lane EV1/ })
    .getByRole("button", { name: new RegExp(`^${name}`) })
    .first();

async function open(page: Page): Promise<void> {
  await page.goto("./");
  await expect(page.getByText("Tarrow Shelf, two outings").first()).toBeVisible();
}

/** Packs for two seconds and waits until the day is taken over. */
async function pack(page: Page): Promise<void> {
  await howToPack(page, 2);
  await page.getByRole("button", { name: "Pack", exact: true }).click();
  await expect(page.getByText("14 of 14").first()).toBeVisible();
  await expect(findings(page).getByText(/^no breach/)).toBeVisible();
  await expect(page.getByRole("button", { name: "Pack", exact: true })).toBeVisible();
}

test("packs the demo day without a breach, shows a breach while a task is dragged, and takes it back", async ({
  page,
}) => {
  await open(page);
  await pack(page);

  const held = block(page, "Lower the station racks");
  const box = (await held.boundingBox())!;
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 60, y, { steps: 4 });
  await page.mouse.move(x + 130, y, { steps: 6 });
  await expect(findings(page).getByText(/^[1-9]\d* breach(es)?,/)).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(findings(page).getByText(/^no breach/)).toBeVisible();
  await page.mouse.up();

  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 130, y, { steps: 6 });
  await page.mouse.up();
  await expect(findings(page).getByText(/^[1-9]\d* breach(es)?,/)).toBeVisible();
  await page.getByRole("button", { name: /^Undo/ }).click();
  await expect(findings(page).getByText(/^no breach/)).toBeVisible();
});

test("a reload finds the packed day again", async ({ page }) => {
  await open(page);
  await pack(page);
  const placed = /^\d+ of 45 tasks/.exec(await page.getByText(/^\d+ of 45 tasks/).innerText())![0];
  await expect(page.getByText("Saved here")).toBeVisible();
  await page.reload();
  await expect(page.getByText("14 of 14").first()).toBeVisible();
  await expect(page.getByText(placed, { exact: true })).toBeVisible();
  await expect(findings(page).getByText(/^no breach/)).toBeVisible();
});

test("by keyboard alone: pack, move a task into a breach, take it back, print, undo, redo, reload", async ({
  page,
}) => {
  await open(page);
  await page.getByRole("button", { name: "Pack", exact: true }).focus();
  await page.keyboard.press("Enter");
  await expect(page.getByText("14 of 14").first()).toBeVisible();
  await expect(page.getByRole("button", { name: "Pack", exact: true })).toBeVisible();
  await expect(findings(page).getByText(/^no breach/)).toBeVisible();

  await block(page, "Lower the station racks").focus();
  await page.keyboard.press("Enter");
  for (let k = 0; k < 4; k += 1) await page.keyboard.press("Shift+ArrowRight");
  await expect(findings(page).getByText(/^[1-9]\d* breach(es)?,/)).toBeVisible();
  await page.keyboard.press("Escape");
  await expect(findings(page).getByText(/^no breach/)).toBeVisible();

  await page.evaluate(() => {
    window.print = () => document.body.setAttribute("data-printed", "yes");
  });
  await page.getByRole("button", { name: "Paper", exact: true }).focus();
  await page.keyboard.press("Enter");
  // Held until the pages for being late are there.
  const print = page.getByRole("button", { name: "Print" });
  await expect(print).not.toHaveAttribute("aria-disabled", "true");
  await print.focus();
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "Print these pages" }).press("Enter");
  await expect(page.locator("body[data-printed]")).toHaveCount(1);
  await page.keyboard.press("Escape");

  await page.keyboard.press("Control+z");
  await expect(page.getByText("0 of 14").first()).toBeVisible();
  await page.keyboard.press("Control+Shift+z");
  await page.getByRole("button", { name: "Day", exact: true }).press("Enter");
  await expect(page.getByText("14 of 14").first()).toBeVisible();
  await expect(page.getByText("Saved here")).toBeVisible();
  await page.reload();
  await expect(page.getByText("14 of 14").first()).toBeVisible();
});

test("a broken file is refused with its faults and the open plan stays", async ({ page }) => {
  await open(page);
  const chooser = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: "Plan file" }).click();
  await page.getByText("Open file…").click();
  await (
    await chooser
  ).setFiles({
    name: "broken.json",
    mimeType: "application/json",
    buffer: Buffer.from('{"format":"lopeline-plan","version":1}'),
  });
  await expect(page.getByText(/is missing/).first()).toBeVisible();
  await expect(page.getByText("Tarrow Shelf, two outings").first()).toBeVisible();
});

test("paper shows the cuff pages of the packed day", async ({ page }) => {
  await open(page);
  await pack(page);
  await page.getByRole("button", { name: "Paper" }).click();
  await expect(page.getByRole("button", { name: "Print" })).toBeVisible();
  await expect(page.locator(".paper-page").first()).toBeVisible();
  // What the print button prints: the pages alone, each at its own size, one for every task and more.
  const printed = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  expect(printed.match(/\/Type \/Page\b/g)?.length ?? 0).toBeGreaterThan(30);
  const saved = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save as PDF" }).click();
  const file = await (await (await saved).createReadStream()).take(1).toArray();
  expect(Buffer.concat(file).subarray(0, 5).toString()).toBe("%PDF-");
});

for (const theme of ["light", "dark"] as const) {
  test(`no accessibility violation on any screen, ${theme}`, async ({ page }) => {
    await open(page);
    await pack(page);
    await setTheme(page, theme);
    for (const screen of ["Day", "Setup", "Paper"]) {
      await goTo(page, screen);
      await page.waitForLoadState("networkidle");
      const { violations } = await (await axeOn(page)).analyze();
      expect(violations.map((one) => `${screen}: ${one.id} ${one.nodes[0]?.target.join(" ")}`)).toEqual([]);
    }
  });
}
