import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CUFF, LEFT, RIGHT } from "../../../src/exchange/paper/cuff.ts";
import { impose, type Imposing, SHEETS, sidesOf } from "../../../src/exchange/paper/impose.ts";
import { type Page, text } from "../../../src/exchange/paper/page.ts";
import { overflows, textsOf } from "./reading.ts";

const imposings = fc.record({
  sheet: fc.constantFrom("a4" as const, "letter" as const),
  duplex: fc.boolean(),
  order: fc.constantFrom("stack" as const, "reading" as const),
  rings: fc.boolean(),
});

/** A booklet whose pages say their number where content begins and where it ends. */
const booklet = (part: string, count: number): Page[] =>
  Array.from({ length: count }, (_, i) => ({
    ...CUFF,
    name: `${part} ${i}`,
    part,
    marks: [
      ...text(LEFT, 20, `${part}-${i}`, { sizePt: 10, bold: true }),
      ...text(RIGHT, 30, "end", { sizePt: 10, bold: false, align: "right" }),
    ],
  }));

const paperOf = (pages: readonly Page[]) => ({ title: "t", epochMs: 0, pages });

/** The number that a printed text stands for, and where it stands. */
const numbersOn = (page: Page) =>
  textsOf(page).flatMap((mark) => {
    const [, part = "", number] = /^(\w+)-(\d+)$/.exec(mark.text) ?? [];
    return number === undefined ? [] : [{ part, number: Number(number), x: mark.x, y: mark.y }];
  });

describe("cuff pages on sheets", () => {
  it("stand there every one once, whatever is asked for", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 75 }),
        fc.integer({ min: 1, max: 30 }),
        imposings,
        (a, b, imposing) => {
          const { pages } = impose(paperOf([...booklet("ev1", a), ...booklet("ev2", b)]), imposing);
          const found = pages.flatMap((page) => numbersOn(page));
          const of = (part: string): number[] =>
            found.flatMap((one) => (one.part === part ? [one.number] : [])).toSorted((x, y) => x - y);
          expect(of("ev1")).toEqual(Array.from({ length: a }, (_, i) => i));
          expect(of("ev2")).toEqual(Array.from({ length: b }, (_, i) => i));
          // No sheet is shared by two booklets, and none is printed on both sides in vain.
          for (const page of pages)
            expect(new Set(numbersOn(page).map(({ part }) => part)).size).toBeLessThanOrEqual(1);
          const sides = imposing.duplex ? 2 : 1;
          const sheets = (count: number): number => Math.ceil(Math.ceil(count / sides) / 4) * sides;
          expect(pages).toHaveLength(sheets(a) + sheets(b));
        },
      ),
    );
  });

  it("come in order when the stack is cut and its piles are laid on each other", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 90 }), fc.boolean(), (count, duplex) => {
        const sides = sidesOf(count, { duplex, order: "stack" });
        const fronts = sides.filter(({ back }) => !back);
        const backs = sides.filter(({ back }) => back);
        const read: (number | null)[] = [];
        // The pile of each place, from its top sheet down; a leaf is read on its front, then on its back.
        for (let place = 0; place < 4; place += 1) {
          const behind = [1, 0, 3, 2][place]!;
          fronts.forEach((front, k) => {
            read.push(front.pages[place]!);
            if (duplex) read.push(backs[k]!.pages[behind]!);
          });
        }
        const written = read.filter((page) => page !== null);
        expect(written).toEqual(Array.from({ length: count }, (_, i) => i));
        // What is blank is at the end, so that no leaf is missed in the middle.
        expect(read.slice(count).every((page) => page === null)).toBe(true);
      }),
    );
  });

  it("stand back to back, with the ring's margin at the same edge of the leaf", () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 40 }), imposings, (count, given) => {
        const imposing: Imposing = { ...given, duplex: true };
        const { widthMm } = SHEETS[imposing.sheet];
        const { pages } = impose(paperOf(booklet("ev1", count)), imposing);
        const front = pages
          .filter((_, i) => i % 2 === 0)
          .flatMap((page, k) => numbersOn(page).map((one) => ({ ...one, k })));
        const back = pages
          .filter((_, i) => i % 2 === 1)
          .flatMap((page, k) => numbersOn(page).map((one) => ({ ...one, k })));
        for (const one of back) {
          const other = front.find((two) => two.number === one.number - 1)!;
          expect([other.k, other.y]).toEqual([one.k, one.y]);
          // Left edge of the front leaf, seen through the sheet, is the right edge of the back leaf.
          const frontEdge = other.x - LEFT;
          const backEdge = one.x - (CUFF.widthMm - RIGHT);
          expect(backEdge).toBeCloseTo(widthMm - frontEdge - CUFF.widthMm, 6);
        }
        expect(overflows(pages)).toEqual([]);
      }),
    );
  });

  it("have crosses for the rings on the ring's side of each page, off the content", () => {
    const imposing: Imposing = { sheet: "a4", duplex: true, order: "stack", rings: true };
    const { pages } = impose(paperOf(booklet("ev1", 8)), imposing);
    const centres = (page: Page): number[] =>
      page.marks.flatMap((mark) =>
        mark.kind === "lines" && mark.segments.length === 4
          ? mark.segments.filter(([x1, , x2]) => x1 === x2).map(([x]) => x)
          : [],
      );
    // A4: pages begin at 7 and 105 mm; 4 mm in from the left in front, from the right behind.
    expect([...new Set(centres(pages[0]!))]).toEqual([11, 109]);
    expect([...new Set(centres(pages[1]!))]).toEqual([101, 199]);
  });

  it("are cut at marks outside the pages", () => {
    for (const sheet of ["a4", "letter"] as const) {
      const { widthMm, heightMm } = SHEETS[sheet];
      const [page] = impose(paperOf(booklet("ev1", 3)), {
        sheet,
        duplex: false,
        order: "stack",
        rings: false,
      }).pages;
      const cuts = page!.marks.at(-1)!;
      if (cuts.kind !== "lines") throw new Error("no cut marks");
      const [left, top] = [(widthMm - 196) / 2, (heightMm - 264) / 2];
      const upright = cuts.segments.filter(([x1, , x2]) => x1 === x2).map(([x]) => x);
      const level = cuts.segments.filter(([, y1, , y2]) => y1 === y2).map(([, y]) => y);
      expect([...new Set(upright)]).toEqual([left, left + 98, left + 196]);
      expect([...new Set(level)]).toEqual([top, top + 132, top + 264]);
      for (const [x1, y1, x2, y2] of cuts.segments) {
        const across = Math.min(x1, x2) > left && Math.max(x1, x2) < left + 196;
        const down = Math.min(y1, y2) > top && Math.max(y1, y2) < top + 264;
        expect(across && down).toBe(false);
      }
    }
  });
});

describe("outside the cuts", () => {
  it("stands whose booklet it is by name, whatever the ids are", () => {
    const pages = booklet("c1 e3", 12).map((page, k) => ({ ...page, name: `EV1, EVA 2: ${k}: part` }));
    const said = impose(paperOf(pages), { sheet: "a4", duplex: true, order: "reading", rings: false });
    expect(
      said.pages.map((page) => textsOf(page).find(({ text: words }) => words.includes("sheet"))?.text),
    ).toEqual([
      "EV1, EVA 2: sheet 1 of 2, front",
      "EV1, EVA 2: sheet 1 of 2, back",
      "EV1, EVA 2: sheet 2 of 2, front",
      "EV1, EVA 2: sheet 2 of 2, back",
    ]);
  });
});
