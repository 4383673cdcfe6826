import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { at, eva, place, task, tinyPlan } from "./tinyPlan.ts";

describe("the walk-back over time", () => {
  test("has a point for every place gone through on a way of several hops", () => {
    // Pits on the lines from the lander to b and d, and from c to d, leave only the way by c and b to d: 400 m, hypot(600, 400) = 721.1 m
    // and 600 m at 1 m/s.
    const pit = (id: string, eastM: number, northM: number) => ({
      ...{ id, name: id, kind: "walking" as const },
      shape: { type: "disc" as const, eastM, northM, radiusM: 30 },
    });
    const plan = tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
      places: [place("lander", 0, 0), place("c", 0, 400), place("b", 600, 0), place("d", 1200, 0)],
      tasks: [task("work", "d")],
      placements: [at("work", 3000)],
      site: { keepOuts: [pit("near", 150, 0), pit("far", 600, 200)] },
    });
    const [track] = check(plan).reach;
    // Out at 3000 - 1722, by c 400 s later and b at 2400; back from 3600 by b at 4200 and c at 4922.
    expect(track!.points.map(({ atS, value }) => [Number(atS), value])).toEqual([
      [1278, 0],
      [1678, 400],
      [2400, 1122],
      [3000, 1722],
      [3600, 1722],
      [4200, 1122],
      [4922, 400],
      [5322, 0],
    ]);
  });
});
