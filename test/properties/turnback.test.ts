import { describe, expect, it } from "vitest";
import { check, ingressLimitsByEva, recallOf } from "../../src/check/index.ts";
import { duration } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { greedy } from "../../src/solver/index.ts";
import { randomPlan } from "./randomPlan.ts";

const HELD: ReadonlySet<string> = new Set([
  "oxygen-reserve",
  "co2-reserve",
  "water-reserve",
  "battery-reserve",
  "drinking-water",
  "walk-back-emergency",
  "walk-back-consumables",
  "eva-bounds",
  "stay-blocks",
  "duty",
]);

function held(plan: Plan): string[] {
  return check(plan)
    .findings.filter(({ level, rule }) => level === "breach" && HELD.has(rule))
    .map(({ sentence }) => sentence);
}

/** The plan with no rule at warning: limits do not ask what breaking a rule counts as. */
function strict(plan: Plan): Plan {
  const rules = Object.entries(plan.rules).map(([name, rule]) => [
    name,
    typeof rule === "object" && "level" in rule ? { ...rule, level: "breach" } : rule,
  ]);
  return { ...plan, rules: Object.fromEntries(rules) as Plan["rules"] };
}

function days(): Plan[] {
  return Array.from({ length: 120 }, (_, k) => {
    const plan = strict(randomPlan(k + 1, { tasks: 10, crew: 2, evas: 2, places: 5, features: 0.5 }));
    return { ...plan, schedule: greedy(plan) };
  }).filter((plan) => plan.schedule.placements.length > 0 && held(plan).length === 0);
}

describe("the latest moment to start home", () => {
  it("is one at which the judge still finds nothing, on random days", () => {
    let tried = 0;
    for (const plan of days()) {
      for (const { eva, span } of check(plan).outings) {
        for (const share of [0.2, 0.5, 0.8]) {
          const nowS = Math.floor(span.startS + share * (span.endS - span.startS));
          const broken = brokenOff(plan, eva, nowS);
          if (!broken) continue;
          tried += 1;
          expect(held(broken), `${plan.title}, ${eva} at ${nowS}`).toEqual([]);
        }
      }
    }
    expect(tried).toBeGreaterThan(60);
  });
});

/** The day with all work of the EVA under way at `nowS` drawn out until it is time to start home, and nothing more of it. Null where nobody is at work in one place. */
function brokenOff(plan: Plan, eva: string, nowS: number): Plan | null {
  const recall = recallOf(plan, plan.schedule, eva, nowS);
  if (!recall || recall.crew.some(({ over, startHomeS }) => over !== null || startHomeS === null))
    return null;
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
  const begun = plan.schedule.placements.filter((one) => one.eva !== eva || one.startS <= nowS);
  const lengths = new Map<string, number>();
  for (const one of begun) {
    const task = tasks.get(one.task)!;
    if (one.eva !== eva || one.startS + task.duration.likelyS <= nowS) continue;
    if (task.endPlace !== undefined && task.endPlace !== task.place) return null;
    const untilS = Math.min(
      ...one.crew.map((id) => recall.crew.find(({ crew }) => crew === id)!.startHomeS!),
    );
    lengths.set(one.task, untilS - one.startS);
  }
  if (lengths.size === 0) return null;
  return {
    ...plan,
    // Later EVAs wait: they are another day's.
    schedule: { placements: begun.filter((one) => one.eva === eva || one.startS <= nowS) },
    tasks: plan.tasks.map((task) => {
      const lengthS = lengths.get(task.id);
      return lengthS === undefined ? task : { ...task, duration: { likelyS: duration(lengthS) } };
    }),
  };
}

describe("ingress no later than", () => {
  it("is not before ingress on a day that breaks nothing, and holds when the hardest work is drawn out to it", () => {
    let tried = 0;
    for (const plan of days()) {
      const verdict = check(plan);
      for (const eva of plan.evas) {
        const limits = ingressLimitsByEva(plan, plan.schedule).get(eva.id);
        const outings = verdict.outings.filter((one) => one.eva === eva.id);
        if (!limits || outings.length === 0) continue;
        const inS = outings[0]!.span.endS;
        if (verdict.findings.every(({ level }) => level !== "breach"))
          expect(limits[0]!.ingressS, plan.title).toBeGreaterThanOrEqual(inS);
        const later = drawnOut(plan, eva.id, limits[0]!.ingressS - inS);
        if (!later) continue;
        tried += 1;
        expect(held(later), plan.title).toEqual([]);
      }
    }
    expect(tried).toBeGreaterThan(30);
  });
});

/** The day with the last task of the EVA so much longer; null where others are out on a later task then. */
function drawnOut(plan: Plan, eva: string, byS: number): Plan | null {
  const own = plan.schedule.placements.filter((one) => one.eva === eva);
  const ends = own.map((one) => one.startS + plan.tasks.find(({ id }) => id === one.task)!.duration.likelyS);
  const last = own[ends.indexOf(Math.max(...ends))]!;
  const followed = own.some((one) => one !== last && one.startS >= last.startS);
  if (followed || byS <= 0) return null;
  return {
    ...plan,
    tasks: plan.tasks.map((task) =>
      task.id === last.task
        ? { ...task, duration: { likelyS: duration(task.duration.likelyS + byS) } }
        : task,
    ),
  };
}
