import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant, type Interval } from "../../src/kernel/index.ts";
import type { Placement, Plan, Schedule } from "../../src/plan/index.ts";
import { fitBands, packRun } from "../../src/solver/index.ts";
import { randomPlan } from "../properties/randomPlan.ts";
import { minutePlan } from "./minutePlan.ts";

/** Fit bands against trying every start, the judge being asked each time. */

function packed(plan: Plan, seed: number, iterations: number): Schedule {
  const run = packRun(plan, { seed, iterations, clock: () => 0 });
  while (run.step(1)) continue;
  return run.best();
}

function covers(band: readonly Interval[], startS: number): boolean {
  return band.some((one) => startS >= one.startS && startS < one.endS);
}

/** Starts as runs `from..to`, so that a difference is read at a glance. */
function runs(starts: readonly number[], stepS: number): string {
  const list: string[] = [];
  let from = starts[0];
  starts.forEach((startS, k) => {
    if (starts[k + 1] === startS + stepS) return;
    list.push(`${from}..${startS}`);
    from = starts[k + 1];
  });
  return list.join(" ");
}

/** Compares `fixed` of every band of the first tasks with the judge at every `stepS`; gives how many starts fit. */
function compareFixed(plan: Plan, seed: number, stepS: number, tasks: number): number {
  const judge = judgeFor(plan);
  const schedule = packed(plan, seed, 4);
  let fitting = 0;
  for (const { id } of plan.tasks.slice(0, tasks)) {
    const others = schedule.placements.filter((one) => one.task !== id);
    if (judge({ placements: others }).score.breaches > 0) continue;
    for (const { eva, crew, fixed } of fitBands(plan, schedule, id)) {
      const told: number[] = [];
      const judged: number[] = [];
      for (let startS = 0; startS <= plan.stay.lengthS; startS += stepS) {
        const held = { task: id, eva, crew: [...crew], startS: instant(startS) };
        if (judge({ placements: [...others, held] }).score.breaches === 0) judged.push(startS);
        if (covers(fixed, startS)) told.push(startS);
      }
      expect(runs(told, stepS), `seed ${seed}, ${id} by ${crew.join(", ")}`).toBe(runs(judged, stepS));
      fitting += judged.length;
    }
  }
  return fitting;
}

describe("fixed bands", () => {
  it("are right for every second of a short day, with rests, separation and budgets that bind", () => {
    let fitting = 0;
    for (let seed = 1; seed <= 14; seed += 1)
      fitting += compareFixed(minutePlan(seed, { gridS: 120, tasks: 5, steps: 20, rules: true }), seed, 1, 2);
    expect(fitting).toBeGreaterThan(3000);
  });

  it("are right for every minute of a whole day with every kind of rule", () => {
    let fitting = 0;
    for (let seed = 1; seed <= 24; seed += 1) {
      const shape = {
        tasks: 6,
        crew: 1 + (seed % 3),
        evas: 1 + (seed % 2),
        places: 4,
        features: (seed % 4) / 3,
      };
      fitting += compareFixed(randomPlan(40_000 + seed, shape), seed, 60, 2);
    }
    expect(fitting).toBeGreaterThan(300);
  });
});

const GRID_S = 60;

/** Starts of `held` on the grid for which the others find starts too, in their order, by trying them all. */
function slidingStarts(plan: Plan, others: readonly Placement[], held: Omit<Placement, "startS">): number[] {
  const judge = judgeFor(plan);
  const grid = Array.from({ length: 1 + plan.stay.lengthS / GRID_S }, (_, k) => instant(k * GRID_S));
  const alone = judgeFor({ ...plan, links: [] });
  const possible = (one: Omit<Placement, "startS">) =>
    grid.filter((startS) => alone({ placements: [{ ...one, startS }] }).score.breaches === 0);
  const choices = others.map(possible);
  const toolsOf = (one: Omit<Placement, "startS">): readonly string[] =>
    plan.tasks.find(({ id }) => id === one.task)!.equipment.map(({ equipment }) => equipment);
  const share = (a: Placement, b: Placement): boolean =>
    a.crew.some((id) => b.crew.includes(id)) || toolsOf(a).some((tool) => toolsOf(b).includes(tool));
  const found = (startS: Placement["startS"]): boolean => {
    const chosen: Placement[] = [];
    const descend = (k: number): boolean => {
      if (k === others.length)
        return judge({ placements: [...chosen, { ...held, startS }] }).score.breaches === 0;
      return choices[k]!.some((at) => {
        const one = { ...others[k]!, startS: at };
        // In their order: who shares crew or a tool keeps coming before or after.
        const kept = chosen.every(
          (other, j) => !share(one, other) || others[j]!.startS < others[k]!.startS === other.startS < at,
        );
        if (!kept) return false;
        chosen.push(one);
        const holds = descend(k + 1);
        chosen.pop();
        return holds;
      });
    };
    return descend(0);
  };
  return possible(held).filter(found);
}

describe("sliding bands", () => {
  it("are right for every step of a short day whose others are tried at all their starts", () => {
    let more = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const plan = minutePlan(1000 + seed, { gridS: GRID_S, tasks: 4, steps: 16, rules: false });
      const judge = judgeFor(plan);
      const schedule = packed(plan, seed, 4);
      const id = plan.tasks[0]!.id;
      const others = schedule.placements.filter((one) => one.task !== id);
      if (judge({ placements: others }).score.breaches > 0) continue;
      for (const { eva, crew, fixed, sliding } of fitBands(plan, schedule, id)) {
        const tried = slidingStarts(plan, others, { task: id, eva, crew: [...crew] });
        const told = Array.from({ length: 17 }, (_, k) => k * GRID_S).filter((at) => covers(sliding, at));
        expect.soft(runs(told, GRID_S), `seed ${seed} by ${crew.join(", ")}`).toBe(runs(tried, GRID_S));
        more += told.filter((at) => !covers(fixed, at)).length;
      }
    }
    expect(more).toBeGreaterThan(30);
  });
});
