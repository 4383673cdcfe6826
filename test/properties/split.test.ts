import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Finding, Verdict } from "../../src/answers/index.ts";
import { check } from "../../src/check/index.ts";
import { type Plan, splitTask } from "../../src/plan/index.ts";
import type { RuleId } from "../../src/rules/index.ts";
import { partsArb } from "../check/randomPlan.ts";
import { at, place, task, tinyPlan } from "../check/tinyPlan.ts";

/**
 * A split leaves the day as it is, so the judge finds the same: but for the rules that look at tasks one by one, of
 * which each part may break one for itself.
 */
const ONE_BY_ONE: ReadonlySet<RuleId> = new Set([
  "must-do",
  "time-window",
  "sun",
  "light",
  "sun-angle",
  "relay",
  "task-crew",
  "pin",
  "hot-keep-out",
  "one-at-a-time",
  "link-crew",
  "link-eva",
]);

/** Rules whose findings tell of a task's own span, or of the tasks under way at the worst moment. */
const SPAN_OF_TASKS: ReadonlySet<RuleId> = new Set([
  "equipment",
  "link-lag",
  "link-needs",
  "link-apart",
  "blast-keep-out",
  "no-way",
]);

/** A finding without its words, and with the whole in place of a part. */
const bare = (verdict: Verdict, second: string, id: string): string[] =>
  verdict.findings
    .filter(({ rule }) => !ONE_BY_ONE.has(rule))
    .map(({ rule, level, subjects, span, need, have, unit }: Finding) =>
      JSON.stringify([
        rule,
        level,
        subjects
          .filter((one) => rule !== "equipment" || one.kind !== "task")
          .map((one) => (one.id === second ? id : one.id))
          .sort(),
        SPAN_OF_TASKS.has(rule) ? null : span,
        need,
        have,
        unit,
      ]),
    )
    .sort();

/** A placed task that ends where it begins, with nobody of its crew at anything else meanwhile; null without one. */
function splittable(plan: Plan): { readonly id: string; readonly likelyS: number } | null {
  const spanOf = (id: string) => {
    const task = plan.tasks.find((one) => one.id === id)!;
    const spot = plan.schedule.placements.find((one) => one.task === id)!;
    return { startS: spot.startS as number, endS: spot.startS + task.duration.likelyS, crew: spot.crew };
  };
  const placed = plan.schedule.placements.map((one) => one.task);
  const fit = plan.tasks.find((task) => {
    if (!placed.includes(task.id) || task.duration.likelyS < 2) return false;
    if (task.endPlace !== undefined && task.endPlace !== task.place) return false;
    const mine = spanOf(task.id);
    return placed.every((id) => {
      const other = spanOf(id);
      const shared = other.crew.some((member) => mine.crew.includes(member));
      return id === task.id || !shared || other.endS <= mine.startS || other.startS >= mine.endS;
    });
  });
  return fit ? { id: fit.id, likelyS: fit.duration.likelyS } : null;
}

describe("the judge on a split task", () => {
  test("finds what it found before, margin by margin, but for rules that look at tasks one by one", () => {
    let asked = 0;
    let findings = 0;
    fc.assert(
      fc.property(partsArb, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (parts, share) => {
        const plan = tinyPlan(parts);
        const fit = splittable(plan);
        if (!fit) return;
        const split = splitTask(plan, fit.id, Math.max(1, Math.floor(fit.likelyS * share)));
        if (!split.ok) throw new Error(split.error);
        const second = split.value.tasks[1];
        const [before, after] = [check(plan), check({ ...plan, ...split.value.parts })];
        const known = bare(before, second, fit.id);
        expect(bare(after, second, fit.id)).toEqual(known);
        expect(
          after.margins.map(({ crew, eva, consumable, margin }) => [crew, eva, consumable, margin]),
        ).toEqual(before.margins.map(({ crew, eva, consumable, margin }) => [crew, eva, consumable, margin]));
        expect(after.score.worth).toBe(before.score.worth);
        expect(after.score.walkM).toBe(before.score.walkM);
        expect(after.score.worstMargin).toBe(before.score.worstMargin);
        asked += 1;
        findings += known.length;
      }),
      { numRuns: 600 },
    );
    // The law says something only where there is a task to split and something to find.
    expect(asked).toBeGreaterThan(300);
    expect(findings).toBeGreaterThan(asked);
  });

  test("charges the climb of what is carried out once, whichever part it falls to", () => {
    const places = [place("lander", 0, 0), { ...place("a", 300, 0), upM: 60 }];
    const load = { massOutKg: 20, duration: { likelyS: 1200 } };
    const plan = tinyPlan({ places, tasks: [task("x", "a", load)], placements: [at("x", 3000)] });
    const unladen = tinyPlan({
      places,
      tasks: [task("x", "a", { ...load, massOutKg: 0 })],
      placements: [at("x", 3000)],
    });
    const split = splitTask(plan, "x", 300);
    if (!split.ok) throw new Error(split.error);
    const left = (of: Plan) =>
      check(of)
        .margins.filter((one) => one.crew === "ev1")
        .map((one) => one.margin);
    const [whole, parts, light] = [left(plan), left({ ...plan, ...split.value.parts }), left(unladen)];
    whole.forEach((margin, k) => expect(parts[k]).toBeCloseTo(margin, 6));
    // The load counts at all: without it more oxygen is left.
    expect(light[0]! - whole[0]!).toBeGreaterThan(1e-5);
  });
});
