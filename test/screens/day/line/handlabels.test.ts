import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  boxesMeet,
  labelBox,
  type LabelToPlace,
  type LabelSky,
  type PlacedLabel,
  placeLabels,
} from "../../../../src/screens/day/line/labels/placelabels.ts";
import type { Box } from "../../../../src/screens/day/line/names/place.ts";

const WIDTH_PX = 600;
const ROWS = [60, 75, 90, 105, 120];

function sky(lane: string, over: Partial<LabelSky> = {}): LabelSky {
  const ribbon = new Float32Array(WIDTH_PX + 1).fill(40);
  return { lane, rows: ROWS, ribbon, inHand: [], taken: [], names: [], widthPx: WIDTH_PX, ...over };
}

function ask(over: Partial<LabelToPlace> = {}): LabelToPlace {
  return { key: "a", text: "first start 3:20", widthPx: 100, x: 300, side: "before", lanes: ["up"], ...over };
}

function boxAt(x0: number, out: number): Box {
  return { x0, x1: x0 + 100, out0: out - 7, out1: out + 7 };
}

/** A place for each of the words in these skies. */
function placed(
  asks: readonly LabelToPlace[],
  skies: readonly LabelSky[],
  had: readonly PlacedLabel[] = [],
): readonly PlacedLabel[] {
  return placeLabels(asks, (lane) => skies.find((one) => one.lane === lane) ?? null, had);
}

/** Pairs of labels that lie on each other. */
function pairs(placed: readonly PlacedLabel[]): number {
  return placed.flatMap((a, n) =>
    placed.slice(n + 1).filter((b) => a.lane === b.lane && boxesMeet(labelBox(a), labelBox(b))),
  ).length;
}

describe("words of the hand", () => {
  it("stand at the far edge of the lane, on their side of their line", () => {
    const [first, last] = placed([ask(), ask({ key: "b", side: "after" })], [sky("up")]);
    expect(first).toMatchObject({ out: 120, x0: 200, x1: 300 });
    expect(last).toMatchObject({ out: 120, x0: 300, x1: 400 });
  });

  it("go to the other side where the edge of the window would cut them", () => {
    const [near, far] = placed([ask({ x: 30 }), ask({ key: "b", x: 580, side: "after" })], [sky("up")]);
    expect(near).toMatchObject({ x0: 30, x1: 130 });
    expect(far).toMatchObject({ x0: 480, x1: 580 });
  });

  it("take a row without names, and the one with the fewest where there is none", () => {
    const names = [boxAt(220, 120), boxAt(250, 105)];
    expect(placed([ask()], [sky("up", { names })])[0]!.out).toBe(90);
    const full = ROWS.flatMap((out) => (out === 75 ? [boxAt(250, out)] : [boxAt(150, out), boxAt(255, out)]));
    const both = [...full, ...full.map((one) => ({ ...one, x0: one.x0 + 60, x1: one.x1 + 60 }))];
    expect(placed([ask()], [sky("up", { names: both })])[0]!.out).toBe(75);
  });

  it("keep off the ribbon, what is in hand and what is written there, at the price of names", () => {
    const ribbon = new Float32Array(WIDTH_PX + 1).fill(130);
    const names = [boxAt(220, 60)];
    const off = (over: Partial<LabelSky>): number =>
      placed([ask({ lanes: ["up", "down"] })], [sky("up", { names, ...over }), sky("down", { ribbon })])[0]!
        .out;
    expect(off({ inHand: [{ x0: 280, x1: 320, out0: 70, out1: 140 }] })).toBe(60);
    expect(off({ taken: [{ x0: 280, x1: 320, out0: 70, out1: 140 }] })).toBe(60);
  });

  it("keep their row as something is moved along, until another is better by a name", () => {
    const names = [boxAt(220, 120)];
    const [was] = placed([ask()], [sky("up", { names })]);
    expect(was!.out).toBe(105);
    const [moved] = placed([ask({ x: 500 })], [sky("up", { names })], [was!]);
    expect(moved!.out).toBe(105);
    const under = [...names, boxAt(420, 105)];
    expect(placed([ask({ x: 500 })], [sky("up", { names: under })], [was!])[0]!.out).toBe(120);
  });

  it("look at another lane only where the better one has no place that is as cheap", () => {
    const looked: string[] = [];
    const skyOver =
      (names: readonly Box[]) =>
      (lane: string): LabelSky => {
        looked.push(lane);
        return sky(lane, { names: lane === "up" ? names : [] });
      };
    const both = ask({ lanes: ["up", "down"] });
    placeLabels([both], skyOver([]));
    expect(looked).toEqual(["up"]);
    const everywhere = ROWS.flatMap((out) => [boxAt(210, out), boxAt(310, out)]);
    expect(placeLabels([both], skyOver(everywhere))[0]!.lane).toBe("down");
  });

  it("never lie on each other, leave the window or go missing while there is a row for each", () => {
    const drawn = fc.record({
      asks: fc.array(
        fc.record({ x: fc.integer({ min: 0, max: WIDTH_PX }), widthPx: fc.integer({ min: 40, max: 180 }) }),
        { minLength: 1, maxLength: 5 },
      ),
      names: fc.array(fc.tuple(fc.integer({ min: 0, max: 500 }), fc.constantFrom(...ROWS)), {
        maxLength: 12,
      }),
    });
    fc.assert(
      fc.property(drawn, ({ asks, names }) => {
        const skies = [sky("up", { names: names.map(([x, out]) => boxAt(x, out)) })];
        const all = placed(
          asks.map((one, i) => ask({ ...one, key: `${i}`, side: i % 2 === 0 ? "before" : "after" })),
          skies,
        );
        expect(all).toHaveLength(asks.length);
        expect(pairs(all)).toBe(0);
        for (const { x0, x1 } of all) {
          expect(x0).toBeGreaterThanOrEqual(0);
          expect(x1).toBeLessThanOrEqual(WIDTH_PX);
        }
      }),
    );
  });
});
