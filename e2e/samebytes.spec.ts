import { expect, type Page, test } from "@playwright/test";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { lope } from "../src/cli/command.ts";
import { packedSmall } from "./packedsmall.ts";

/** The same plan gives the same paper, byte for byte, whether the app or the headless command writes it. */

/** When both say that they print. */
const NOW_MS = Date.UTC(2034, 4, 6, 7, 8, 9);

async function saved(page: Page, plan: string, kind: string): Promise<Buffer> {
  await page.clock.setFixedTime(NOW_MS);
  await page.route("**/plans/small.json", (route) =>
    route.fulfill({ body: plan, contentType: "application/json" }),
  );
  await page.goto("/?plan=small");
  await page.locator(".stage .block").first().waitFor();
  await page.getByRole("button", { name: "Paper", exact: true }).click();
  await page.getByRole("button", { name: kind, exact: true }).click();
  await page.locator(".paper-page").first().waitFor();
  const save = page.getByRole("button", { name: "Save as PDF" });
  await expect(save).toHaveAttribute("aria-disabled", "false");
  const download = page.waitForEvent("download");
  await save.click();
  return readFile(await (await download).path());
}

async function written(folder: string, plan: string, args: readonly string[]): Promise<Buffer> {
  const [from, to] = [join(folder, "plan.json"), join(folder, "paper.pdf")];
  writeFileSync(from, plan);
  const now = Date.now;
  Date.now = () => NOW_MS;
  try {
    const told: string[] = [];
    const streams = {
      out: () => undefined,
      err: (text: string) => void told.push(text),
      stop: new AbortController().signal,
    };
    expect(await lope([...args, from, "--out", to], streams), told.join("")).toBe(0);
  } finally {
    Date.now = now;
  }
  return readFile(to);
}

for (const [kind, args] of [
  ["Cuff checklists", ["cuff"]],
  ["Console timeline", ["sheet", "console"]],
  ["Manifest", ["sheet", "manifest"]],
] as const)
  test(`${kind} is the same file from the app and from lope`, async ({ page }) => {
    const folder = mkdtempSync(join(tmpdir(), "lope-same-"));
    try {
      const plan = packedSmall();
      const [app, command] = [await saved(page, plan, kind), await written(folder, plan, args)];
      expect(app.equals(command), `${app.length} and ${command.length} bytes`).toBe(true);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
