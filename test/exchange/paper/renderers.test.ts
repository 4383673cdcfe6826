// @vitest-environment jsdom
import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import {
  booklets,
  CUFF,
  daySheet,
  type Paper,
  SHEETS,
  toPrintDocument,
  toSvgPages,
} from "../../../src/exchange/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { samplePlan } from "../samplePlan.ts";
import { textsOf } from "./reading.ts";

const paperOf = (plan: Plan, size: "cuff" | "a4" | "letter" = "cuff"): Paper =>
  booklets(plan, check(plan, plan.schedule), { size });

describe("imposition", () => {
  it("puts four pages on a sheet and starts each booklet on its own", () => {
    const single = paperOf(samplePlan());
    for (const size of ["a4", "letter"] as const) {
      const sheets = paperOf(samplePlan(), size);
      const count = (part: string, paper: Paper) => paper.pages.filter((page) => page.part === part).length;
      for (const part of ["ev1", "ev2"]) expect(count(part, sheets)).toBe(Math.ceil(count(part, single) / 4));
      expect(sheets.pages[0]).toMatchObject(SHEETS[size]);
    }
  });

  it("marks the cuts outside the pages, at their edges", () => {
    const [sheet] = paperOf(samplePlan(), "a4").pages;
    const cuts = sheet!.marks.at(-1)!;
    if (cuts.kind !== "lines") throw new Error("no cut marks");
    // Two pages of 98 mm centred on 210 mm: edges at 7, 105 and 203 mm; two of 132 mm on 297 mm: 16.5, 148.5, 280.5.
    const upright = cuts.segments.filter(([x1, , x2]) => x1 === x2).map(([x]) => x);
    const level = cuts.segments.filter(([, y1, , y2]) => y1 === y2).map(([, y]) => y);
    expect([...new Set(upright)]).toEqual([7, 105, 203]);
    expect([...new Set(level)]).toEqual([16.5, 148.5, 280.5]);
    for (const [x1, y1, x2, y2] of cuts.segments) {
      const insideX = Math.min(x1, x2) > 7 && Math.max(x1, x2) < 203;
      const insideY = Math.min(y1, y2) > 16.5 && Math.max(y1, y2) < 280.5;
      expect(insideX && insideY).toBe(false);
    }
  });
});

describe("SVG", () => {
  it("is well-formed, in true size, with the same texts, whatever signs names hold", () => {
    const paper = paperOf({ ...samplePlan(), title: `<b> & "quotes" \u0000 採` });
    toSvgPages(paper).forEach((source, i) => {
      const page = paper.pages[i]!;
      const document = new DOMParser().parseFromString(source, "image/svg+xml");
      expect(document.querySelector("parsererror")).toBeNull();
      expect(document.documentElement.getAttribute("width")).toBe(`${CUFF.widthMm}mm`);
      const texts = [...document.querySelectorAll("text")].map((node) => node.textContent);
      expect(texts).toEqual(textsOf(page).map((mark) => mark.text));
    });
  });

  it("makes a document that prints one page a sheet", () => {
    const plan = samplePlan();
    const paper = daySheet(plan, check(plan, plan.schedule), "letter");
    const source = toPrintDocument(paper);
    expect(source).toContain("@page{size:279.4mm 215.9mm;margin:0}");
    const document = new DOMParser().parseFromString(source, "text/html");
    expect(document.querySelectorAll("svg")).toHaveLength(paper.pages.length);
  });
});
