import { describe, expect, it } from "vitest";
import { cratersPerM2 } from "../../src/physics/index.ts";
import { heightAt, reliefOf } from "../../src/terrain/index.ts";
import { cratersOf, madeHeights, type Recipe } from "../../src/terrain/made.ts";

const recipe: Recipe = {
  seed: 11,
  westM: -1000,
  southM: -1000,
  cellM: 10,
  columns: 201,
  rows: 201,
  roughnessM: 4,
  hurst: 0.9,
  cratered: 0.05,
  steepness: 2,
  largestM: 400,
};

describe("made ground", () => {
  it("is the same for the same recipe and another for another seed", () => {
    expect(madeHeights(recipe)).toEqual(madeHeights({ ...recipe }));
    expect(madeHeights(recipe)).not.toEqual(madeHeights({ ...recipe, seed: 12 }));
  });

  it("has whole millimetres, pinned so that no machine or change makes other ground unnoticed", () => {
    const heights = madeHeights(recipe);
    expect(heights.every((one) => Math.round(one * 1000) / 1000 === one)).toBe(true);
    const sum = heights.reduce((total, one, at) => total + Math.round(one * 1000) * ((at % 97) + 1), 0);
    expect(sum).toMatchInlineSnapshot(`7044800927`);
  });

  it("has as many craters as the law of their sizes says, and with its slope", () => {
    const craters = cratersOf({ ...recipe, columns: 601, rows: 601, cratered: 0.2, cellM: 5 });
    const inside = craters.filter(
      ({ eastM, northM }) => eastM >= -1000 && eastM <= 2000 && northM >= -1000 && northM <= 2000,
    );
    const count = (leastM: number): number => inside.filter((one) => one.diameterM > leastM).length;
    for (const [leastM, topM] of [
      [15, 400],
      [30, 400],
      [60, 400],
    ] as const) {
      const expected = 9e6 * (cratersPerM2(leastM, 0.2, 2) - cratersPerM2(topM, 0.2, 2));
      // Four standard deviations of a count.
      expect(Math.abs(count(leastM) - expected)).toBeLessThan(4 * Math.sqrt(expected));
    }
    // Twice the diameter, a quarter of the craters: the cumulative slope is -2, up to the cut-off at 400 m.
    expect(count(15) / count(30)).toBeGreaterThan(3.7);
    expect(count(15) / count(30)).toBeLessThan(4.5);
  });

  it("puts the landforms where the planner wants them, and another ground has another key", () => {
    const level = { ...recipe, roughnessM: 0, cratered: 0 };
    const landforms: Recipe["landforms"] = [
      { type: "dome", eastM: -400, northM: 200, diameterM: 300, heightM: 25 },
      { type: "crater", eastM: 500, northM: -100, diameterM: 200, freshness: 1 },
    ];
    const ground = { type: "made" as const, ...level, landforms };
    const grid = reliefOf(ground);
    expect(heightAt(grid, -400, 200)).toBe(25);
    expect(heightAt(grid, -400, 360)).toBe(0);
    // Floor 0.2 D under the rim, rim 0.036 D over the ground: Pike 1974 as in physics/crater.ts.
    expect(heightAt(grid, 500, -100)).toBeCloseTo(200 * (0.036 - 0.2), 3);
    expect(heightAt(grid, 600, -100)).toBeCloseTo(200 * 0.036, 3);
    expect(grid.key).not.toBe(reliefOf({ type: "made", ...level }).key);
    expect(grid.key).not.toBe(reliefOf({ ...ground, landforms: landforms.slice(1) }).key);
  });

  it("digs the craters it says: floor under rim by the depth of its freshness", () => {
    let looked = 0;
    for (let seed = 1; seed <= 20; seed += 1) {
      // About five craters, so that most stand alone.
      const bare = {
        ...recipe,
        seed,
        roughnessM: 0,
        cratered: 0.0002,
        steepness: 1.5,
        cellM: 5,
        columns: 401,
        rows: 401,
      };
      const craters = cratersOf(bare);
      const grid = reliefOf({ ...bare, type: "made" });
      for (const one of craters) {
        const { eastM, northM, diameterM, freshness } = one;
        const isAlone = craters.every(
          (other) =>
            other === one ||
            Math.hypot(other.eastM - eastM, other.northM - northM) > 1.5 * (other.diameterM + diameterM),
        );
        if (!isAlone || diameterM < 60 || Math.max(Math.abs(eastM), Math.abs(northM)) > 850) continue;
        looked += 1;
        const depthM = heightAt(grid, eastM + diameterM / 2, northM) - heightAt(grid, eastM, northM);
        // Bilinear between points 5 m apart cuts the rim's edge and rounds the floor a little.
        expect(depthM / (0.2 * freshness * diameterM)).toBeGreaterThan(0.88);
        expect(depthM / (0.2 * freshness * diameterM)).toBeLessThan(1.01);
      }
    }
    expect(looked).toBeGreaterThan(3);
  });

  it("rolls with about the swing that was asked for", () => {
    const heights = madeHeights({ ...recipe, cratered: 0, roughnessM: 6 });
    const mean = heights.reduce((sum, one) => sum + one, 0) / heights.length;
    const swing = Math.sqrt(heights.reduce((sum, one) => sum + (one - mean) ** 2, 0) / heights.length);
    expect(swing).toBeGreaterThan(2);
    expect(swing).toBeLessThan(12);
  });

  it("reads stored heights from the north down, unknown ones as unknown", () => {
    const laid = { westM: 0, southM: 0, cellM: 10, columns: 3, rows: 2 };
    const grid = reliefOf({ type: "grid", ...laid, unit: "cm", heights: ["100 200 x", "0 -50 25"] });
    expect([...grid.heightM]).toEqual([0, -0.5, 0.25, 1, 2, NaN]);
    const same = reliefOf({ type: "grid", ...laid, unit: "cm", heights: ["100 200 x", "0 -50 25"] });
    expect(same).toBe(grid);
    const other = reliefOf({ type: "grid", ...laid, unit: "cm", heights: ["100 200 x", "0 -50 26"] });
    expect(other.key).not.toBe(grid.key);
  });
});
