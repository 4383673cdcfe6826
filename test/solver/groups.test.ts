import { describe, expect, it } from "vitest";
import type { TriedRelaxation, WhyReport } from "../../src/answers/index.ts";
import { check } from "../../src/check/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { benchReasons, greedy, packRun, whyRun } from "../../src/solver/index.ts";
import { mend } from "./mended.ts";
import { oddsRun } from "../../src/solver/simulate/index.ts";
import { randomPlan } from "../properties/randomPlan.ts";
import { at, eva, task, tinyPlan, type TinyParts } from "../check/tinyPlan.ts";

/** Flat site: 1 m/s, lander to a 300 s, airlock work 600 s at both ends, tasks of 600 s at a unless said otherwise. */

interface Wanted {
  readonly least?: number;
  readonly most?: number;
  readonly shares?: number[];
}

/** Trenches of 50, 90 and 33 points and a survey of 40, all at a, for one crew member on an EVA of at most `longestS`. */
function day(group: Wanted, longestS: number, more: TinyParts = {}): Plan {
  return tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"], longestS })],
    tasks: [
      ...[50, 90, 33].map((worth, i) => task(`t${i}`, "a", { worth })),
      task("survey", "a", { worth: 40 }),
    ],
    ...more,
    more: {
      groups: [{ id: "trenches", name: "Trenches", tasks: ["t0", "t1", "t2"], ...group }],
      ...more.more,
    },
  });
}

/** As long as an EVA with so many tasks at a takes: 600 + 300 + n 600 + 300 + 600 s. */
const roomFor = (tasks: number): number => 1800 + 600 * tasks;

function packed(plan: Plan, from?: Schedule) {
  const run = packRun(plan, { seed: 1, iterations: 300, proveSeconds: 1, clock: () => 0, from });
  while (run.step(1)) continue;
  return { schedule: run.best(), ...run.progress() };
}

const tasksOf = ({ placements }: Schedule): string[] => placements.map((one) => one.task).sort();

describe("at most so many of a group", () => {
  it("packs the worthiest of them and other work beside, and proves that no day is worth more", () => {
    const plan = day({ most: 2 }, roomFor(4));
    const { schedule, stopped, bound } = packed(plan);
    expect(tasksOf(schedule)).toEqual(["survey", "t0", "t1"]);
    expect(check(plan, schedule).score).toMatchObject({ breaches: 0, worth: 180 });
    expect({ stopped, bound }).toEqual({ stopped: "proved", bound: 180 });
    expect(tasksOf(greedy(plan))).toEqual(["survey", "t0", "t1"]);
  });

  it("lets one of a full group go for another of it that is worth more", () => {
    const plan = day({ most: 1 }, roomFor(4), { placements: [at("t2", 900)] });
    const { schedule } = packed(plan, plan.schedule);
    expect(tasksOf(schedule)).toEqual(["survey", "t1"]);
  });

  it("begins with a day that has too many, and keeps the worthiest of them", () => {
    const plan = day({ most: 2 }, roomFor(4), {
      placements: ["t0", "t1", "t2"].map((id, k) => at(id, 900 + 600 * k)),
    });
    const { schedule } = packed(plan, plan.schedule);
    expect(tasksOf(schedule)).toEqual(["survey", "t0", "t1"]);
    expect(check(plan, schedule).score.breaches).toBe(0);
  });

  it("mends a day that has too many by dropping the one that is worth least", () => {
    const plan = day({ most: 2 }, roomFor(4), {
      placements: ["t0", "t1", "t2"].map((id, k) => at(id, 900 + 600 * k)),
    });
    const made = mend(plan, plan.schedule, { seed: 1, clock: () => 0, iterations: 4 });
    expect(tasksOf(made.schedule)).toEqual(["t0", "t1"]);
  });

  it("says on the bench that the group is full, and by what", () => {
    const plan = day({ most: 1 }, roomFor(4), { placements: [at("t1", 900)] });
    const reasons = new Map(benchReasons(plan, plan.schedule).map((one) => [one.task, one.sentence]));
    expect(reasons.get("t0")).toBe("Of Trenches at most 1 may be done, and there is already t1.");
    expect(reasons.get("survey")).toBe("It fits as things stand.");
  });

  it("explains why one more is not there, and offers one more and the ones it could go on for", () => {
    const plan = day({ most: 1 }, roomFor(4), { placements: [at("t2", 900)] });
    const run = whyRun(plan, plan.schedule, "t0", { seed: 1, clock: () => 0, iterations: 6 });
    while (run.step(1)) continue;
    const report: WhyReport<TriedRelaxation> = run.report();
    expect(report.conflict?.causes.map((one) => one.sentence)).toEqual([
      "Of Trenches at most 1 may be done.",
      "t2 stays on eva-1 with EV1 (10 min).",
    ]);
    expect(report.conflict).toMatchObject({ certainty: "proved", minimal: true });
    expect(report.relaxations.map((one) => [one.kind, one.sentence, one.cost.worthLost])).toEqual([
      ["group", "Of Trenches 2 may be done instead of 1.", 0],
      ["exchange", "t2 goes to the bench: worth 33 lost.", 33],
    ]);
  });
});

