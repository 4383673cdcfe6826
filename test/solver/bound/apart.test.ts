import { describe, expect, it } from "vitest";
import { packRun } from "../../../src/solver/index.ts";
import { eva, task, tinyPlan } from "../../check/tinyPlan.ts";

/** Place b is 600 m from the lander; two of a crew may be 300 m apart. Common practice, no source. */
function proved(tasks: Parameters<typeof task>[2][], greatestM: number) {
  const plan = tinyPlan({
    tasks: tasks.map((more, k) => task(`t${k}`, "b", { duration: { likelyS: 600 }, ...more })),
    evas: [eva("eva-1")],
    rules: { startGridS: 60, separation: { greatestM } },
  });
  const run = packRun(plan, { seed: 1, iterations: 60, proveSeconds: 5, clock: () => 0 });
  while (run.step(1)) continue;
  const { worth, bound } = run.progress();
  return { worth, bound };
}

describe("what staying together makes impossible", () => {
  it("is proved: nobody goes 600 m away alone where two may be 300 m apart, but both do together", () => {
    expect(proved([{ worth: 10 }], 300)).toEqual({ worth: 0, bound: 0 });
    expect(proved([{ worth: 10 }], 600)).toEqual({ worth: 10, bound: 10 });
    expect(proved([{ worth: 10, crew: { count: 2 } }], 300)).toEqual({ worth: 10, bound: 10 });
  });

  it("is not where the other can come along: one task each", () => {
    expect(proved([{ worth: 10 }, { worth: 5 }], 300)).toEqual({ worth: 15, bound: 15 });
  });
});
