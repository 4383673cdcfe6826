import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { SHEET_KINDS } from "../../src/exchange/index.ts";
import { keysOf } from "../../src/kernel/index.ts";
import { samplePlan } from "../exchange/samplePlan.ts";
import { readPdf } from "../exchange/paper/readpdf.ts";
import { run } from "./run.ts";

let folder = "";
const at = (name: string): string => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "lope-sheet-"));
  writeFileSync(at("plan.json"), JSON.stringify(samplePlan()));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("lope sheet", () => {
  it.each(["day", ...keysOf(SHEET_KINDS)])("writes %s as PDF on the paper asked for", async (kind) => {
    const { code, out } = await run(
      "sheet",
      kind,
      at("plan.json"),
      "--out",
      at("x.pdf"),
      "--paper",
      "letter",
    );
    expect(code).toBe(0);
    const { pages } = await readPdf(new Uint8Array(await readFile(at("x.pdf"))));
    expect(out).toContain(pages.length === 1 ? "1 page written" : `${pages.length} pages written`);
    for (const { widthMm, heightMm } of pages)
      expect([widthMm, heightMm].toSorted((a, b) => a - b).map((one) => Math.round(one * 10) / 10)).toEqual([
        215.9, 279.4,
      ]);
  });

  it.each([
    [["sheet"], /say which sheet: .*console/],
    [["sheet", "poster", "plan.json"], /say which sheet/],
    [["sheet", "console"], /say which plan/],
    [
      ["sheet", "rules", "plan.json", "--paper", "a5", "--out", "x.pdf"],
      /--paper a5: give a4, letter or cuff/,
    ],
    [["sheet", "day", "plan.json", "--paper", "cuff", "--out", "x.pdf"], /needs --paper a4 or letter/],
  ])("refuses %j with a word", async (args, words) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toMatch(words);
  });
});
