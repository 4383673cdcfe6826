import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { countOf } from "../../../src/solver/simulate/count.ts";
import { CARRIES_ON } from "../../../src/solver/simulate/crew.ts";
import { Days } from "../../../src/solver/simulate/days.ts";
import type { Seen } from "../../../src/solver/simulate/seen.ts";
import { stageOf } from "../../../src/solver/simulate/stage.ts";
import { type Choice, choose } from "../../../src/solver/wish/choose.ts";
import type { Elite } from "../../../src/solver/wish/elites.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";

const OPTIONAL = ["a1", "a2", "a3", "a4", "a5", "a6"];
/** Nobody is at work before 4700, and the must-do work has to be done by 6300. */
const problem = compile(
  tinyPlan({
    evas: [eva("eva-1", { earliestEgressS: 3800 })],
    tasks: [
      task("must", "a", {
        must: true,
        worth: 10,
        crew: { named: ["ev1"] },
        windows: [{ startS: 4000, endS: 6300 }],
      }),
      ...OPTIONAL.map((id) =>
        task(id, "a", {
          worth: 5,
          crew: { named: ["ev1"] },
          duration: { lowS: 500, likelyS: 600, highS: 1800 },
        }),
      ),
    ],
  }),
);
const stage = stageOf(problem);
const wish = { home: 0.9, must: 0.9, price: 1 };

/** A day of these tasks one after the other, the first from 4700 on. */
function elite(...tasks: string[]): Elite {
  const placements = tasks.map((id, k) => ({ ...at(id, 0), startS: instant(4700 + 600 * k) }));
  const seen: Seen = { worth: 10 * tasks.length, home: 1, must: 1 };
  return {
    schedule: { placements },
    sampled: { ...seen, caution: 0, heats: [seen, seen, seen] },
    value: seen.worth,
    placed: new Uint8Array(problem.activities),
  };
}

/** Optional work first, which leaves the must-do work to chance, and more after it; and the must-do work first, with less. */
const risky = OPTIONAL.map((first, k) => elite(first, "must", OPTIONAL[(k + 1) % OPTIONAL.length]!));
const sure = elite("must", OPTIONAL[0]!);

function chosen(elites: readonly Elite[], few: Days, more: Days, wanted = wish): Choice | null {
  const days = { few, more, shown: new Days(problem, "pert", 600, 31), exact: false };
  const work = choose(stage, elites, [], CARRIES_ON, wanted, days, () => 1);
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}

describe("the choice among days", () => {
  it("is one that meets the wish where one does on the days it is chosen by, whatever few days promise of others", () => {
    const mustOf = ({ schedule }: Elite, days: Days): number =>
      countOf(stage, schedule, CARRIES_ON, days).until(days.count).seen.must;
    const more = new Days(problem, "pert", 600, 21);
    for (const one of risky) expect(mustOf(one, more)).toBeLessThan(0.88);
    expect(mustOf(sure, more)).toBeGreaterThan(0.93);
    let lucky = 0;
    for (let seed = 1; seed <= 12; seed += 1) {
      const few = new Days(problem, "pert", 3, seed);
      // On so few days most of the risky ones may seem to meet it, and they do more.
      if (risky.filter((one) => mustOf(one, few) === 1).length >= 5) lucky += 1;
      const choice = chosen([...risky, sure], few, more);
      expect(choice!.day.schedule, `seed ${seed}`).toEqual(sure.schedule);
      expect(choice!.day.meets).toBe(true);
    }
    expect(lucky).toBeGreaterThan(0);
  });

  it("is one that meets the wish as it was counted where none is sure to, before one that falls short and does much more", () => {
    // So many optional tasks first that the must-do work has no time left on many days; the price of that is too low to matter.
    const more = new Days(problem, "pert", 600, 21);
    const share = countOf(stage, risky[0]!.schedule, CARRIES_ON, more).until(more.count).seen.must;
    const least = { home: 0, must: share - 1e-9, price: 0.01 };
    const short = elite(OPTIONAL[0]!, OPTIONAL[1]!, "must", OPTIONAL[2]!, OPTIONAL[3]!);
    expect(countOf(stage, short.schedule, CARRIES_ON, more).until(more.count).seen.must).toBeLessThan(
      least.must,
    );
    const choice = chosen([short, risky[0]!], new Days(problem, "pert", 250, 5), more, least);
    expect(choice!.day.schedule).toEqual(risky[0]!.schedule);
  });
});
