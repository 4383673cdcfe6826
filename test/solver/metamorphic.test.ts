import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { duration, instant } from "../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { minutePlan } from "./minutePlan.ts";
import { bestOfAll } from "./reference/everyDay.ts";

/** Laws that need no reference: what must not change, and what may only get better, when a plan is changed in a known way. */

const GRID_S = 600;
/** So many that a day of five tasks is at its optimum, which the tests in reference/ hold. */
const GENEROUS = 1200;

function tiny(seed: number, tasks = 5): Plan {
  return minutePlan(seed, { gridS: GRID_S, tasks, steps: 14, rules: false });
}

/** The plan with worths of its own, so that which tasks are left out counts. */
function valued(seed: number, tasks = 5): Plan {
  const plan = tiny(seed, tasks);
  return {
    ...plan,
    tasks: plan.tasks.map((task, i) => ({ ...task, worth: 3 + ((seed * 7 + i * 11) % 17) })),
  };
}

function packed(plan: Plan, iterations: number): Schedule {
  const run = packRun(plan, { seed: 5, iterations, clock: () => 0 });
  while (run.step(1)) continue;
  return run.best();
}

/** What packing reaches: must-do tasks left out, worth; no breach, as the judge sees it. */
function reached(plan: Plan): { mustLeftOut: number; worth: number } {
  const { score } = check(plan, packed(plan, GENEROUS));
  expect(score.breaches).toBe(0);
  return { mustLeftOut: score.mustLeftOut, worth: score.worth };
}

const anySeed = fc.integer({ min: 1, max: 1_000_000 });

describe("shifting all times by a constant", () => {
  it("shifts the packed day by it", () => {
    fc.assert(
      fc.property(anySeed, fc.integer({ min: 1, max: 200_000 }), (seed, byS) => {
        const plan = bounded(minutePlan(seed, { gridS: 240, tasks: 6, steps: 20, rules: true }));
        const before = packed(plan, 40).placements;
        const after = packed(shifted(plan, byS), 40).placements;
        expect(after).toEqual(before.map((one) => ({ ...one, startS: instant(one.startS + byS) })));
      }),
      { numRuns: 60, seed: 1, endOnFailure: true },
    );
  });
});

/** Work without crew is bound by the stay, whose begin cannot be shifted: it gets the stay as a window. */
function bounded(plan: Plan): Plan {
  const stay = { startS: instant(0), endS: instant(plan.stay.lengthS) };
  return {
    ...plan,
    tasks: plan.tasks.map((task) => (task.windows.length > 0 ? task : { ...task, windows: [stay] })),
  };
}

function shifted(plan: Plan, byS: number): Plan {
  const both = <Span extends { startS: number; endS: number }>(span: Span): Span => ({
    ...span,
    startS: instant(span.startS + byS),
    endS: instant(span.endS + byS),
  });
  return {
    ...plan,
    stay: {
      ...plan.stay,
      lengthS: duration(plan.stay.lengthS + byS),
      blocks: plan.stay.blocks.map(both),
    },
    evas: plan.evas.map((eva) => ({
      ...eva,
      earliestEgressS: instant(eva.earliestEgressS + byS),
      latestIngressS: instant(eva.latestIngressS + byS),
    })),
    tasks: plan.tasks.map((task) => ({ ...task, windows: task.windows.map(both) })),
  };
}

describe("the order of tasks, crew members, links and places in the file", () => {
  it("never changes the optimum", () => {
    let leftOut = 0;
    fc.assert(
      fc.property(anySeed, fc.infiniteStream(fc.nat(1000)), (seed, dice) => {
        const plan = valued(seed);
        const mixed = <Item>(list: readonly Item[]): Item[] =>
          list
            .map((item) => ({ item, at: dice.next().value as number }))
            .sort((a, b) => a.at - b.at)
            .map(({ item }) => item);
        const other: Plan = {
          ...plan,
          tasks: mixed(plan.tasks),
          crew: mixed(plan.crew),
          links: mixed(plan.links),
          site: { ...plan.site, places: mixed(plan.site.places) },
          evas: plan.evas.map((eva) => ({ ...eva, crew: mixed(eva.crew) })),
        };
        expect(reached(other)).toEqual(reached(plan));
        leftOut += plan.tasks.length - packed(plan, 20).placements.length;
      }),
      { numRuns: 60, seed: 2, endOnFailure: true },
    );
    expect(leftOut).toBeGreaterThan(20);
  });

  it("never changes the best of all days tried, where there are few enough", () => {
    for (let seed = 1; seed <= 8; seed += 1) {
      const plan = valued(seed, 3);
      const turned: Plan = {
        ...plan,
        tasks: [...plan.tasks].reverse(),
        crew: [...plan.crew].reverse(),
        evas: plan.evas.map((eva) => ({ ...eva, crew: [...eva.crew].reverse() })),
      };
      const best = bestOfAll(plan, GRID_S);
      expect({ seed, ...bestOfAll(turned, GRID_S) }).toEqual({ seed, ...best });
      expect({ seed, ...reached(turned) }).toEqual({ seed, ...best });
      expect({ seed, ...reached(plan) }).toEqual({ seed, ...best });
    }
  });
});

/** Each makes one kind of limit wider, or takes it away. */
const RELAXATIONS: Readonly<Record<string, (plan: Plan) => Plan>> = {
  "longer EVAs": (plan) => ({
    ...plan,
    evas: plan.evas.map((eva) => ({ ...eva, longestS: duration(eva.longestS + 2 * GRID_S) })),
  }),
  "a later end": (plan) => ({
    ...plan,
    stay: { ...plan.stay, lengthS: duration(plan.stay.lengthS + 2 * GRID_S) },
    evas: plan.evas.map((eva) => ({ ...eva, latestIngressS: instant(eva.latestIngressS + 2 * GRID_S) })),
  }),
  "no windows": (plan) => ({ ...plan, tasks: plan.tasks.map((task) => ({ ...task, windows: [] })) }),
  "no links": (plan) => ({ ...plan, links: [] }),
  "one link less": (plan) => ({ ...plan, links: plan.links.slice(1) }),
  "no blocks": (plan) => ({ ...plan, stay: { ...plan.stay, blocks: [] } }),
  "more tools": (plan) => ({
    ...plan,
    equipment: plan.equipment.map((one) => ({ ...one, count: one.count + 1 })),
  }),
  "shorter tasks": (plan) => ({
    ...plan,
    // A link may count from an end, and then shorter is no relaxation.
    tasks: plan.tasks.map((task) =>
      plan.links.length > 0
        ? task
        : { ...task, duration: { likelyS: duration(Math.max(GRID_S, task.duration.likelyS - GRID_S)) } },
    ),
  }),
};

describe("relaxing a limit", () => {
  it.each(Object.keys(RELAXATIONS))("never lowers what can be reached: %s", (name) => {
    let raised = 0;
    fc.assert(
      fc.property(anySeed, (seed) => {
        const plan = valued(seed);
        const before = reached(plan);
        const after = reached(RELAXATIONS[name]!(plan));
        expect(after.mustLeftOut).toBeLessThanOrEqual(before.mustLeftOut);
        expect(after.worth).toBeGreaterThanOrEqual(before.worth);
        if (after.worth > before.worth) raised += 1;
      }),
      { numRuns: 30, seed: 3, endOnFailure: true },
    );
    // A limit that never mattered would show nothing.
    expect(raised).toBeGreaterThan(0);
  });
});