describe("at least so many of a group", () => {
  it("is packed before optional work of more worth", () => {
    // One fits: a trench of 33 points at the least, though the survey is worth 400.
    const plan = day({ least: 1 }, roomFor(1), {
      tasks: [
        ...[5, 9, 3].map((worth, i) => task(`t${i}`, "a", { worth })),
        task("survey", "a", { worth: 400 }),
      ],
    });
    const { schedule, mustPlaced, mustTotal } = packed(plan);
    expect(tasksOf(schedule)).toEqual(["t1"]);
    expect({ mustPlaced, mustTotal }).toEqual({ mustPlaced: 1, mustTotal: 1 });
    expect(tasksOf(greedy(plan))).toEqual(["t1"]);
  });

  it("is looked for where all that is there has to go for it", () => {
    // The survey at c takes the EVA; of two trenches one must be.
    const plan = day({ least: 2 }, roomFor(2), {
      tasks: [
        ...[5, 9, 3].map((worth, i) => task(`t${i}`, "a", { worth })),
        task("survey", "c", { worth: 400 }),
      ],
      placements: [at("survey", 1000)],
    });
    expect(tasksOf(packed(plan, plan.schedule).schedule)).toEqual(["t0", "t1"]);
  });

  it("counts in the chance of every must-do done: never where too few are planned", () => {
    const chance = (placements: ReturnType<typeof at>[]): number => {
      const plan = day({ least: 2 }, roomFor(4), { placements });
      const run = oddsRun(plan, plan.schedule, { days: 40, seed: 1, shape: "pert", clock: () => 0 });
      while (run.step(1)) continue;
      return run.report().must.share;
    };
    expect(chance([at("t0", 900)])).toBe(0);
    expect(chance([at("t0", 900), at("t1", 1500)])).toBe(1);
  });
});

describe("each further one of a group for less", () => {
  it("packs other work once one more counts too little", () => {
    // Two fit. t1 90 and t0 50 of 50 % are 115, t1 and the survey 130.
    const plan = day({ shares: [100, 50] }, roomFor(2));
    const { schedule, worth, stopped, bound } = packed(plan);
    expect(tasksOf(schedule)).toEqual(["survey", "t1"]);
    expect({ worth, stopped, bound }).toEqual({ worth: 130, stopped: "proved", bound: 130 });
    expect(check(plan, schedule).score.worth).toBe(130);
    // With 90 % the trench is worth 45.
    expect(packed(day({ shares: [100, 90] }, roomFor(2))).worth).toBe(135);
  });

  it("counts on a simulated day what was done, the most worth first", () => {
    const plan = day({ shares: [100, 50] }, roomFor(4), {
      placements: [at("t0", 900), at("t1", 1500), at("survey", 2100)],
    });
    const run = oddsRun(plan, plan.schedule, { days: 40, seed: 1, shape: "pert", clock: () => 0 });
    while (run.step(1)) continue;
    // 90 + 25 + 40, without any spread.
    expect(run.report().worth).toMatchObject({ planned: 155, mean: 155 });
  });

  it("says of a task that is missed what the day counts less, not the worth that it has alone", () => {
    // t1 counts whole and t0 half; without t1 t0 counts whole: 115 and 90 with the survey. t1 costs 65 on the days on which it fails.
    const plan = day({ shares: [100, 50] }, roomFor(4), {
      placements: [at("t0", 900), at("t1", 1500), at("survey", 2100)],
      tasks: [
        task("t0", "a", { worth: 50 }),
        task("t1", "a", { worth: 90, mishap: { what: "jams", chance: 0.5, spoils: true } }),
        task("t2", "a", { worth: 33 }),
        task("survey", "a", { worth: 40 }),
      ],
    });
    const run = oddsRun(plan, plan.schedule, { days: 400, seed: 1, shape: "pert", clock: () => 0 });
    while (run.step(1)) continue;
    const { spoils, worth } = run.report();
    expect(spoils.map(({ task: id }) => id)).toEqual(["t1"]);
    expect(spoils[0]!.missed.count).toBeGreaterThan(100);
    expect(spoils[0]!.costs).toBeCloseTo((65 * spoils[0]!.missed.count) / 400, 9);
    // It is all that is missed, so it is all that is missing.
    expect(spoils[0]!.costs).toBeCloseTo(155 - worth.mean, 9);
  });
});

it("a group that asks for nothing changes no schedule", () => {
  for (let seed = 1; seed <= 12; seed += 1) {
    const plan = {
      ...randomPlan(seed, { tasks: 9, crew: 2, evas: 2, places: 5, features: 0.4 }),
      groups: [],
    };
    const ids = plan.tasks.map(({ id }) => id);
    const idle = [{ id: "all", name: "all", tasks: ids, least: 0, most: ids.length, shares: [100] }];
    const pack = (of: Plan) => {
      const run = packRun(of, { seed, iterations: 60, clock: () => 0 });
      while (run.step(1)) continue;
      return run.best();
    };
    expect(pack({ ...plan, groups: idle })).toEqual(pack(plan));
  }
});
