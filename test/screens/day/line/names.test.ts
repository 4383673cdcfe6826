import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  clash,
  HALF_TEXT_PX,
  type NameToPlace,
  type PlacedName,
  placeNames,
  placeNamesBetter,
  type Sky,
} from "../../../../src/screens/day/line/names/place.ts";

const WIDTH_PX = 600;

/** A day of blocks beside each other with ways between, on one lane or, where `both`, on two. */
const day = fc
  .record({
    blocks: fc.array(
      fc.record({
        gap: fc.integer({ min: 0, max: 30 }),
        wide: fc.integer({ min: 6, max: 80 }),
        away: fc.integer({ min: 0, max: 70 }),
        text: fc.integer({ min: 20, max: 170 }),
        worth: fc.integer({ min: 0, max: 100 }),
      }),
      { minLength: 1, maxLength: 16 },
    ),
    thick: fc.integer({ min: 28, max: 60 }),
    ceiling: fc.integer({ min: 90, max: 160 }),
    both: fc.boolean(),
    box: fc.record({ x: fc.integer({ min: 0, max: 500 }), out: fc.integer({ min: 60, max: 150 }) }),
  })
  .map(({ blocks, thick, ceiling, both, box }) => {
    const ribbon = new Float32Array(WIDTH_PX + 1);
    let x = 4;
    const asks: NameToPlace[] = [];
    for (const [i, { gap, wide, away, text, worth }] of blocks.entries()) {
      const from = x + gap;
      const to = from + wide;
      if (to > WIDTH_PX) break;
      for (let column = from; column <= to; column += 1) ribbon[column] = away + thick;
      x = to;
      const on = (both ? ["up", "down"] : ["up"]).map((lane) => ({ lane, from, to }));
      asks.push({ key: `${i}`, widthPx: text, worth, on });
    }
    const rows: number[] = [];
    for (let out = thick + 12; out < 200; out += 15) rows.push(out);
    const skies = ["up", "down"].map((lane): Sky => ({
      lane,
      ribbon,
      ceiling: new Float32Array(WIDTH_PX + 1).fill(ceiling),
      rows,
      taken: [{ x0: box.x, x1: box.x + 90, out0: box.out, out1: box.out + 14 }],
      left: 2,
      right: WIDTH_PX - 2,
    }));
    return { asks, skies };
  });

/** What may never be, in words; empty where all is well. */
function faults(placed: readonly PlacedName[], skies: readonly Sky[]): readonly string[] {
  const found: string[] = [];
  for (const [i, a] of placed.entries()) {
    const sky = skies.find(({ lane }) => lane === a.lane)!;
    if (a.x0 < sky.left || a.x1 > sky.right) found.push(`${a.key} leaves the lane`);
    for (let x = Math.ceil(a.x0); x <= a.x1; x += 1) {
      if (a.out - HALF_TEXT_PX < (sky.ribbon[x] ?? 0)) found.push(`${a.key} on the ribbon`);
      if (Math.abs((sky.ceiling[x] ?? Infinity) - a.out) < HALF_TEXT_PX)
        found.push(`${a.key} on the ceiling`);
    }
    for (const box of sky.taken)
      if (
        a.x0 < box.x1 &&
        a.x1 > box.x0 &&
        a.out + HALF_TEXT_PX > box.out0 &&
        a.out - HALF_TEXT_PX < box.out1
      )
        found.push(`${a.key} on a box`);
    for (const b of placed.slice(i + 1)) {
      if (a.lane !== b.lane) continue;
      const level = Math.abs(a.out - b.out) < 2 * HALF_TEXT_PX - 1;
      if (level && a.x0 < b.x1 && b.x0 < a.x1) found.push(`${a.key} on ${b.key}`);
      for (const [one, other] of [
        [a, b],
        [b, a],
      ] as const)
        if (one.hair > other.x0 && one.hair < other.x1 && other.out < one.out && other.out > one.foot)
          found.push(`hairline of ${one.key} through ${other.key}`);
      if (Math.abs(a.hair - b.hair) < 5) found.push(`hairlines of ${a.key} and ${b.key}`);
    }
  }
  return found;
}

