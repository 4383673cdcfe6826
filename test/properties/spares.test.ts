import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import type { Finding } from "../../src/answers/index.ts";
import { isSwitchedOff } from "../../src/plan/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { jolt } from "./jolt.ts";
import { randomPlan } from "./randomPlan.ts";

/** What a rule leaves to spare is what its findings are made of: never more, never less. */

/** The spare that a finding states, in the unit of its rule; null where need and have are in another unit. */
function statedIn(one: Finding, unit: string): number | null {
  if (one.unit !== unit || one.need === null || one.have === null) return null;
  const atLeast = ["walk-back-emergency", "walk-back-consumables", "blast-keep-out", "recharge"];
  return atLeast.includes(one.rule) ? one.have - one.need : one.need - one.have;
}

describe("what rules leave to spare", () => {
  it("is below zero just where they are broken, and the least of what their findings state", () => {
    const broken = new Map<string, number>();
    const stated = new Map<string, number>();
    for (let seed = 1; seed <= 120; seed += 1) {
      const drawn = randomPlan(seed, {
        tasks: 4 + (seed % 6),
        crew: 1 + (seed % 3),
        evas: 1 + (seed % 2),
        places: 2 + (seed % 5),
        features: 1,
      });
      // Limits close to what days come to, so that they are met and missed.
      const rules = {
        ...drawn.rules,
        distance: { ...drawn.rules.distance, evaM: 300 + 40 * (seed % 30), stayM: 500 + 60 * (seed % 30) },
        separation: { ...drawn.rules.separation, greatestM: 50 + 10 * (seed % 20) },
        returnMass: { ...drawn.rules.returnMass, greatestKg: 2 + (seed % 12) },
        carry: { ...drawn.rules.carry, greatestN: 10 + 4 * (seed % 9) },
      };
      const plan = { ...drawn, rules };
      const judge = judgeFor(plan);
      // A deployment that is switched off is told of and binds nothing.
      const off = new Set(plan.tasks.filter(isSwitchedOff).map(({ id }) => id));
      const isOff = ({ rule, subjects }: Finding): boolean =>
        rule === "blast-keep-out" && subjects.some(({ id }) => off.has(id));
      const run = packRun(drawn, { seed, iterations: 4, clock: () => 0 });
      while (run.step(1)) continue;
      const base = run.best();
      for (let k = 0; k < 6; k += 1) {
        const { findings, spares } = judge(k === 0 ? base : jolt(plan, base, seed * 100 + k));
        expect(new Set(spares.map(({ rule }) => rule)).size).toBe(spares.length);
        for (const { rule, unit, spare } of spares) {
          const own = findings.filter((one) => one.rule === rule && !isOff(one));
          const where = `${rule}, seed ${seed}, ${k}`;
          if (typeof spare === "string") {
            // Nothing tested: nothing found. Not known: nothing is claimed, whatever is found.
            if (spare === "untested") expect(own, where).toEqual([]);
            continue;
          }
          if (own.some((one) => one.level === "breach")) {
            expect(spare, where).toBeLessThan(0);
            broken.set(rule, (broken.get(rule) ?? 0) + 1);
          }
          if (spare < 0) expect(own.length, where).toBeGreaterThan(0);
          const says = own.flatMap((one) => statedIn(one, unit) ?? []);
          if (says.length === 0) continue;
          // Where the rule only warns, a stock that runs out on the way home is stated without its reserve.
          const runsOut =
            rule === "walk-back-consumables" && plan.rules.walkback.level === "warning" && spare < 0;
          if (runsOut) expect(spare, where).toBeLessThanOrEqual(Math.min(...says));
          else expect(spare, where).toBeCloseTo(Math.min(...says), 5);
          stated.set(rule, (stated.get(rule) ?? 0) + 1);
        }
      }
    }
    // The plans must be worth it: most rules are broken somewhere and state their amounts.
    expect([...broken.keys()].length, [...broken].join("; ")).toBeGreaterThanOrEqual(9);
    expect([...stated.keys()].length, [...stated].join("; ")).toBeGreaterThanOrEqual(7);
  });
});
