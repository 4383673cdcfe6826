import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { benchReasons, fitBands, packRun, whyRun } from "../../src/solver/index.ts";
import { mend } from "./mended.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "../check/tinyPlan.ts";

/** Flat site: 1 m/s, lander to a 300 s, airlock work 600 s at both ends, tasks of 600 s. Egress is 900 s before the first task at a. */

function lone(parts: TinyParts): Plan {
  return tinyPlan({ evas: [eva("eva-1", { crew: ["ev1"] })], ...parts });
}

function packed(plan: Plan) {
  const run = packRun(plan, { seed: 1, iterations: 200, proveSeconds: 1, clock: () => 0 });
  while (run.step(1)) continue;
  const startOf = new Map(run.best().placements.map((one) => [one.task, one.startS as number]));
  return { startOf, score: check(plan, run.best()).score, stopped: run.progress().stopped };
}

describe("windows counted from egress", () => {
  it("are kept by waiting for them, and by what has to be soon coming first", () => {
    // Soon is over by 1500 s PET: 900 s to get there and 600 s of work, so it comes first. Late begins at 5000 s PET.
    const plan = lone({
      tasks: [
        task("late", "a", { worth: 5, pet: { startS: 5000 } }),
        task("soon", "a", { worth: 5, pet: { endS: 1500 } }),
        task("any", "a", { worth: 5 }),
      ],
    });
    const { startOf, score } = packed(plan);
    expect(score).toMatchObject({ breaches: 0, worth: 15 });
    const egressS = startOf.get("soon")! - 900;
    expect(startOf.get("late")).toBe(egressS + 5000);
  });

  it("make an EVA go out later, where a window by the clock asks for that", () => {
    // Fixed runs 6000 s to 6600 s MET and is over by 3000 s PET: egress at 3600 s at the soonest, the first task 900 s after it.
    const plan = lone({
      tasks: [
        task("fixed", "a", { worth: 5, windows: [{ startS: 6000, endS: 6600 }], pet: { endS: 3000 } }),
        task("first", "a", { worth: 5, windows: [{ startS: 0, endS: 5500 }] }),
      ],
    });
    const { startOf, score } = packed(plan);
    expect(score).toMatchObject({ breaches: 0, worth: 10 });
    expect(startOf.get("first")! - 900).toBeGreaterThanOrEqual(3600);
  });

  it("leave out what cannot lie inside both", () => {
    // Over by 1499 s PET: a second less than it takes to get there and do it.
    const plan = lone({ tasks: [task("soon", "a", { worth: 5, pet: { endS: 1499 } })] });
    expect(packed(plan).startOf.size).toBe(0);
  });

  it("bound where a task fits, to the second", () => {
    // First at 900 s: egress at 0 s. Held begins from 2000 s PET on and is over by 4000 s.
    const plan = lone({
      tasks: [task("first", "a"), task("held", "a", { pet: { startS: 2000, endS: 4000 } })],
      placements: [at("first", 900)],
    });
    const own = fitBands(plan, plan.schedule, "held").find(({ crew }) => crew.includes("ev1"));
    expect(own?.fixed.filter(({ startS }) => startS >= 900)).toEqual([{ startS: 2000, endS: 3401 }]);
  });

  it("are told where nothing else is in the way, and can be asked to open earlier", () => {
    // Liftoff-like end: ingress complete by 4000 s. Held begins at 3000 s PET at the soonest: done at 3600 s, in at 4500 s.
    const plan = lone({
      tasks: [task("first", "a", { worth: 9 }), task("held", "a", { worth: 1, pet: { startS: 3000 } })],
      placements: [at("first", 900)],
      evas: [eva("eva-1", { crew: ["ev1"], longestS: 4000 })],
    });
    expect(benchReasons(plan, plan.schedule)).toHaveLength(1);
    const run = whyRun(plan, plan.schedule, "held", { seed: 1, clock: () => 0, iterations: 6 });
    while (run.step(1)) continue;
    const { conflict, relaxations } = run.report();
    expect(conflict?.causes.map((one) => one.sentence)).toContain(
      "held lies not before 0:50 PET, counted from egress.",
    );
    // 3000 s to 2500 s: 500 s, so 9 min.
    expect(relaxations.find(({ kind }) => kind === "pet")).toMatchObject({
      steps: 9,
      sentence: "The window of held from egress opens 9 min earlier: 0:41 PET.",
    });
  });

  it("are mended where an egress has come later than the window was made for", () => {
    const plan = lone({
      tasks: [
        task("first", "a", { worth: 9 }),
        task("held", "a", { worth: 5, pet: { startS: 2000, endS: 2700 } }),
      ],
      placements: [at("first", 1500), at("held", 2200)],
    });
    expect(check(plan).score.breaches).toBe(1);
    const made = mend(plan, plan.schedule, { seed: 1, clock: () => 0, iterations: 4 });
    expect(check(plan, made.schedule).score).toMatchObject({ breaches: 0, worth: 14 });
  });
});