function patiently(asks: readonly NameToPlace[], skies: readonly Sky[]): readonly PlacedName[] {
  const run = placeNamesBetter(asks, skies);
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
  }
}

/** Where a name stands, whatever it has cost to find that. */
function whereOf({ key, lane, x0, x1, out, hair }: PlacedName): unknown {
  return expect.objectContaining({ key, lane, x0, x1, out, hair });
}

describe("names in the free sky", () => {
  it("never lie on each other, on the ribbon, on the ceiling or on what stands there, and no hairline runs through one", () => {
    fc.assert(
      fc.property(day, ({ asks, skies }) => {
        const placed = placeNames(asks, skies);
        expect(faults(placed, skies)).toEqual([]);
        expect(new Set(placed.map(({ key }) => key)).size).toBe(placed.length);
        for (const one of placed) {
          const ask = asks.find(({ key }) => key === one.key)!;
          const block = ask.on.find(({ lane }) => lane === one.lane)!;
          expect(one.hair).toBeGreaterThanOrEqual(block.from);
          expect(one.hair).toBeLessThanOrEqual(block.to);
          expect(one.x1 - one.x0).toBeCloseTo(ask.widthPx);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("with patience are as many at least, as sound, and always the same", () => {
    fc.assert(
      fc.property(day, ({ asks, skies }) => {
        const placed = patiently(asks, skies);
        expect(faults(placed, skies)).toEqual([]);
        expect(placed.length).toBeGreaterThanOrEqual(placeNames(asks, skies).length);
        expect(patiently(asks, skies)).toEqual(placed);
      }),
      { numRuns: 10 },
    );
  });

  it("stay where they are while nothing about them changes, whatever comes and goes beside them", () => {
    fc.assert(
      fc.property(day, ({ asks, skies }) => {
        const had = patiently(asks, skies);
        const kept = placeNames(asks.slice(1), skies, had);
        expect(faults(kept, skies)).toEqual([]);
        // One that had none before may need a place of theirs; else nobody moves.
        if (had.length < asks.length) return;
        expect(placeNames(asks, skies, had)).toEqual(expect.arrayContaining(had.map(whereOf)));
        expect(kept).toEqual(
          expect.arrayContaining(had.filter(({ key }) => key !== asks[0]!.key).map(whereOf)),
        );
      }),
      { numRuns: 40 },
    );
  });

  it("do not stay where something stands by now", () => {
    fc.assert(
      fc.property(day, ({ asks, skies }) => {
        const had = placeNames(asks, skies);
        const taken = had.map(({ x0, x1, out }) => ({ x0, x1, out0: out - 7, out1: out + 7 }));
        const full = skies.map((sky) => ({ ...sky, taken: [...sky.taken, ...taken] }));
        expect(faults(placeNames(asks, full, had), full)).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  it("go by worth where not all have room", () => {
    const sky: Sky = {
      lane: "up",
      ribbon: new Float32Array(201).fill(40),
      ceiling: new Float32Array(201).fill(Infinity),
      rows: [55],
      taken: [],
      left: 0,
      right: 200,
    };
    const ask = (key: string, worth: number, from: number): NameToPlace => ({
      key,
      widthPx: 150,
      worth,
      on: [{ lane: "up", from, to: from + 20 }],
    });
    const placed = placeNames([ask("dear", 9, 120), ask("cheap", 1, 60)], [sky]);
    expect(placed.map(({ key }) => key)).toEqual(["dear"]);
  });

  it("make room for another where that one has a second place", () => {
    const sky: Sky = {
      lane: "up",
      ribbon: new Float32Array(301).fill(40),
      ceiling: new Float32Array(301).fill(Infinity),
      rows: [55],
      taken: [],
      left: 0,
      right: 300,
    };
    // Alone the first takes the place to its right, which is the only one the second has.
    const asks: NameToPlace[] = [
      { key: "first", widthPx: 140, worth: 9, on: [{ lane: "up", from: 140, to: 150 }] },
      { key: "second", widthPx: 140, worth: 1, on: [{ lane: "up", from: 155, to: 165 }] },
    ];
    const placed = placeNames(asks, [sky]);
    expect(placed.map(({ key }) => key).sort()).toEqual(["first", "second"]);
    expect(clash(placed[0]!, placed[1]!)).toBe(false);
  });
});
