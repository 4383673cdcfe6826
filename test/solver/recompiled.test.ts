import { describe, expect, it } from "vitest";
import { compile } from "../../src/solver/problem/compile.ts";
import { readyPlan } from "../readyplan.ts";

describe("a plan that is compiled again", () => {
  it.each(["small", "large"] as const)(
    "keeps the ground and what it draws where only tasks changed: %s",
    (name) => {
      const plan = readyPlan(name);
      const before = compile(plan);
      const after = compile({
        ...plan,
        tasks: plan.tasks.map((task, k) => (k === 0 ? { ...task, worth: task.worth + 1 } : task)),
      });
      expect(after.worth[0]).toBe(before.worth[0]! + 1);
      expect(after.ways).toBe(before.ways);
      expect(after.peakS).toBe(before.peakS);
      before.draws.leg.forEach((leg, r) => {
        expect(after.draws.leg[r]).toBe(leg);
        expect(after.draws.home[r]).toBe(before.draws.home[r]);
        expect(after.draws.peak[r]).toBe(before.draws.peak[r]);
      });
    },
  );

  it("works out anew what a heavier crew member draws, and nobody else", () => {
    const plan = readyPlan("large");
    const [first] = plan.crew;
    const before = compile(plan);
    const after = compile({
      ...plan,
      crew: plan.crew.map((one) => (one === first ? { ...one, bodyMassKg: one.bodyMassKg + 20 } : one)),
    });
    const slope = before.ways.slopeRad.findIndex((one, cell) => one > 0 && before.ways.durationS[cell]! > 0);
    expect(slope).toBeGreaterThanOrEqual(0);
    let changed = 0;
    before.draws.leg.forEach((leg, r) => {
      if (before.memberOfRoute[r] === 0) {
        changed += 1;
        expect(after.draws.leg[r]![slope * before.kinds]).toBeGreaterThan(leg[slope * before.kinds]!);
      } else expect(after.draws.leg[r]).toBe(leg);
    });
    expect(changed).toBeGreaterThan(0);
  });

  it("works out once what two who are alike in suits that are alike draw", () => {
    const plan = readyPlan("small");
    const [first] = plan.crew;
    const alike = {
      ...plan,
      crew: plan.crew.map(({ id, name }) => ({ ...first!, id, name })),
      suits: plan.suits.map(({ id, name }) => ({ ...plan.suits[0]!, id, name })),
    };
    const own = alike.crew.map((member, k) => ({ ...member, suit: plan.crew[k]!.suit }));
    const { draws } = compile({ ...alike, crew: own });
    expect(draws.leg.length).toBeGreaterThan(1);
    expect(new Set(draws.leg).size).toBe(1);
  });
});
