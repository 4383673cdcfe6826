import { describe, expect, it } from "vitest";
import { parseText } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";
import { readyText } from "../readyplan.ts";

/** A polygon of so many corners about a point. */
function ring(id: string, corners: number, radiusM: number, middle = 0) {
  const points = Array.from({ length: corners }, (_, k) => ({
    eastM: Math.round(middle + radiusM * Math.cos((2 * Math.PI * k) / corners)),
    northM: Math.round(radiusM * Math.sin((2 * Math.PI * k) / corners)),
  }));
  return { id, name: id, kind: "walking", shape: { type: "polygon", points }, exemptTasks: [] };
}

/** The faults of the demo plan with these keep-outs, and what else it is given. */
function faultsOf(keepOuts: readonly object[], otherwise: (plan: PlanInput) => void = () => undefined) {
  const plan = JSON.parse(readyText("demo")) as PlanInput;
  plan.site.keepOuts = keepOuts as never;
  otherwise(plan);
  const read = parseText(JSON.stringify(plan));
  return read.ok ? [] : read.error.map(({ path, message }) => `${path}: ${message}`);
}
const many = (count: number, corners: number, radiusM = 5) =>
  Array.from({ length: count }, (_, k) => ring(`k${k}`, corners, radiusM, 20 * k));
const plain = (places: number) => (plan: PlanInput) => {
  delete plan.ground;
  const far = (k: number): number => ((k * 7919) % 1800) - 900;
  for (let k = plan.site.places.length; k < places; k += 1)
    plan.site.places.push({
      ...{ id: `x${k}`, name: `X${k}`, kind: "station", eastM: far(k), northM: far(k + 1) },
    });
};

describe("a site that is too much", () => {
  it("is refused by the length of its lists, before any of their entries is read", () => {
    expect(faultsOf(many(200, 500).concat(ring("one", 3, 5)))).toEqual([
      "site.keepOuts: 201 are too many: at most 200",
    ]);
    expect(faultsOf([ring("one", 501, 5)])).toEqual([
      "site.keepOuts.0.shape.points: 501 are too many: at most 500",
    ]);
    // A thousand of a thousand, none of whose corners is even a point.
    const senseless = { shape: { points: new Array(1000).fill(0) } };
    expect(faultsOf(new Array(1000).fill(senseless))).toEqual([
      "site.keepOuts: 1000 are too many: at most 200",
    ]);
    expect(faultsOf([], plain(1001))).toEqual(["site.places: 1001 are too many: at most 1000"]);
  });

  it("is read with as many as there may be", () => {
    expect(faultsOf(many(200, 500))).toEqual([]);
    expect(faultsOf([], plain(1000))).toEqual([]);
  });

  it("is refused by corners passed on all ways together: 100 places, 10,000 pairs, and 10,000 corners are just not", () => {
    expect(faultsOf(many(20, 500), plain(100))).toEqual([]);
    expect(faultsOf([...many(20, 500), ring("more", 3, 5)], plain(100))).toEqual([
      "site.keepOuts: 10003 corners of walking keep-outs among 100 places are too many: ways would take minutes",
    ]);
  });

  it("is refused by corners looked at from points of a height grid: 500 corners about 500,000 points are 250 million", () => {
    const wide = (plan: PlanInput): void => {
      plan.ground = {
        ...{ type: "made", westM: -500, southM: -500, cellM: 1, columns: 1000, rows: 1000, seed: 1 },
      };
    };
    // 707 by 707 points and one more each way: 501,264 times 500 are 250,632,000.
    expect(faultsOf([ring("wide", 500, 353.5)], wide)).toEqual([
      "site.keepOuts: walking keep-outs of 500 corners are too large for a height grid as fine as this: ways would take minutes",
    ]);
    expect(faultsOf([ring("less", 500, 350)], wide)).toEqual([]);
  });
});
