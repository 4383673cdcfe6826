import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { duration } from "../../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../../src/plan/index.ts";
import { packRun } from "../../../src/solver/index.ts";
import { Chuffed } from "./chuffed.ts";
import { groupedPlan, mixedPlan } from "./mixedPlan.ts";
import { optimumOf } from "./model.ts";

/** When the reference solver is taken to hang, ms. */
const LIMIT_MS = 1_200_000;

/** Maker, judge and a constraint solver that knows neither, on the same small days: three ways to one number. */

const ITERATIONS = 6000;
const plans = Array.from({ length: 20 }, (_, k) => mixedPlan(k + 1));
const chuffed = new Chuffed();

function packed(plan: Plan, iterations = ITERATIONS, from?: Schedule): Schedule {
  const run = packRun(plan, { seed: 1, iterations, clock: () => 0, from });
  while (run.step(1)) continue;
  return run.best();
}

function judged(plan: Plan, schedule: Schedule) {
  const { score, findings } = check(plan, schedule);
  const breaches = findings.filter(({ level }) => level === "breach").map(({ sentence }) => sentence);
  return { breaches, mustLeftOut: score.mustLeftOut, worth: score.worth };
}

/** A mixed plan of two EVAs with less duty than both may take. */
function shortOfDuty(seed: number): Plan {
  const plan = mixedPlan(seed);
  const stayS = duration(7000 + ((seed * 997) % 5000));
  return {
    ...plan,
    title: `${plan.title}, short of duty`,
    rules: { ...plan.rules, duty: { ...plan.rules.duty, stayS } },
  };
}

describe("the proved optimum", () => {
  it.each(plans)("is what packing reaches and the judge accepts: $title", async (plan) => {
    const { mustLeftOut, worth, schedule } = await optimumOf(plan, chuffed, LIMIT_MS);
    const optimum = { breaches: [], mustLeftOut, worth };
    expect(judged(plan, schedule), "the reference's own schedule").toEqual(optimum);
    expect(judged(plan, packed(plan)), "the packed schedule").toEqual(optimum);
  });

  it.each(Array.from({ length: 12 }, (_, k) => groupedPlan(k + 1)))(
    "is reached where so many of a group are wanted, or each further one for less: $title",
    async (plan) => {
      const { mustLeftOut, worth, schedule } = await optimumOf(plan, chuffed, LIMIT_MS);
      const optimum = { breaches: [], mustLeftOut, worth };
      expect(judged(plan, schedule), "the reference's own schedule").toEqual(optimum);
      expect(judged(plan, packed(plan)), "the packed schedule").toEqual(optimum);
    },
  );

  it.each([mixedPlan(53), mixedPlan(93), ...[22, 51, 53, 77, 144].map(shortOfDuty)])(
    "is reached where duty is short, and held where packing is given it: $title",
    async (plan) => {
      // The best day may have to go out later than it could.
      const { mustLeftOut, worth, schedule } = await optimumOf(plan, chuffed, LIMIT_MS);
      const optimum = { breaches: [], mustLeftOut, worth };
      expect(judged(plan, schedule)).toEqual(optimum);
      expect(judged(plan, packed(plan, 100, schedule))).toEqual(optimum);
      expect(judged(plan, packed(plan))).toEqual(optimum);
    },
  );

  it("is asked of plans that have a little of everything, and a list longer than the day", () => {
    const tasks = plans.flatMap((plan) => plan.tasks);
    const links = plans.flatMap((plan) => plan.links);
    const lags = links.flatMap((link) => (link.type === "lag" ? [link] : []));
    const counts = {
      twoEvas: plans.filter((plan) => plan.evas.length === 2).length,
      twoPerson: tasks.filter((task) => task.crew.count === 2).length,
      remote: tasks.filter((task) => task.crew.count === 0).length,
      must: tasks.filter((task) => task.must).length,
      windows: tasks.filter((task) => task.windows.length > 0).length,
      relay: tasks.filter((task) => task.relay).length,
      carries: tasks.filter((task) => task.endPlace !== undefined).length,
      pins: tasks.filter((task) => task.pin).length,
      tools: tasks.filter((task) => task.equipment.length > 0).length,
      samples: tasks.filter((task) => task.sample).length,
      least: lags.filter((link) => link.leastS !== undefined).length,
      greatest: lags.filter((link) => link.greatestS !== undefined).length,
      needs: lags.filter((link) => link.needs !== "none").length,
      same: links.filter((link) => link.type === "crew" && link.crew === "same").length,
      different: links.filter((link) => link.type === "crew" && link.crew === "different").length,
      eva: links.filter((link) => link.type === "eva").length,
      apart: links.filter((link) => link.type === "apart").length,
      blocks: plans.filter((plan) => plan.stay.blocks.length > 0).length,
    };
    for (const [feature, count] of Object.entries(counts)) expect(count, feature).toBeGreaterThanOrEqual(2);
    for (const plan of plans) {
      expect(plan.tasks.length).toBeGreaterThanOrEqual(6);
      expect(plan.tasks.length).toBeLessThanOrEqual(10);
    }
  });
});
