import { describe, expect, it } from "vitest";
import { type Block, flow, paginate } from "../../../src/exchange/paper/flow.ts";
import { hatch } from "../../../src/exchange/paper/hatch.ts";
import { extentOf, type Mark, text } from "../../../src/exchange/paper/page.ts";

const room = { top: 10, bottom: 40 };
const block = (name: string, height: number, keep = false): Block => ({
  height,
  keep,
  draw: (y) => text(0, y, name, { sizePt: 10, bold: false }),
});
const names = (pages: readonly (readonly Mark[])[]) =>
  pages.map((marks) => marks.map((mark) => (mark.kind === "text" ? `${mark.text}@${mark.y}` : "")));

describe("flowing blocks over pages", () => {
  it("fills a page to its end and turns for what is left, with the repeated head", () => {
    // 30 mm of room: 20 + 10 fill it exactly; the third turns.
    const pages = flow([block("a", 20), block("b", 10), block("c", 5)], room, block("again", 4), null);
    expect(names(pages)).toEqual([
      ["a@10", "b@30"],
      ["again@10", "c@14"],
    ]);
  });

  it("keeps a heading with what follows", () => {
    const pages = flow([block("a", 20), block("head", 5, true), block("b", 10)], room, null, null);
    expect(names(pages)).toEqual([["a@10"], ["head@10", "b@15"]]);
  });

  it("keeps a chain together on the next page, and splits one that no page holds", () => {
    // 12 + 8 + 8 = 28 of 30 mm: all of it moves on.
    const chain = [block("a", 5), block("x", 12, true), block("y", 8, true), block("z", 8)];
    expect(names(flow(chain, room, null, null))).toEqual([["a@10"], ["x@10", "y@22", "z@30"]]);
    // 36 mm are more than a page: filled as if nothing held them, and not one by one.
    const long = [block("x", 12, true), block("y", 12, true), block("z", 12)];
    expect(names(flow(long, room, null, null))).toEqual([["x@10"], ["y@10", "z@22"]]);
  });

  it("sets the foot at the bottom of the last page, on a new one where there is no room", () => {
    expect(names(flow([block("a", 20)], room, null, block("foot", 6)))).toEqual([["a@10", "foot@34"]]);
    expect(names(flow([block("a", 28)], room, null, block("foot", 6)))).toEqual([["a@10"], ["foot@34"]]);
  });

  it("gives a page even to nothing", () => {
    expect(flow([], room, null, null)).toEqual([[]]);
  });
});

describe("blocks by page, with less room on the last one", () => {
  const heights = (pages: readonly (readonly Block[])[]): number[][] =>
    pages.map((blocks) => blocks.map(({ height }) => height));

  it("leaves the last page to its foot where a group is higher than the room over that", () => {
    // x and y stay together: 18 mm, of 30 on a page, of 10 on the last one.
    const blocks = [block("a", 5), block("x", 9, true), block("y", 9)];
    expect(heights(paginate(blocks, 30, 10))).toEqual([[5, 9, 9], []]);
    // Of 18 mm on the last one they just fit.
    expect(heights(paginate(blocks, 30, 18))).toEqual([[5], [9, 9]]);
  });

  it("moves on as much of the end as the last page has room for", () => {
    // 8 + 8 + 8 = 24 of 30 mm, but of 10 on the last page: the third goes on, and two stay.
    expect(heights(paginate([block("a", 8), block("b", 8), block("c", 8)], 30, 10))).toEqual([[8, 8], [8]]);
  });
});

describe("hatch", () => {
  it("stays inside its rectangle whatever its proportions", () => {
    for (const [w, h] of [
      [20, 3],
      [3, 20],
      [0.4, 0.4],
      [10, 10],
    ] as const) {
      for (const slant of ["up", "down"] as const) {
        const { left, top, right, bottom } = extentOf(hatch(5, 7, w, h, 2, 0, slant));
        expect(left).toBeGreaterThanOrEqual(5 - 1e-9);
        expect(top).toBeGreaterThanOrEqual(7 - 1e-9);
        expect(right).toBeLessThanOrEqual(5 + w + 1e-9);
        expect(bottom).toBeLessThanOrEqual(7 + h + 1e-9);
      }
    }
  });
});
