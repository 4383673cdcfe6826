import { describe, expect, it } from "vitest";
import { nameMarks } from "../../../../src/exchange/paper/sheets/map/names.ts";

describe("names of places that lie close together on a map", () => {
  const frame = { left: 0, right: 190, top: 0, bottom: 130 };
  const places = Array.from({ length: 9 }, (_, i) => ({
    x: 90 + (i % 3) * 2.5,
    y: 60 + Math.floor(i / 3) * 2.5,
    words: `Place ${i}: ${i} ${i + 10}`,
    bold: i % 2 === 0,
  }));

  it("stand at least so far apart that each is read by itself", () => {
    const { marks, left } = nameMarks(places, frame, []);
    expect(left).toEqual([]);
    const boxes = marks.flatMap((mark) => (mark.kind === "rect" ? [mark] : []));
    expect(boxes).toHaveLength(places.length);
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(i + 1)) {
        const aside = Math.max(a.x - b.x - b.w, b.x - a.x - a.w);
        const above = Math.max(a.y - b.y - b.h, b.y - a.y - a.h);
        expect(Math.max(aside, above)).toBeGreaterThanOrEqual(0.9 - 1e-9);
      }
    });
  });
});
