import { describe, expect, it } from "vitest";
import { type Box, mapX, mapY, type MapFrame } from "../../../src/editor/map/index.ts";
import { contourHeights } from "../../../src/screens/site/contourheights.ts";

/** A pixel is a metre. */
const frame: MapFrame = { widthPx: 800, heightPx: 600, pxPerM: 1, eastM: 0, northM: 0 };

/** A contour from west to east at `northM`, with a point every 10 m. */
function across(levelM: number, northM: number, strong = true) {
  const line = new Float64Array(2 * 61);
  for (let k = 0; k <= 60; k += 1) line.set([k * 10 - 300, northM], 2 * k);
  return { levelM, strong, lines: [line] };
}

const heights = (
  contours: ReturnType<typeof across>[],
  places: readonly { eastM: number; northM: number }[] = [],
  kept: readonly Box[] = [],
) => contourHeights({ contours }, frame, places, kept);

describe("the heights of contours", () => {
  it("stand on their lines, of the strong ones alone", () => {
    const [one, ...others] = heights([across(25, 40), across(20, 0, false)]);
    expect(others).toEqual([]);
    expect(one).toEqual({ levelM: 25, x: mapX(frame, -100), y: mapY(frame, 40) });
  });

  it("keep apart: of two near lines the second has its height elsewhere, of many none lies over another", () => {
    const all = heights(Array.from({ length: 12 }, (_, k) => across(k, k * 9)));
    expect(all.length).toBeGreaterThan(3);
    expect(all[1]!.x).not.toBe(all[0]!.x);
    for (const [i, a] of all.entries())
      for (const b of all.slice(0, i))
        expect(Math.abs(a.x - b.x) >= 64 || Math.abs(a.y - b.y) >= 28).toBe(true);
  });

  it("leave the sides of a place to its name", () => {
    const place = { eastM: -60, northM: 45 };
    const [one] = heights([across(25, 40)], [place]);
    expect(Math.abs(one!.x - mapX(frame, place.eastM))).toBeGreaterThanOrEqual(90);
  });

  it("leave free what is kept for scale and north", () => {
    const [free] = heights([across(25, 40)]);
    const { x, y } = free!;
    const kept = { left: x - 60, right: x + 15, top: y + 4, bottom: y + 30 };
    const [one] = heights([across(25, 40)], [], [kept]);
    expect(one!.x - x).toBeGreaterThan(15);
    const all = { left: 0, right: frame.widthPx, top: 0, bottom: frame.heightPx };
    expect(heights([across(25, 40)], [], [all])).toEqual([]);
  });

  it("are left out of what is short or out of the picture", () => {
    expect(heights([across(25, 2000)])).toEqual([]);
    const short = { levelM: 5, strong: true, lines: [new Float64Array([0, 0, 100, 0])] };
    expect(contourHeights({ contours: [short] }, frame, [], [])).toEqual([]);
  });
});
