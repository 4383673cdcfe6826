import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { fromWhat } from "../../src/engine/fromwhat/index.ts";
import { RULE_IDS } from "../../src/rules/index.ts";
import { greedy } from "../../src/solver/index.ts";
import { partsArb } from "../check/randomPlan.ts";
import { at, task, tinyPlan } from "../check/tinyPlan.ts";
import { randomPlan } from "../properties/randomPlan.ts";
import { expectBehind } from "./behind.ts";

// Every rule has a case of its own in test/check, and `pair` asks there from what its finding comes.
describe("from what a finding comes", () => {
  it("works out to its need and have on whatever the schema allows", () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(partsArb, (parts) => {
        const plan = tinyPlan(parts);
        for (const finding of check(plan).findings) {
          seen.add(finding.rule);
          expectBehind(plan, finding);
        }
      }),
      { numRuns: 150, seed: 11 },
    );
    expect(seen.size).toBeGreaterThan(15);
    for (const rule of seen) expect(RULE_IDS).toContain(rule);
  });

  it("works out on packed days of every kind, with their tight findings", () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const random = randomPlan(seed, { tasks: 10, crew: 2, evas: 2, places: 5, features: 0.6 });
      const plan = { ...random, schedule: greedy(random) };
      for (const finding of check(plan).findings) expectBehind(plan, finding);
    }
  });

  it("has no answer for a finding that is not there any more", () => {
    const plan = tinyPlan({ tasks: [task("x", "a", { must: true })], placements: [at("x", 3000)] });
    const subjects = [{ kind: "task" as const, id: "x" }];
    const ask = { what: "finding" as const, rule: "must-do" as const, subjects };
    expect(fromWhat(plan, plan.schedule, ask)).toBeNull();
    expect(fromWhat(plan, { placements: [] }, ask)?.says).toContain("x");
  });
});
