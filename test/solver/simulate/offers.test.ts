import { describe, expect, it } from "vitest";
import type { OddsReport } from "../../../src/answers/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { oddsRun } from "../../../src/solver/simulate/index.ts";
import { CARRIES_ON } from "../../../src/solver/simulate/crew.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";

function oddsOf(plan: Plan): OddsReport {
  const run = oddsRun(plan, plan.schedule, {
    days: 400,
    seed: 1,
    shape: "pert",
    crew: CARRIES_ON,
    clock: () => 0,
  });
  while (run.step(1));
  return run.report();
}

const ev1 = { named: ["ev1"] };
const wide = { lowS: 600, likelyS: 600, highS: 3000 };

describe("what would mend a day by leaving something out", () => {
  /**
   * Egress 600, at a 900. must has to begin by 2100 - 600 = 1500: after long only where that takes no more than its least 600 s. short
   * comes after it and is in nobody's way.
   */
  const planWith = (links: readonly (readonly [from: string, to: string])[]): Plan =>
    tinyPlan({
      tasks: [
        task("long", "a", { crew: ev1, worth: 3, duration: wide }),
        task("must", "a", { crew: ev1, worth: 10, must: true, windows: [{ startS: 900, endS: 2100 }] }),
        task("short", "a", { crew: ev1, worth: 5 }),
      ],
      placements: [at("long", 900), at("must", 1500), at("short", 2100)],
      evas: [eva("eva-1")],
      more: {
        links: links.map(([from, to]) => ({
          id: `${from}-${to}`,
          type: "lag",
          from: { task: from, end: "end" },
          to: { task: to, end: "start" },
          leastS: 0,
          needs: "both",
        })),
      },
    });
  const plan = planWith([]);

  it("benches what holds up the must-do task and nothing else, and says what that does on the same days", () => {
    const { offers, must } = oddsOf(plan);
    expect(offers.map(({ bench, gains }) => [bench, gains])).toEqual([[["long"], "chance"]]);
    const [{ before, after }] = offers as [(typeof offers)[number]];
    expect(before.must).toEqual(must);
    // Without long the crew is at a at 900 every day: must from 1500 as planned, and short after it.
    expect(after.must.count).toBe(after.must.of);
    expect(after.meanWorth).toBe(15);
    expect(before.must.share).toBeLessThan(0.1);
  });

  it("takes what needs the benched task along, and never what must-do work needs", () => {
    expect(oddsOf(planWith([["long", "short"]])).offers.map(({ bench }) => bench)).toEqual([
      ["long", "short"],
    ]);
    expect(oddsOf(planWith([["long", "must"]])).offers).toEqual([]);
  });

  it("says nothing where the wish is met, and offers nothing of a day that breaks a rule", () => {
    expect(oddsOf({ ...plan, odds: { ...plan.odds, wish: { home: 0, must: 0 } } }).offers).toEqual([]);
    const late = { ...plan, evas: plan.evas.map((one) => ({ ...one, longestS: one.egressWorkS })) };
    expect(oddsOf(late).offers).toEqual([]);
  });
});

describe("what carries over from one EVA to another", () => {
  /**
   * first: egress 0, at a 900, done 1500 as likely, back 1800, in 2400. The crew are recharged an hour later: second goes out at 6000 at
   * the earliest, and later by what one takes over 600 s. two has to begin by 8100 - 600 = 7500, planned at 6900, and needs one.
   */
  const planWith = (highS: number, windowEndS: number): Plan =>
    tinyPlan({
      tasks: [
        task("one", "a", {
          crew: ev1,
          duration: { lowS: 600, likelyS: 600, highS },
          windows: [{ startS: 0, endS: windowEndS }],
        }),
        task("two", "a", { crew: ev1, must: true }),
      ],
      placements: [at("one", 900), at("two", 6900, ["ev1"], "eva-2")],
      evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: ["ev1"] })],
      rules: { recharge: { leastS: 3600 } },
      more: {
        links: [
          {
            id: "needs",
            type: "lag",
            from: { task: "one", end: "end" },
            to: { task: "two", end: "start" },
            leastS: 0,
            needs: "from",
          },
        ],
      },
    });
  const second = (plan: Plan): OddsReport["evas"][number] => oddsOf(plan).evas[1]!;

  it("is a late start, as often as the first one is late", () => {
    // Of 600 to 3000 s hardly a day has the least.
    const late = second(planWith(3000, 36_000));
    expect(late.outLate.share).toBeGreaterThan(0.99);
    expect(late.needsMissed.count).toBe(0);
    expect(second(planWith(600, 36_000)).outLate.count).toBe(0);
  });

  it("is work that is missed as what it needs was not done, and no must-do of that EVA is done then", () => {
    // one has to end by 1501: hardly ever.
    const { needsMissed, must } = second(planWith(3000, 1501));
    expect(needsMissed.share).toBeGreaterThan(0.95);
    expect(must!.count).toBe(must!.of - needsMissed.count);
    expect(oddsOf(planWith(3000, 1501)).evas[0]!.must).toBe(null);
  });
});
