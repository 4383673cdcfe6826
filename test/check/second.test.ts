import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { instant, random } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { randomPlan } from "../properties/randomPlan.ts";
import { say, second } from "./second.ts";

const RULES = new Set([
  ...["eva-bounds", "egress-window", "time-window", "duty", "group-most", "group-least", "must-do"],
]);

/** A random plan on level ground with a random schedule, often a senseless one, and EVAs that may begin before touchdown. */
function drawn(seed: number): Plan {
  const plan = randomPlan(seed, {
    tasks: 3 + (seed % 8),
    crew: 1 + (seed % 3),
    evas: 1 + (seed % 3),
    places: 2 + (seed % 4),
    features: 0.2 + (seed % 9) / 10,
  });
  const stream = random(seed + 31);
  const placements = plan.tasks.flatMap(({ id, crew }) => {
    const eva = plan.evas[stream.below(plan.evas.length)]!;
    const startS = instant(
      stream.below(crew.count === 0 ? plan.stay.lengthS : 9000) + (crew.count && eva.earliestEgressS),
    );
    const members = eva.crew.slice(0, crew.count);
    if (members.length < crew.count || stream.next() < 0.2) return [];
    return [{ task: id, eva: crew.count === 0 ? null : eva.id, crew: members, startS }];
  });
  return {
    ...plan,
    site: {
      ...plan.site,
      legs: [],
      keepOuts: [],
      places: plan.site.places.map((place) => ({ ...place, upM: 0 })),
    },
    evas: plan.evas.map((eva) =>
      seed % 5 === 0 ? { ...eva, earliestEgressS: instant(eva.earliestEgressS - 7200) } : eva,
    ),
    groups: plan.groups.map((group) =>
      seed % 2 === 0 ? { ...group, least: Math.min(group.most ?? Infinity, group.tasks.length) } : group,
    ),
    schedule: { placements },
  };
}

describe("a second judge, written from RULES.md", () => {
  it("finds on random days what the first one finds, with the same numbers", () => {
    const heard = new Map<string, number>();
    for (let seed = 1; seed <= 400; seed += 1) {
      const plan = drawn(seed);
      const verdict = check(plan, plan.schedule);
      const first = verdict.findings
        .filter(({ rule }) => RULES.has(rule))
        .map(({ rule, level, subjects, need, have }) => say(rule, level, subjects[0]!.id, need, have));
      const { said, worth } = second(plan);
      expect(first.toSorted(), `seed ${seed}`).toEqual(said);
      expect(verdict.score.worth, `seed ${seed}`).toBe(worth);
      for (const one of said) {
        const name = one.split(" ").slice(0, 2).join(" ");
        heard.set(name, (heard.get(name) ?? 0) + 1);
      }
    }
    // The days must be worth the comparison.
    for (const rule of RULES) {
      const told = [...heard].filter(([name]) => name.startsWith(`${rule} `));
      expect(
        told.reduce((sum, [, count]) => sum + count, 0),
        rule,
      ).toBeGreaterThan(10);
    }
  });
});
