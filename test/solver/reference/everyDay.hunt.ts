import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { duration, random } from "../../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../../src/plan/index.ts";
import type { PlanInput } from "../../../src/plan/plan.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { Day } from "../../../src/solver/network/day.ts";
import { packRun } from "../../../src/solver/index.ts";
import { loadSchedule, scheduleOf } from "../../../src/solver/network/placing.ts";
import { eva, place, task, tinyPlan } from "../../check/tinyPlan.ts";
import { bestOfAll } from "./everyDay.ts";

/** One day in steps of ten minutes. */
const GRID_S = 600;

/** Three or four tasks, one EVA of two, ways and times all multiples of ten minutes; oxygen and distance are short now and then. */
function gridPlan(seed: number): Plan {
  const stream = random(seed);
  const chance = (p: number): boolean => stream.next() < p;
  const whole = (low: number, high: number): number => low + stream.below(high - low + 1);
  const pick = <V>(list: readonly V[]): V => list[stream.below(list.length)]!;
  const ids = ["t1", "t2", "t3", ...(chance(0.5) ? ["t4"] : [])];
  const tasks = ids.map((id) => {
    const remote = chance(0.15);
    const lasts = whole(1, 3);
    const from = whole(0, 6);
    return task(id, remote ? null : pick(["lander", "a", "b", "c"]), {
      duration: { likelyS: lasts * GRID_S },
      crew: { count: remote ? 0 : chance(0.3) ? 2 : 1 },
      worth: whole(1, 20),
      must: chance(0.2),
      windows: chance(0.3) ? [{ startS: from * GRID_S, endS: (from + lasts + whole(0, 3)) * GRID_S }] : [],
      equipment: chance(0.4) ? [{ equipment: "drill" }] : [],
    });
  });
  const links = ["l1", "l2"].flatMap((id): NonNullable<PlanInput["links"]> => {
    const [a, b] = [pick(ids), pick(ids)];
    if (a === b || chance(0.3)) return [];
    if (chance(0.4)) return [{ id, type: "crew", tasks: [a, b], crew: pick(["same", "different"]) }];
    const leastS = whole(-2, 3) * GRID_S;
    return [
      {
        id,
        type: "lag",
        from: { task: a, end: pick(["start", "end"]) },
        to: { task: b, end: pick(["start", "end"]) },
        leastS,
        ...(chance(0.5) ? { greatestS: leastS + whole(0, 3) * GRID_S } : {}),
        needs: pick(["none", "from", "both"]),
      },
    ];
  });
  return tinyPlan({
    tasks,
    // All on one line, so that every way takes whole steps.
    places: [place("lander", 0, 0), place("a", 600, 0), place("b", 1200, 0), place("c", -600, 0)],
    evas: [eva("eva-1", { latestIngressS: whole(9, 14) * GRID_S, longestS: whole(7, 12) * GRID_S })],
    stay: { lengthS: 14 * GRID_S },
    suit: { oxygenKg: chance(0.5) ? 0.1 + 0.1 * stream.next() : 2 },
    rules: {
      walkback: { level: "warning" },
      distance: { evaM: chance(0.4) ? whole(2, 5) * 600 : 50_000 },
    },
    more: { links, equipment: [{ id: "drill", name: "drill", count: 1 }] },
  });
}

/** Two EVAs of one or two, tasks with windows that make them wait, and little duty or few stores for both together. */
function shortPlan(seed: number): Plan {
  const stream = random(seed);
  const chance = (p: number): boolean => stream.next() < p;
  const whole = (low: number, high: number): number => low + stream.below(high - low + 1);
  const pick = <V>(list: readonly V[]): V => list[stream.below(list.length)]!;
  const crew = chance(0.5) ? ["ev1", "ev2"] : ["ev1"];
  const tasks = ["t1", "t2", "t3", "t4"].map((id) => {
    // Early with room to be later, or late without.
    const dayStep = pick([0, 12]);
    const [from, steps] = chance(0.5) ? [whole(1, 3), whole(3, 7)] : [whole(7, 9), whole(1, 2)];
    const windows = [{ startS: (dayStep + from) * GRID_S, endS: (dayStep + from + steps) * GRID_S }];
    return task(id, pick(["lander", "a", "c"]), {
      duration: { likelyS: GRID_S },
      crew: { count: chance(0.3) ? crew.length : 1 },
      worth: whole(1, 20),
      windows,
    });
  });
  const byDuty = chance(0.4);
  return tinyPlan({
    tasks,
    places: [place("lander", 0, 0), place("a", 600, 0), place("c", -600, 0)],
    evas: [
      eva("eva-1", { crew, latestIngressS: 12 * GRID_S, longestS: 12 * GRID_S }),
      eva("eva-2", {
        crew,
        earliestEgressS: 12 * GRID_S,
        latestIngressS: 24 * GRID_S,
        longestS: 12 * GRID_S,
      }),
    ],
    stay: { lengthS: 24 * GRID_S },
    rules: {
      walkback: { level: "warning" },
      recharge: { leastS: 0 },
      duty: { stayS: byDuty ? whole(9, 15) * GRID_S : 24 * GRID_S },
    },
    more: { stores: { oxygenKg: byDuty ? 100 : crew.length * (0.05 + 0.06 * stream.next()) } },
  });
}

describe("the best of all days", () => {
  it("is what packing reaches, on days so small that all of them can be tried", () => {
    let benched = 0;
    for (let seed = 1; seed <= 16; seed += 1) {
      const plan = gridPlan(seed);
      const run = packRun(plan, { seed, iterations: 1500, clock: () => 0 });
      while (run.step(1)) continue;
      const { score } = check(plan, run.best());
      const best = bestOfAll(plan, GRID_S);
      expect({ seed, breaches: score.breaches, mustLeftOut: score.mustLeftOut, worth: score.worth }).toEqual({
        seed,
        breaches: 0,
        ...best,
      });
      benched += plan.tasks.length - run.best().placements.length;
    }
    // Days on which everything fits would prove little.
    expect(benched).toBeGreaterThan(8);
  });

  it("is reached where two EVAs together must be short, by going out no sooner than is needed", () => {
    const over = { duty: 0, "lander-stores": 0 };
    for (let seed = 1; seed <= 40; seed += 1) {
      const plan = shortPlan(seed);
      const run = packRun(plan, { seed, iterations: 600, clock: () => 0 });
      while (run.step(1)) continue;
      const { score } = check(plan, run.best());
      const best = bestOfAll(plan, GRID_S);
      expect({ seed, breaches: score.breaches, mustLeftOut: score.mustLeftOut, worth: score.worth }).toEqual({
        seed,
        breaches: 0,
        ...best,
      });
      // Everything in the order of the best day, each as soon as it can be, takes too long.
      const rules = soonest(plan, run.best());
      for (const rule of ["duty", "lander-stores"] as const) if (rules.includes(rule)) over[rule] += 1;
    }
    expect(over.duty).toBeGreaterThan(3);
    expect(over["lander-stores"]).toBeGreaterThan(3);
  });
});

/** Rules that break when the tasks of `schedule` start as soon as their order lets them, with duty and stores without limit. */
function soonest(plan: Plan, schedule: Schedule): string[] {
  const wide: Plan = {
    ...plan,
    rules: { ...plan.rules, duty: { ...plan.rules.duty, stayS: duration(86_400) } },
    stores: { ...plan.stores, oxygenKg: 100 },
  };
  const day = new Day(compile(wide));
  loadSchedule(day, schedule);
  const { findings } = check(plan, scheduleOf(day.board));
  return findings.filter(({ level }) => level === "breach").map(({ rule }) => rule);
}
