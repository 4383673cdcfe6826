import { describe, expect, it } from "vitest";
import type { ChancesReport, OddsReport } from "../../../src/answers/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { glanceRun, oddsRun } from "../../../src/solver/simulate/index.ts";
import { at, task, tinyPlan } from "../../check/tinyPlan.ts";

function reportsOf(plan: Plan): { odds: OddsReport; glance: ChancesReport } {
  const odds = oddsRun(plan, plan.schedule, { days: 40, seed: 1, shape: "pert", clock: () => 0 });
  while (odds.step(Infinity));
  const glance = glanceRun(plan, plan.schedule, 40, () => 0);
  while (glance.step(Infinity));
  return { odds: odds.report(), glance: glance.report() };
}

/** `near` beside one task that no rule lets anybody do as it is placed. */
const beside = (far: Parameters<typeof tinyPlan>[0]): Plan =>
  tinyPlan({
    ...far,
    tasks: [task("near", "a"), ...(far?.tasks ?? [task("far", "b", { must: true })])],
    placements: [at("near", 2000), at("far", 4000)],
  });

describe("a day with what no simulated day can play", () => {
  it.each([
    ["too far to walk back on emergency oxygen", beside({ suit: { emergencyOxygenS: 400 } })],
    [
      "done by crew who are not qualified",
      beside({ tasks: [task("far", "b", { crew: { qualification: "x" } })] }),
    ],
    ["shorter than what is walked in it", beside({ tasks: [task("far", "b", { walkM: 3000 })] })],
    [
      "reached by a leg that is too far from home on its way",
      beside({
        site: { legs: [{ from: "a", to: "b", distanceM: 400, durationS: 400, walkbackPeakM: 30_000 }] },
      }),
    ],
  ])("has no chance at all: %s", (_, plan) => {
    const { odds, glance } = reportsOf(plan);
    expect(odds).toMatchObject({ unplayed: ["far"], days: 0, complete: true, pending: [], offers: [] });
    expect(glance).toMatchObject({ unplayed: ["far"], days: 0 });
    for (const { home, must, whole } of [odds, glance])
      for (const chance of [home, must, whole])
        expect(chance).toMatchObject({ of: 0, low: 0, high: 1, words: "unknown" });
  });

  it("has its chances once nothing forbids it", () => {
    const { odds, glance } = reportsOf(beside({}));
    expect(odds).toMatchObject({ unplayed: [], days: 40, home: { count: 40, of: 40 } });
    expect(glance).toMatchObject({ unplayed: [], home: odds.home, must: odds.must });
  });
});
