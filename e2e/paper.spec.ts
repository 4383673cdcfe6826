import { expect, type Page, test } from "@playwright/test";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { readFile } from "node:fs/promises";
import { packedSmall } from "./packedsmall.ts";

/** The print path of the browser and the file that is saved show the same pages: as many, as large, with the same words in the same places. */

const MM = 25.4 / 72;
/** Rounding of the browser's layout and of both files, mm. */
const NEAR_MM = 0.35;

interface Spot {
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly wideMm: number;
}

/** First words of all texts of a PDF by page, and the size of its pages, mm from the top left. */
async function read(bytes: Uint8Array): Promise<{ wideMm: number; highMm: number; spots: Spot[] }[]> {
  const file = await getDocument({ data: Uint8Array.from(bytes), verbosity: 0, isEvalSupported: false })
    .promise;
  const pages = [];
  for (let i = 1; i <= file.numPages; i += 1) {
    const page = await file.getPage(i);
    const { width, height } = page.getViewport({ scale: 1 });
    const { items } = await page.getTextContent();
    const spots = items.flatMap((item) => {
      if (!("str" in item) || item.str.trim() === "") return [];
      const [, , , , x = 0, y = 0] = item.transform as number[];
      return [{ words: item.str.trim(), x: x * MM, y: (height - y) * MM, wideMm: item.width * MM }];
    });
    pages.push({ wideMm: width * MM, highMm: height * MM, spots });
  }
  return pages;
}

/** Whether a page has the first word of a text where it stands: by itself, or inside a longer text that a reader made of neighbours. */
function has(page: { readonly spots: readonly Spot[] }, { words, x, y }: Spot): boolean {
  const [word = ""] = words.split(/\s/);
  return page.spots.some((one) => {
    if (Math.abs(one.y - y) > NEAR_MM) return false;
    if (Math.abs(one.x - x) < NEAR_MM) return one.words.startsWith(word) || word.startsWith(one.words);
    return one.x < x && x < one.x + one.wideMm && one.words.includes(word);
  });
}

async function openPaper(page: Page, kind: string): Promise<void> {
  await page.route("**/plans/small.json", (route) =>
    route.fulfill({ body: packedSmall(), contentType: "application/json" }),
  );
  await page.goto("/?plan=small");
  await page.locator(".stage .block").first().waitFor();
  await page.getByRole("button", { name: "Paper", exact: true }).click();
  await page.getByRole("button", { name: kind, exact: true }).click();
  await page.locator(".paper-page").first().waitFor();
  const save = page.getByRole("button", { name: "Save as PDF" });
  await expect(save).toHaveAttribute("aria-disabled", "false");
  await page.evaluate(() => document.fonts.ready);
}

for (const kind of ["Cuff checklists", "Day timeline", "Console timeline", "Manifest"]) {
  test(`what the browser prints of ${kind} is what is saved`, async ({ page }) => {
    await openPaper(page, kind);
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as PDF" }).click();
    const saved = await read(new Uint8Array(await readFile(await (await download).path())));
    const printed = await read(
      new Uint8Array(await page.pdf({ preferCSSPageSize: true, printBackground: true })),
    );
    expect(printed.length).toBe(saved.length);
    saved.forEach((wanted, i) => {
      const got = printed[i]!;
      expect(Math.abs(got.wideMm - wanted.wideMm)).toBeLessThan(NEAR_MM);
      expect(Math.abs(got.highMm - wanted.highMm)).toBeLessThan(NEAR_MM);
      // Every text of the file begins on the printed page with the same word at the same place.
      const lost = wanted.spots.filter((spot) => !has(got, spot));
      expect(lost).toEqual([]);
    });
  });
}

test("the print window shows the sheet, and a finding leads to where it is mended", async ({ page }) => {
  await openPaper(page, "Cuff checklists");
  await page.getByRole("button", { name: "Print", exact: true }).click();
  const window = page.getByRole("dialog", { name: "Print: Cuff checklists" });
  await window.getByLabel("A4").check();
  await window.getByLabel("Both, turned over the long edge").check();
  await expect(window.locator("figure")).toHaveCount(2);
  await expect(window.locator("figure").first()).toContainText("sheet 1 of");
  await window.getByText(/^Before print:/).click();
  await window
    .getByRole("button", { name: /not known$/ })
    .first()
    .click();
  await expect(page.locator(".paper-view")).toHaveCount(0);
  await expect(page.getByRole("grid").first()).toBeVisible();
});

test("the buttons that print and save stay in one row and one place, whatever the width and the sheet", async ({
  page,
}) => {
  await openPaper(page, "Cuff checklists");
  for (const width of [1920, 1600, 1440, 1280, 1000]) {
    await page.setViewportSize({ width, height: 900 });
    const places: unknown[] = [];
    for (const kind of ["Cuff checklists", "Day timeline", "Stations"]) {
      await page.getByRole("button", { name: kind, exact: true }).click();
      await expect(page.getByRole("button", { name: "Print", exact: true })).toBeVisible();
      const [print, save] = await Promise.all(
        ["Print", "Save as PDF"].map((name) => page.getByRole("button", { name, exact: true }).boundingBox()),
      );
      expect(save?.y, `${width} pixels wide`).toBe(print?.y);
      if (width >= 1280) places.push([print?.x, print?.y]);
    }
    for (const place of places) expect(place, `${width} pixels wide`).toEqual(places[0]);
  }
});
