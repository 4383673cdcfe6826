import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { at, eva, task, tinyPlan } from "./tinyPlan.ts";

describe("the walk-back over time", () => {
  test("has a point for every place gone through on a way of several hops", () => {
    // A pit on the line from the lander to a and b leaves only the way by c: 400 m and hypot(600, 400) = 721.1 m at 1 m/s.
    const shape = { type: "disc", eastM: 150, northM: 0, radiusM: 30 } as const;
    const plan = tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
      tasks: [task("work", "b")],
      placements: [at("work", 2000)],
      site: { keepOuts: [{ id: "pit", name: "pit", kind: "walking", shape }] },
    });
    const [track] = check(plan).reach;
    // Out at 2000 - 1122 by c 400 s later to b, back from 2600 by c at 3322; home is 400 s from c and 1122 s from b.
    expect(track!.points.map(({ atS, value }) => [Number(atS), value])).toEqual([
      [878, 0],
      [1278, 400],
      [2000, 1122],
      [2600, 1122],
      [3322, 400],
      [3722, 0],
    ]);
  });
});
