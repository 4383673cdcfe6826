import { expect, test } from "vitest";
import { pointsAt } from "../../src/check/index.ts";
import { at, eva, task, tinyPlan } from "./tinyPlan.ts";

// EV1 leaves the lander at 1700, is at a (300 m east) from 2000 to 3000 and walks on to b (600 m) at 1 m/s.
const plan = tinyPlan({
  evas: [eva("eva-1", { crew: ["ev1"] })],
  tasks: [task("one", "a", { duration: { likelyS: 1000 } }), task("two", "b")],
  placements: [at("one", 2000), at("two", 5000)],
});
const eastAt = (atS: number): number[] =>
  pointsAt(plan, plan.schedule, "eva-1", "ev1", atS).map(({ eastM }) => eastM);

test("somebody is in one point while a stretch lasts, and in both stretches' where one ends and another begins", () => {
  expect(eastAt(2500)).toEqual([300]);
  expect(eastAt(3150)).toEqual([450]);
  expect(eastAt(3000)).toEqual([300, 300]);
  expect(pointsAt(plan, plan.schedule, "eva-1", "ev1", 3000).map((one) => one.task)).toEqual(["one", null]);
});
