import { describe, expect, it } from "vitest";
import { rect } from "../../../../src/exchange/paper/page.ts";
import type { Body, Drawing, Table } from "../../../../src/exchange/paper/sheets/body.ts";
import { type SheetFormat, sheetsOf } from "../../../../src/exchange/paper/sheets/frame.ts";
import { textWidth } from "../../../../src/exchange/paper/type.ts";
import { collisions, overflows, textsOf, wordsOf } from "../reading.ts";
import { STAMP } from "./facts.ts";

/** Rows whose cells name the row, one of them long enough for several lines. */
const table = (rows: number): Table => ({
  kind: "table",
  title: "Some table",
  none: "none",
  columns: [
    { head: "ROW", bold: true },
    { head: "WORDS", grow: 2 },
    { head: "RIGHT", align: "right", group: "over both" },
    { head: "SECOND", group: "over both" },
    { head: "WRITE", blankMm: 14 },
  ],
  rows: Array.from({ length: rows }, (_, i) => ({
    cells: [
      { text: `row${i}`, number: `${i}` },
      { text: `words${i} ${"that go on and on ".repeat(i % 7)}` },
      { text: `right${i}`, under: `under${i}` },
      { text: `second${i}` },
    ],
  })),
});

const body = (rows: number): Body => ({
  title: "A sheet",
  under: ["Under the head of every sheet."],
  key: ["The key at the foot of every sheet."],
  wide: false,
  sections: [table(rows)],
});

const FORMATS: readonly SheetFormat[] = [
  { paper: "a4" },
  { paper: "letter" },
  { paper: "a4", punched: true },
  { paper: "cuff" },
];

