import PDFDocument from "pdfkit";
import { beforeAll, describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { booklets, SHEET_KINDS, sheetPaper, toPdf } from "../../../src/exchange/index.ts";
import type { Paper } from "../../../src/exchange/paper/page.ts";
import { keysOf } from "../../../src/kernel/index.ts";
import { readyPlan } from "../../readyplan.ts";
import { samplePlan } from "../samplePlan.ts";
import { type PdfFile, type Piece, readPdf, testFaces, type TextBox } from "./readpdf.ts";
import { factsOf, packed, STAMP } from "./sheets/facts.ts";

/**
 * What a reader that does not see the page is told, as a program that knows nothing of ours reads it. The checkpoints are those of the Matterhorn
 * Protocol 1.1, which lists how a file fails ISO 14289-1; their numbers are values from memory.
 */

interface Read {
  readonly name: string;
  readonly paper: Paper;
  readonly code: string;
  readonly file: PdfFile;
}

let all: Read[] = [];

beforeAll(async () => {
  const plan = packed(readyPlan("small"));
  const facts = await factsOf(plan);
  const kinds = keysOf(SHEET_KINDS);
  const papers: [string, Paper][] = [
    ...kinds.map((kind): [string, Paper] => [kind, sheetPaper(kind, facts, STAMP, { paper: "a4" })]),
    ["late, cuff", sheetPaper("late", facts, STAMP, { paper: "cuff" })],
    ["booklets", booklets(samplePlan(), check(samplePlan()))],
    ["booklets, late", booklets(plan, facts.verdict, { day: facts.day, lateTable: facts.lateTable })],
  ];
  all = [];
  for (const [name, paper] of papers) {
    const bytes = await toPdf(paper, testFaces);
    all.push({ name, paper, code: new TextDecoder("latin1").decode(bytes), file: await readPdf(bytes) });
  }
}, 0);

describe("tags", () => {
  it("hold all that is painted, or it is furniture of the page, never both (01-003, 01-004, 01-005)", () => {
    for (const { name, file } of all) for (const { loose } of file.pages) expect(loose, name).toEqual([]);
  });

  it("are missed where they are missing: a page of the library alone is loose, line and text", async () => {
    const doc = new PDFDocument({ tagged: true, compress: false });
    const chunks: Uint8Array[] = [];
    doc.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    const ended = new Promise((resolve) => doc.on("end", resolve));
    doc.text("words").moveTo(10, 10).lineTo(20, 20).stroke();
    doc.end();
    await ended;
    const [page] = (await readPdf(Buffer.concat(chunks))).pages;
    expect(page!.loose.map((one) => one.split(" ")[0])).toEqual(["text", "path"]);
  });

  it("are of a document with title and language that says it is tagged (06-003, 07-001, 07-002, 11-006)", () => {
    for (const { file, paper, code } of all) {
      expect(file.title).toBe(paper.title);
      expect(/<dc:title>[\s\S]*?<rdf:li[^>]*>([^<]*)</.exec(code)?.[1]).toBe(paper.title);
      expect([file.tagged, file.titleShown, file.lang]).toEqual([true, true, "en"]);
    }
  });

  it("stand on text whose signs can be told: every font is embedded and says which letters its glyphs are (31-027)", () => {
    for (const { name, code } of all) {
      const fonts = [...code.matchAll(/\d+ 0 obj\n<<([\s\S]*?)>>\nendobj/g)].flatMap(([, own = ""]) =>
        /\/Type \/Font\b(?!Descriptor)/.test(own) ? [own] : [],
      );
      const whole = fonts.filter((own) => /\/Subtype \/Type0\b/.test(own));
      const parts = fonts.filter((own) => /\/Subtype \/CIDFontType2\b/.test(own));
      expect(whole.length, name).toBeGreaterThan(0);
      // No font of another kind, which could stand there without its file.
      expect(parts.length + whole.length, name).toBe(fonts.length);
      for (const own of whole) expect(own, name).toMatch(/\/ToUnicode \d+ 0 R/);
      // ISO 32000-1, 9.7.4.2: without it nobody can tell a glyph of the file from the code on the page.
      for (const own of parts) expect(own, name).toMatch(/\/CIDToGIDMap \/Identity/);
      expect(code.match(/\/FontFile2 \d+ 0 R/g) ?? [], name).toHaveLength(parts.length);
      expect(code, name).not.toMatch(/\/Suspects true/);
    }
  });

  it("are those of the standard, in the places where it allows them (02-001, 09-004)", () => {
    const within: Readonly<Record<string, readonly string[]>> = {
      Root: ["Document"],
      Document: ["Sect"],
      Sect: ["H1", "H2", "P", "Figure", "Table", "Sect", "L"],
      L: ["LI"],
      LI: ["Lbl", "LBody"],
      Lbl: ["Figure"],
      LBody: ["P", "Figure"],
      Table: ["TR"],
      TR: ["TH", "TD"],
    };
    for (const { name, file } of all)
      for (const { structure } of file.pages)
        for (const piece of piecesOf(structure))
          for (const { role } of piece.parts)
            expect(within[piece.role], `${name}: ${piece.role}`).toContain(role);
  });

  it("have a table with heads over columns, and as many columns in each of its rows (15-003, 15-005)", () => {
    expect(all.flatMap(({ code }) => rowsIn(code)).length).toBeGreaterThan(15);
    for (const { name, file, code } of all) {
      const rows = rowsIn(code);
      const heads = file.pages.flatMap(({ structure }) =>
        piecesOf(structure).filter(({ role }) => role === "TH"),
      );
      expect(code.match(/\/Scope \/Column/g)?.length ?? 0, name).toBe(heads.length);
      for (const { structure } of file.pages)
        for (const table of piecesOf(structure).filter(({ role }) => role === "Table")) {
          const first = table.parts.findIndex(({ parts }) => parts.every(({ role }) => role === "TH"));
          expect([0, 1], name).toContain(first);
          for (const head of table.parts[first]!.parts) expect(textOf(head), name).not.toBe("");
        }
      // Each of the file's own tables once in the structure of a page.
      const tables = file.pages.flatMap(({ structure }) =>
        piecesOf(structure).filter(({ role }) => role === "Table"),
      );
      expect(rows.map((table) => table.length).toSorted()).toEqual(
        tables.map(({ parts }) => parts.length).toSorted(),
      );
      for (const table of rows) expect(new Set(table).size, `${name}: ${table.join(" ")}`).toBe(1);
    }
  });

  it("say in words what a figure shows (13-004)", () => {
    const figures = all.flatMap(({ file }) =>
      file.pages.flatMap(({ structure }) => piecesOf(structure).filter(({ role }) => role === "Figure")),
    );
    expect(figures.length).toBeGreaterThan(5);
    for (const { says } of figures) expect(says ?? "").not.toBe("");
  });

  it("begin every page with its heading, and skip no level (14-002, 14-003)", () => {
    for (const { name, file } of all)
      for (const { structure } of file.pages) {
        const levels = piecesOf(structure).flatMap(({ role }) => (/^H\d$/.test(role) ? [role] : []));
        expect(levels[0], name).toBe("H1");
        expect(new Set(levels).size).toBeLessThanOrEqual(2);
      }
  });

  it("hold the steps of a task as a list, and what is to be done in the order of the day as a table", () => {
    const pages = all.filter(({ name }) => name.startsWith("booklets")).flatMap(({ file }) => file.pages);
    const items = pages.flatMap(({ structure }) => piecesOf(structure).filter(({ role }) => role === "LI"));
    expect(items.length).toBeGreaterThan(20);
    // What is done only IF something is so has no number.
    for (const { parts } of items)
      expect([["Lbl", "LBody"], ["LBody"]]).toContainEqual(parts.map(({ role }) => role));
    const heads = pages.map(({ structure }) =>
      piecesOf(structure)
        .flatMap((piece) => (piece.role === "TH" ? [textOf(piece).trim()] : []))
        .join(" "),
    );
    for (const said of ["START NO. WHAT LEAVE MIN", "HOME FROM TAKES BEARING", "DONE BY"])
      expect(
        heads.some((words) => words.startsWith(said)),
        said,
      ).toBe(true);
  });

  it("are read as the sheet is seen: down, and what stands beside from left to right (09-001)", () => {
    for (const { name, file } of all)
      for (const { structure } of file.pages) {
        const leaves = piecesOf(structure)
          .filter(({ boxes }) => boxes.length > 0)
          .map(placeOf);
        leaves.slice(1).forEach((leaf, i) => {
          const before = leaves[i]!;
          const goesUp = leaf.bottom <= before.top && leaf.left < before.right;
          expect(goesUp, `${name}: "${leaf.text}" after "${before.text}"`).toBe(false);
        });
      }
  });
});

function piecesOf(piece: Piece | null): Piece[] {
  return piece === null ? [] : [piece, ...piece.parts.flatMap(piecesOf)];
}

function textOf(piece: Piece): string {
  return piecesOf(piece)
    .map(({ text }) => text)
    .join("");
}

function placeOf({ boxes, text }: Piece) {
  const of = (pick: (box: TextBox) => number): number[] => boxes.map(pick);
  const capMm = ({ sizePt }: TextBox): number => sizePt * 0.7 * (25.4 / 72);
  return {
    text,
    left: Math.min(...of(({ left }) => left)),
    right: Math.max(...of(({ right }) => right)),
    top: Math.min(...of((box) => box.baseline - capMm(box))),
    bottom: Math.max(...of(({ baseline }) => baseline)),
  };
}

/** Of every table in a file the number of columns that each of its rows takes, from the file's own objects. */
function rowsIn(code: string): number[][] {
  const objects = new Map(
    [...code.matchAll(/(\d+) 0 obj\n<<([\s\S]*?)>>\nendobj/g)].map(([, id, own]) => [id!, own!]),
  );
  const kids = (own: string): string[] =>
    [...(/\/K \[([^\]]*)\]/.exec(own)?.[1] ?? "").matchAll(/(\d+) 0 R/g)].map(
      ([, id]) => objects.get(id!) ?? "",
    );
  return [...objects.values()]
    .filter((own) => /\/S \/Table\b/.test(own))
    .map((table) =>
      kids(table).map((row) =>
        kids(row).reduce((sum, cell) => sum + Number(/\/ColSpan (\d+)/.exec(cell)?.[1] ?? 1), 0),
      ),
    );
}
