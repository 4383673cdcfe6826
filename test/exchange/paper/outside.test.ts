import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { booklets, impose, sheetPaper, toPdf } from "../../../src/exchange/index.ts";
import type { Paper } from "../../../src/exchange/paper/page.ts";
import { readyPlan } from "../../readyplan.ts";
import { type PdfFile, type Piece, readPdf, testFaces } from "./readpdf.ts";
import { factsOf, packed, STAMP } from "./sheets/facts.ts";

/**
 * Paper as programs of others see it, where they are installed: Poppler 22 or later for fonts, tags and the order of reading, QPDF for the soundness of the
 * file. Neither judges ISO 14289-1; no free program that does was to be had as a package. `tags.test` holds the file to its checkpoints.
 */

const has = (program: string, ...args: readonly string[]): boolean =>
  spawnSync(program, [...args]).error === undefined;
const POPPLER = has("pdfinfo", "-v") && has("pdffonts", "-v");
const QPDF = has("qpdf", "--version");

interface Written {
  readonly name: string;
  readonly path: string;
  readonly file: PdfFile;
}

let folder = "";
const all: Written[] = [];

const said = (program: string, ...args: readonly string[]): string => {
  const { status, stdout, stderr } = spawnSync(program, [...args], { encoding: "utf8" });
  expect(stderr, `${program} ${args.join(" ")}`).toBe("");
  expect(status, `${program} ${args.join(" ")}`).toBe(0);
  return stdout;
};

beforeAll(async () => {
  if (!POPPLER && !QPDF) return;
  folder = mkdtempSync(join(tmpdir(), "paper-"));
  const facts = await factsOf(packed(readyPlan("small")));
  const cuff = booklets(facts.plan, facts.verdict, { day: facts.day, lateTable: facts.lateTable });
  const papers: readonly (readonly [string, Paper])[] = [
    ["cuff", cuff],
    ["imposed", impose(cuff, { sheet: "a4", duplex: true, order: "stack", rings: true })],
    ["console", sheetPaper("console", facts, STAMP, { paper: "a4" })],
    ["late", sheetPaper("late", facts, STAMP, { paper: "cuff" })],
    ["site", sheetPaper("site", facts, STAMP, { paper: "letter" })],
  ];
  for (const [name, paper] of papers) {
    const bytes = await toPdf(paper, testFaces);
    const path = join(folder, `${name}.pdf`);
    writeFileSync(path, bytes);
    all.push({ name, path, file: await readPdf(bytes) });
  }
}, 0);

afterAll(() => {
  if (folder !== "") rmSync(folder, { recursive: true });
});

/** Texts in the order in which they are read, blanks left out: two programs cut runs otherwise. */
function readIn(piece: Piece | null): string {
  const texts = (one: Piece): string => `${one.text}${one.parts.map(texts).join("")}`;
  return piece === null ? "" : texts(piece).replace(/\s/g, "");
}

describe("paper as other programs see it", () => {
  it.skipIf(!QPDF)("is a file without a fault", () => {
    for (const { path } of all) expect(said("qpdf", "--check", path)).toContain("No syntax or stream");
  });

  it.skipIf(!POPPLER)("has every font embedded, as a part, with its letters told", () => {
    for (const { name, path } of all) {
      const rows = said("pdffonts", path).trim().split("\n").slice(2);
      expect(rows.length, name).toBeGreaterThan(0);
      // Emb, sub, uni.
      for (const row of rows) expect(row, name).toMatch(/ yes yes yes +\d+ +\d+$/);
    }
  });

  it.skipIf(!POPPLER)("is tagged, has its title, and runs nothing", () => {
    for (const { name, path, file } of all) {
      const info = said("pdfinfo", path);
      for (const line of [/^Tagged: +yes$/m, /^Suspects: +no$/m, /^JavaScript: +no$/m, /^Encrypted: +no$/m])
        expect(info, name).toMatch(line);
      expect(/^Title: +(.*)$/m.exec(info)?.[1], name).toBe(file.title);
    }
  });

  it.skipIf(!POPPLER)("is read in the order in which its tags stand, every text once", () => {
    for (const { name, path, file } of all) {
      const lines = said("pdfinfo", "-struct-text", path).split("\n");
      const theirs = lines.flatMap((line) => /^\s+"(.*)"$/.exec(line)?.[1] ?? []).join("");
      const ours = file.pages.map(({ structure }) => readIn(structure)).join("");
      expect(ours.length, name).toBeGreaterThan(200);
      expect(theirs.replace(/\s/g, ""), name).toBe(ours);
    }
  });
});