describe("a table over many sheets", () => {
  it.each(FORMATS)("loses no row and splits none, on %o", (format) => {
    const pages = sheetsOf([body(120)], STAMP, format);
    expect(pages.length).toBeGreaterThan(2);
    const pageOf = (word: string): number[] =>
      pages.flatMap((page, k) =>
        textsOf(page)
          .flatMap((mark) => mark.text.split(/[ ;()]+/))
          .filter((one) => one === word)
          .map(() => k),
      );
    for (let i = 0; i < 120; i += 1) {
      const at = ["row", "words", "right", "under", "second"].map((name) => pageOf(`${name}${i}`));
      // Each cell once, all of a row on one sheet.
      expect(at.map((one) => one.length)).toEqual([1, 1, 1, 1, 1]);
      expect(new Set(at.flat()).size).toBe(1);
    }
    expect(overflows(pages)).toEqual([]);
    expect(collisions(pages)).toEqual([]);
  });

  it("has its head, the plan, the revision, the date, the count and who decides on every sheet", () => {
    const pages = sheetsOf([body(120)], STAMP, { paper: "a4" });
    pages.forEach((page, i) => {
      const words = wordsOf(page);
      for (const said of ["WORDS", "over both", "A sheet", STAMP.plan, STAMP.revision, STAMP.printed])
        expect(words).toContain(said);
      expect(words).toContain(`sheet ${i + 1} of ${pages.length}`);
      expect(words).toContain("Planning and training aid.");
      expect(words).toContain("The key at the foot of every sheet.");
    });
  });

  it("says on every sheet that a plan is not fit to be flown", () => {
    const pages = sheetsOf([body(120)], { ...STAMP, notCleared: "3 breaches." }, { paper: "letter" });
    for (const page of pages) expect(wordsOf(page)).toContain("NOT CLEARED: 3 breaches.");
  });

  it("leaves no row of a table alone on a sheet, and a table of few rows whole", () => {
    for (let rows = 20; rows <= 60; rows += 1) {
      const pages = sheetsOf(
        [{ ...body(0), sections: [table(rows), { ...table(5), title: "Few" }] }],
        STAMP,
        { paper: "a4" },
      );
      const counts = pages.map((page) => textsOf(page).map(({ text }) => text));
      const few = counts.filter((texts) => texts.includes("Few"));
      expect(few).toHaveLength(1);
      // The five rows of the second table stand under its title.
      const after = few[0]!.slice(few[0]!.indexOf("Few"));
      expect(after.filter((one) => /^row\d+$/.test(one))).toEqual(["row0", "row1", "row2", "row3", "row4"]);
      for (const texts of counts) {
        const end = texts.includes("Few") ? texts.indexOf("Few") : texts.length;
        expect(texts.slice(0, end).filter((one) => /^row\d+$/.test(one))).not.toHaveLength(1);
      }
    }
  });

  it("keeps a thick bar clear of the column before it and of its own text", () => {
    const rows = [{ cells: [{ text: "before" }, { text: "after", bar: true }] }];
    const columns = [
      { head: "LEFT", align: "right" as const },
      { head: "BARS", bars: true },
    ];
    const [page] = sheetsOf(
      [{ ...body(0), sections: [{ kind: "table", none: "none", columns, rows }] }],
      STAMP,
      { paper: "a4" },
    );
    const bars = page!.marks.flatMap((mark) =>
      mark.kind === "lines" && mark.widthMm === 1 ? mark.segments.map(([x]) => x) : [],
    );
    expect(bars).toHaveLength(1);
    const [before, after] = ["before", "after"].map((words) =>
      textsOf(page!).find(({ text }) => text === words)!,
    );
    // Half the bar's width and half a millimetre of white at the least.
    expect(bars[0]! - before!.x - textWidth("before", before!)).toBeGreaterThanOrEqual(1);
    expect(after!.x - bars[0]!).toBeGreaterThanOrEqual(1);
  });

  it("breaks no word of a column that grows where a smaller size or parts hold it whole", () => {
    const words = "Wake the station by unabbreviatedcommands";
    const columns = [
      { head: "MET", known: true },
      { head: "FIRST", grow: 1.2 },
      { head: "SECOND", grow: 0.6 },
    ];
    for (const paper of ["a4", "cuff"] as const) {
      const rows = [{ cells: [{ text: "1:20" }, { text: words, number: "12" }, { text: words }] }];
      const pages = sheetsOf(
        [{ ...body(0), sections: [{ kind: "table", none: "none", columns, rows }] }],
        STAMP,
        { paper },
      );
      const said = pages.flatMap((page) => textsOf(page).flatMap(({ text }) => text.split(" ")));
      expect(said.filter((one) => one === "unabbreviatedcommands")).toHaveLength(2);
    }
  });

  it("goes on with a row that no sheet holds", () => {
    const long = Array.from({ length: 4000 }, (_, i) => `n${i}`).join(" ");
    const rows = [{ cells: [{ text: "row" }, { text: long }] }];
    const pages = sheetsOf([{ ...body(0), sections: [{ ...table(0), rows }] }], STAMP, { paper: "a4" });
    const said = pages.flatMap((page) => textsOf(page).flatMap((mark) => mark.text.split(" ")));
    expect(said.filter((one) => /^n\d+$/.test(one))).toEqual(long.split(" "));
    expect(overflows(pages)).toEqual([]);
  });

  it("makes a drawing smaller by up to a third where that saves a sheet, and no further", () => {
    const drawn: number[] = [];
    const drawing: Drawing = {
      kind: "drawing",
      aspect: 0.7,
      says: "a frame",
      draw: (x, y, wide, high) => [rect(x, y, wide, drawn[drawn.push(high) - 1]!, 0.3)],
    };
    // A4 upright leaves 190 mm across: 133 mm high where there is room.
    const full = 190 * 0.7;
    const heights = Array.from({ length: 60 }, (_, rows) => {
      drawn.length = 0;
      const pages = sheetsOf([{ ...body(0), sections: [drawing, table(rows)] }], STAMP, { paper: "a4" });
      expect(overflows(pages)).toEqual([]);
      return { high: drawn[0]!, pages: pages.length };
    });
    expect(heights[0]).toEqual({ high: full, pages: 1 });
    const smaller = heights.filter(({ high }) => high < full - 0.001);
    expect(smaller.length).toBeGreaterThan(0);
    for (const { high, pages } of smaller) {
      expect(pages).toBe(1);
      expect(high).toBeGreaterThanOrEqual(full * 0.65);
    }
    expect(heights.at(-1)).toMatchObject({ high: full });
  });

  it("says on cards once what stands over several columns, and nothing twice, and has a frame for every blank", () => {
    const [page] = sheetsOf([body(3)], STAMP, { paper: "cuff" });
    const words = wordsOf(page!);
    expect(words).toContain("over both RIGHT right1 (under1) SECOND second1 WRITE");
    expect(words.match(/over both/g)).toHaveLength(3);
    // 14 mm wide, beside the frames of the numbers.
    expect(page!.marks.filter((mark) => mark.kind === "rect" && mark.w === 14)).toHaveLength(3);
    // A text across several columns is no value of the first of them.
    const rows = [...table(3).rows, { cells: [{ text: "row" }, { text: "END: walk home", span: 3 }] }];
    const [over] = sheetsOf([{ ...body(0), sections: [{ ...table(0), rows }] }], STAMP, { paper: "cuff" });
    expect(wordsOf(over!)).toMatch(/ROW row END: walk home WRITE/);
  });

  it("repeats what rows are about where they go on on another sheet, and keeps what is joined together", () => {
    const rows = Array.from({ length: 100 }, (_, i) => [
      { leads: true, cells: [{ text: `lead${i}`, span: 5 }] },
      ...Array.from({ length: i % 5 }, (_one, k) => ({
        joined: k % 2 === 0,
        cells: [{ text: `own${i}.${k}` }],
      })),
      { cells: [{ text: `last${i}` }] },
    ]).flat();
    for (const format of FORMATS) {
      const pages = sheetsOf([{ ...body(0), sections: [{ ...table(0), rows }] }], STAMP, format);
      expect(pages.length).toBeGreaterThan(2);
      const said = pages.map((page) => textsOf(page).flatMap((mark) => mark.text.split(/[ ;]+/)));
      const pageOf = (word: string): number => said.findIndex((words) => words.includes(word));
      for (let i = 0; i < 100; i += 1) {
        const own = Array.from({ length: i % 5 }, (_one, k) => pageOf(`own${i}.${k}`));
        // Never alone: the first row after it stands below it.
        expect(pageOf(`lead${i}`)).toBe(own[0] ?? pageOf(`last${i}`));
        for (let k = 0; k < own.length; k += 2) expect(own[k]).toBe(own[k + 1] ?? pageOf(`last${i}`));
        for (const at of [...own, pageOf(`last${i}`)]) expect(said[at]).toContain(`lead${i}`);
      }
      expect(overflows(pages)).toEqual([]);
      expect(collisions(pages)).toEqual([]);
    }
  });

  it("sets on one card all that joined rows say, what stands in one column together", () => {
    const columns = [{ head: "KEY" }, { head: "ORDER", grow: 1 }, { head: "SHARE" }];
    const rows = [
      { joined: true, cells: [{ text: "5 min" }, { text: `EV1: ${"T01, ".repeat(30)}` }, { text: "98 %" }] },
      { cells: [{ text: "" }, { text: `EV2: ${"T02, ".repeat(30)}` }, { text: "" }] },
    ];
    const wide = { head: "WORDS", blankMm: 90 };
    const cards: Table = { kind: "table", none: "", columns: [...columns, wide], rows };
    const [page] = sheetsOf([{ ...body(0), sections: [cards] }], STAMP, { paper: "cuff" });
    expect(wordsOf(page!)).toMatch(/KEY 5 min.*ORDER EV1:.*ORDER EV2:.*SHARE 98 %/);
    // What cards are about stands over them on every page, and each of them is whole on one.
    const many = Array.from({ length: 9 }, (_, i) => [
      { leads: true, cells: [{ text: `lead${i}`, span: 4 }] },
      ...[0, 1, 2].flatMap((k) => [
        { joined: true, cells: [{ text: `first${i}.${k}` }, { text: "T01, ".repeat(40) }] },
        { cells: [{ text: "" }, { text: `second${i}.${k} ${"T02, ".repeat(40)}` }] },
      ]),
    ]).flat();
    const pages = sheetsOf([{ ...body(0), sections: [{ ...cards, rows: many }] }], STAMP, { paper: "cuff" });
    const said = pages.map(wordsOf);
    for (let i = 0; i < 9; i += 1)
      for (const k of [0, 1, 2])
        expect(
          said.filter((words) =>
            [`lead${i} `, `first${i}.${k} `, `second${i}.${k} `].every((one) => words.includes(one)),
          ),
        ).toHaveLength(1);
    expect(overflows(pages)).toEqual([]);
    expect(collisions(pages)).toEqual([]);
  });

  it("says on cards in which of several columns a task stands, and keeps together what has one head", () => {
    const gauges = (group: string) => ["O2", "WATER"].map((head) => ({ head, group, blankMm: 14 }));
    const cards: Table = {
      kind: "table",
      none: "",
      columns: [
        { head: "MET" },
        { head: "EV1", grow: 1 },
        { head: "EV2", grow: 1 },
        ...gauges("one read"),
        ...gauges("two read"),
        { head: "WORDS", blankMm: 60 },
      ],
      rows: [
        { cells: [{ text: "1:00" }, { text: "dig", number: "1" }, { text: "walk" }] },
        {
          cells: [
            { text: "2:00", bold: true },
            { text: "REST", bold: true },
            { text: "lift", number: "2" },
          ],
        },
        { cells: [{ text: "3:00" }, { text: "carry", number: "3", span: 2 }] },
      ],
    };
    const [page] = sheetsOf([{ ...body(0), sections: [cards] }], STAMP, { paper: "cuff" });
    const words = wordsOf(page!);
    expect(words).toMatch(/EV1 1 dig.*EV2 2 lift.* 3 carry/);
    expect(words).not.toMatch(/EV[12] 3 carry/);
    const texts = textsOf(page!);
    const at = (text: string): number[] => texts.filter((mark) => mark.text === text).map(({ y }) => y);
    expect(collisions([page!])).toEqual([]);
    // What is bold in a table is so on a card.
    const isBold = (text: string) => texts.find((mark) => mark.text === text)?.bold;
    expect(["2:00", "REST", "1:00", "walk"].map(isBold)).toEqual([true, true, false, false]);
    // A group that has no room behind another begins a line.
    expect(at("one read O2")).toHaveLength(3);
    at("two read O2").forEach((y, i) => {
      expect(at("WATER")[2 * i + 1]).toBe(y);
      expect(at("one read O2")[i]).toBeLessThan(y);
    });
  });

  it("leaves 12 mm free about the holes and marks them 80 mm apart", () => {
    const [page] = sheetsOf([body(3)], STAMP, { paper: "a4", punched: true });
    const crosses = page!.marks.at(-1)!;
    if (crosses.kind !== "lines") throw new Error("no holes are marked");
    // A4 upright: 297 / 2 = 148.5, 40 mm up and down, 12 mm from the left edge.
    const middles = crosses.segments
      .filter(([, y1, , y2]) => y1 === y2)
      .map(([x1, y, x2]) => [(x1 + x2) / 2, y]);
    expect(middles).toEqual([
      [12, 108.5],
      [12, 188.5],
    ]);
    for (const mark of textsOf(page!)) expect(mark.x).toBeGreaterThanOrEqual(20);
  });

  it("stands word for word in place of rows where there are none", () => {
    const [page] = sheetsOf(
      [{ ...body(0), sections: [{ ...table(0), none: "Nothing of the kind." }] }],
      STAMP,
      {
        paper: "a4",
      },
    );
    expect(wordsOf(page!)).toContain("Nothing of the kind.");
  });
});
