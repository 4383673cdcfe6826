import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { booklets, toPdf } from "../../../src/exchange/index.ts";
import type { Paper } from "../../../src/exchange/paper/page.ts";
import { CUFF } from "../../../src/exchange/paper/cuff.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { samplePlan } from "../samplePlan.ts";
import { type Piece, readPdf, testFaces } from "./readpdf.ts";
import { textsOf } from "./reading.ts";

const paperOf = (plan: Plan): Paper => booklets(plan, check(plan, plan.schedule));
const pdfOf = (paper: Paper): Promise<Uint8Array> => toPdf(paper, testFaces);

describe("PDF", () => {
  it("has the paper's pages in true size, its title and the plan's own date", async () => {
    const paper = paperOf(samplePlan());
    const pdf = await readPdf(await pdfOf(paper));
    expect(pdf.pages).toHaveLength(paper.pages.length);
    expect(pdf.pages[0]?.widthMm).toBeCloseTo(CUFF.widthMm, 2);
    expect(pdf.pages[0]?.heightMm).toBeCloseTo(CUFF.heightMm, 2);
    expect(pdf.title).toBe("Rehearsal plan, Quarry Flat: cuff checklists");
    expect(pdf.createdMs).toBe(Date.UTC(2031, 3, 5, 6));
  });

  it("has the same bytes for the same plan, and others for another", async () => {
    const first = await pdfOf(paperOf(samplePlan()));
    expect(await pdfOf(paperOf(samplePlan()))).toEqual(first);
    expect(await pdfOf(paperOf({ ...samplePlan(), title: "Other" }))).not.toEqual(first);
  });

  it("shows every text of the page model where it stands there, in the signs that it is written in", async () => {
    const paper = paperOf({ ...samplePlan(), title: "Größe – 20°, Łódź − 3" });
    const { pages } = await readPdf(await pdfOf(paper));
    pages.forEach(({ boxes }, i) => {
      const texts = textsOf(paper.pages[i]!);
      const ink = (words: readonly string[]): string => words.join("").replaceAll(" ", "");
      expect(ink(boxes.map(({ text }) => text))).toBe(ink(texts.map(({ text }) => text)));
      for (const mark of texts) {
        // A text of two files stands as one piece for each: the first begins where the text does.
        const first = boxes.find(({ left, baseline }) => near(left, mark.x) && near(baseline, mark.y));
        expect(first, mark.text).toMatchObject({ sizePt: mark.sizePt });
      }
    });
    const words = pages[0]!.boxes.map(({ text }) => text).join("");
    expect(words.replaceAll(" ", "")).toContain("Größe–20°,Łódź−3");
  });

  it("embeds the part of each face that it uses and no face that it does not bring along", async () => {
    const code = new TextDecoder("latin1").decode(await pdfOf(paperOf(samplePlan())));
    const fonts = [...code.matchAll(/\/BaseFont \/(\S+)/g)].map(([, name]) => name);
    expect(fonts.length).toBeGreaterThan(0);
    for (const name of fonts) expect(name).toMatch(/^[A-Z]{6}\+EncodeSans/);
    // A file each, and no font without one.
    const files = new Set([...code.matchAll(/\/FontFile2 (\d+) 0 R/g)].map(([, id]) => id));
    expect(files.size).toBe(new Set(fonts).size);
  });

  it("says its language and what each piece of it is, in the order in which it is read", async () => {
    const paper = paperOf(samplePlan());
    const bytes = await pdfOf(paper);
    const pdf = await readPdf(bytes);
    expect([pdf.lang, pdf.tagged]).toEqual(["en", true]);
    expect(new TextDecoder("latin1").decode(bytes)).toContain("<pdfuaid:part>1</pdfuaid:part>");
    expect(pdf.outline).toEqual(paper.pages.map(({ name }) => name));
    pdf.pages.forEach(({ structure }, i) => {
      const words = spoken(structure).join("").replaceAll(" ", "");
      expect(words).toBe(
        textsOf(paper.pages[i]!)
          .map(({ text }) => text)
          .join("")
          .replaceAll(" ", ""),
      );
    });
  });
});

const near = (a: number, b: number): boolean => Math.abs(a - b) < 0.01;

/** All texts of a structure, in its order. */
function spoken(piece: Piece | null): string[] {
  return piece === null ? [] : [piece.text, ...piece.parts.flatMap(spoken)];
}
