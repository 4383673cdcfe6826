import { describe, expect, it } from "vitest";
import { mapDrawing } from "../../../../src/exchange/paper/sheets/map/map.ts";
import { nameMarks } from "../../../../src/exchange/paper/sheets/map/names.ts";
import { samplePlan } from "../../samplePlan.ts";

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

describe("the sign of north on a map", () => {
  it("stands in a corner in which no place does", () => {
    const plan = samplePlan();
    const [lander] = plan.site.places;
    for (const [eastM, northM] of [
      [720, -440],
      [720, 440],
      [-720, 440],
    ] as const) {
      const places = [
        { ...lander!, eastM: 0, northM: 0 },
        { ...lander!, id: "far", name: "Far", kind: "station" as const, eastM, northM },
      ];
      const marks = mapDrawing({
        plan: { ...plan, site: { ...plan.site, places, keepOuts: [] } },
        courses: [],
        noteOf: () => "",
      }).draw(0, 0, 86, 62);
      const north = marks.flatMap((mark) => (mark.kind === "text" && mark.text === "N" ? [mark] : []));
      expect(north).toHaveLength(1);
      const squares = marks.flatMap((mark) => (mark.kind === "rect" && mark.w < 3 ? [mark] : []));
      expect(squares).toHaveLength(2);
      // The arrow goes 3 mm over the foot of the letter, and 4.2 mm to its right.
      for (const { x, y, w, h } of squares) {
        const aside = Math.max(north[0]!.x - (x + w), x - (north[0]!.x + 5.2));
        const above = Math.max(north[0]!.y - 3 - (y + h), y - (north[0]!.y + 3));
        expect(Math.max(aside, above)).toBeGreaterThan(0);
      }
    }
  });
});
