import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  afootAt,
  beside,
  extentOf,
  fitted,
  type LabelWish,
  layLabels,
  type MapFrame,
  mapX,
  mapY,
  pannedMap,
  passedAt,
  scaleBar,
  showing,
  groundAt,
  pointOn,
  visitsOf,
  zoomedMap,
} from "../../src/editor/map/index.ts";

const frames: fc.Arbitrary<MapFrame> = fc.record({
  eastM: fc.double({ min: -2000, max: 2000, noNaN: true }),
  northM: fc.double({ min: -2000, max: 2000, noNaN: true }),
  pxPerM: fc.double({ min: 0.05, max: 4, noNaN: true }),
  widthPx: fc.integer({ min: 200, max: 2000 }),
  heightPx: fc.integer({ min: 200, max: 1400 }),
});
const pixels = fc.integer({ min: 0, max: 1500 });

describe("the frame of a map", () => {
  it("takes pixels to the ground and back, east right and north up", () => {
    fc.assert(
      fc.property(frames, pixels, pixels, (frame, x, y) => {
        const spot = groundAt(frame, x, y);
        expect(mapX(frame, spot.eastM)).toBeCloseTo(x, 6);
        expect(mapY(frame, spot.northM)).toBeCloseTo(y, 6);
        expect(mapX(frame, spot.eastM + 1)).toBeGreaterThan(x);
        expect(mapY(frame, spot.northM + 1)).toBeLessThan(y);
      }),
    );
  });

  it("zooms about the pointer: the ground under it stays", () => {
    fc.assert(
      fc.property(
        frames,
        pixels,
        pixels,
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        (frame, x, y, factor) => {
          const before = groundAt(frame, x, y);
          const after = groundAt(zoomedMap(frame, factor, x, y), x, y);
          expect(after.eastM).toBeCloseTo(before.eastM, 4);
          expect(after.northM).toBeCloseTo(before.northM, 4);
        },
      ),
    );
  });

  it("never zooms without end", () => {
    let frame = fitted(extentOf([]), 800, 600, 20);
    for (let k = 0; k < 100; k += 1) frame = zoomedMap(frame, 2, 10, 10);
    expect(frame.pxPerM).toBe(8);
    for (let k = 0; k < 100; k += 1) frame = zoomedMap(frame, 0.5, 10, 10);
    expect(frame.pxPerM).toBe(0.002);
  });

  it("fits all of an extent, and shows a spot by moving no farther than needed", () => {
    const extent = { westM: -300, eastM: 500, southM: -100, northM: 900 };
    const frame = fitted(extent, 800, 600, 50);
    for (const [east, north] of [
      [-300, -100],
      [500, 900],
    ] as const) {
      expect(mapX(frame, east)).toBeGreaterThanOrEqual(50 - 1e-6);
      expect(mapX(frame, east)).toBeLessThanOrEqual(750 + 1e-6);
      expect(mapY(frame, north)).toBeGreaterThanOrEqual(50 - 1e-6);
      expect(mapY(frame, north)).toBeLessThanOrEqual(550 + 1e-6);
    }
    expect(showing(frame, { eastM: 100, northM: 400 }, 40)).toBe(frame);
    const far = { eastM: 3000, northM: 400 };
    expect(mapX(showing(frame, far, 40), far.eastM)).toBeCloseTo(760, 6);
  });

  it("pans with the hand and stops at the extent", () => {
    const extent = { westM: -100, eastM: 100, southM: -100, northM: 100 };
    const frame = fitted(extent, 400, 400, 0);
    const moved = pannedMap(frame, 20, -10, extent);
    expect(mapX(moved, 0) - mapX(frame, 0)).toBeCloseTo(20, 9);
    expect(mapY(moved, 0) - mapY(frame, 0)).toBeCloseTo(-10, 9);
    expect(pannedMap(frame, 1e6, 0, extent).eastM).toBe(-100);
  });

  it("has a scale bar of 1, 2 or 5 that fits", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.003, max: 8, noNaN: true }), (pxPerM) => {
        const { metres, px } = scaleBar(pxPerM, 150);
        expect(px).toBeLessThanOrEqual(150 + 1e-6);
        expect(px).toBeGreaterThan(150 / 2.5 - 1e-6);
        expect(["1", "2", "5"]).toContain(metres.toPrecision(1)[0]);
      }),
    );
  });
});

