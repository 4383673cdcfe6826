import { expect, test } from "vitest";
import { benchReasons, whyRun } from "../../../../src/solver/index.ts";
import { eva, task, tinyPlan } from "../../../check/tinyPlan.ts";

test("a task that is shorter than its own walk is refused in those words, and no search is promised to help", () => {
  // a to b are 300 m at 1 m/s.
  const plan = tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("carry", "a", { endPlace: "b", duration: { likelyS: 240 } })],
  });
  const none = { placements: [] };
  expect(benchReasons(plan, none)[0]!.sentence).toBe(
    "It walks 300 m, which takes 5 min as planned; it is given 4 min.",
  );
  const run = whyRun(plan, none, "carry", { seed: 1, iterations: 4, clock: () => 0 });
  while (run.step(1)) continue;
  const { conflict } = run.report();
  expect(JSON.stringify(conflict)).toContain(
    "No task is shorter than what is walked in it takes as planned.",
  );
});

test("a task that only a leg nobody can walk leads to says so", () => {
  const plan = tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("work", "b")],
    site: { legs: [{ from: "lander", to: "b", distanceM: 60, durationS: 600 }] },
  });
  expect(benchReasons(plan, { placements: [] })[0]!.sentence).toMatch(
    /^A leg on its way is given shorter or faster/,
  );
});