describe("labels", () => {
  const wishes = fc.array(
    fc.record({
      x: fc.integer({ min: -50, max: 850 }),
      y: fc.integer({ min: -50, max: 650 }),
      widthPx: fc.integer({ min: 20, max: 160 }),
      heightPx: fc.integer({ min: 12, max: 60 }),
      rank: fc.integer({ min: 0, max: 5 }),
    }),
    { maxLength: 40 },
  );

  it("never lie over one another nor beyond the map", () => {
    fc.assert(
      fc.property(wishes, (list) => {
        const all = list.map((one, k): LabelWish => ({ ...one, key: String(k), radiusPx: 5 }));
        const laid = layLabels(all, 800, 600).map(({ key, left, top }) => {
          const { widthPx, heightPx } = all[Number(key)]!;
          return { left, top, right: left + widthPx, bottom: top + heightPx };
        });
        laid.forEach((a, i) => {
          expect(a.left >= 0 && a.top >= 0 && a.right <= 800 && a.bottom <= 600).toBe(true);
          for (const b of laid.slice(i + 1))
            // Names side by side keep a gap of a letter: without it two of them read as one.
            expect(a.left < b.right + 6 && b.left < a.right + 6 && a.top < b.bottom && b.top < a.bottom).toBe(
              false,
            );
        });
      }),
    );
  });

  it("leave free what is kept for the map's own signs", () => {
    const one = { key: "a", x: 60, y: 550, radiusPx: 5, widthPx: 80, heightPx: 15, rank: 1 };
    const kept = { left: 0, right: 230, top: 500, bottom: 560 };
    const lies = ({ left, top }: { readonly left: number; readonly top: number }): boolean =>
      left < kept.right && left + 80 > kept.left && top < kept.bottom && top + 15 > kept.top;
    expect(layLabels([one], 800, 600).some(lies)).toBe(true);
    expect(layLabels([one], 800, 600, [kept]).some(lies)).toBe(false);
  });

  it("give way to higher ranks, and the chosen one is always laid", () => {
    const at = { x: 100, y: 100, radiusPx: 5, widthPx: 300, heightPx: 190 };
    const keys = (ranks: readonly number[]): string[] =>
      layLabels(
        ranks.map((rank, k) => ({ ...at, key: String(k), rank })),
        420,
        200,
      ).map((one) => one.key);
    expect(keys([1, 2])).toEqual(["1"]);
    expect(keys([2, Infinity])).toContain("1");
    expect(keys([Infinity, Infinity])).toHaveLength(2);
  });
});

describe("somebody afoot", () => {
  const legs = [
    { kind: "task", fromPlace: "a", toPlace: "a", startS: 0, endS: 100, course: [0, 0, 0] },
    {
      kind: "traverse",
      fromPlace: "a",
      toPlace: "b",
      startS: 100,
      endS: 200,
      course: [0, 0, 100, 60, 0, 160, 60, 40, 200],
    },
    { kind: "wait", fromPlace: "b", toPlace: "b", startS: 200, endS: 230, course: [60, 40, 200] },
    {
      kind: "task",
      fromPlace: "b",
      toPlace: "c",
      startS: 230,
      endS: 330,
      course: [60, 40, 230, 160, 40, 330],
    },
  ];

  it("is where the course has them, corner by corner", () => {
    expect(afootAt(legs, 50)).toMatchObject({ eastM: 0, northM: 0 });
    expect(afootAt(legs, 130)).toMatchObject({ eastM: 30, northM: 0 });
    expect(afootAt(legs, 180)).toMatchObject({ eastM: 60, northM: 20 });
    expect(afootAt(legs, 200)!.leg.kind).toBe("wait");
    expect(afootAt(legs, 280)).toMatchObject({ eastM: 110, northM: 40 });
    expect(afootAt(legs, 331)).toBeNull();
    expect(pointOn(legs[1]!.course, 1e6)).toEqual({ eastM: 60, northM: 40 });
  });

  it("passes whole minutes on the ways only", () => {
    expect(passedAt(legs, 60).map((one) => one.atS)).toEqual([120, 180, 240, 300]);
  });

  it("stays at places between walks, stays of one place joined", () => {
    expect(visitsOf(legs)).toEqual([
      { place: "a", startS: 0, endS: 100 },
      { place: "b", startS: 200, endS: 330 },
      { place: "c", startS: 330, endS: 330 },
    ]);
  });

  it("walks to the left of the way, by so many metres", () => {
    expect([...beside([0, 0, 0, 10, 0, 5], 2)]).toEqual([0, 2, 10, 2]);
    expect([...beside([0, 0, 0, 0, 10, 5], 2)]).toEqual([-2, 0, -2, 10]);
  });
});
