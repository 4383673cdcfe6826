import { describe, expect, it } from "vitest";
import type { TriedRelaxation, WhyReport } from "../../src/answers/index.ts";
import { check, judgeFor } from "../../src/check/index.ts";
import { instant, random } from "../../src/kernel/index.ts";
import type { Placement, Plan, Schedule } from "../../src/plan/index.ts";
import { benchReasons, whyRun } from "../../src/solver/index.ts";
import { mend } from "./mended.ts";
import { at, eva, place, task, tinyPlan } from "../check/tinyPlan.ts";

/** Days on which somebody has to wait on purpose. Flat site, 1 m/s, lander to a 300 s, airlock work 600 s at both ends. */

function why(plan: Plan, schedule: Schedule, wanted: string): WhyReport<TriedRelaxation> {
  const run = whyRun(plan, schedule, wanted, { seed: 1, clock: () => 0, iterations: 6 });
  while (run.step(1)) continue;
  return run.report();
}

/**
 * Egress 0, one 900 to 1500, then 420 s of standing until two may begin at 1920 and no later, back 2820, in 3420: no rest of 600 s, and
 * 3420 s of work in a row where 3120 are allowed. A rest of 600 s before two would make it 2100. But with one from 1200 on it is egress 300,
 * in 3420 (the latest): 3120 s in a row. A minute sooner would be 3180.
 */
const goesOutLater = tinyPlan({
  evas: [eva("eva-1", { crew: ["ev1"], latestIngressS: 3420 })],
  tasks: [task("one", "a"), task("two", "a", { windows: [{ startS: 1920, endS: 2520 }] })],
  placements: [at("one", 900)],
  rules: { work: { longestS: 3120, restS: 600 } },
});

/**
 * EV1 does one from 900 to 2100 and no later, is back at 2400 and in at 3000: 3000 s in a row where 2700 are allowed, and nowhere to rest
 * on the way. But with EV2's task from 2100 to 2700 all are back at 3000, and EV1 rests at the lander from 2400 on. In at 3600, the latest.
 */
const restsAtTheLander = tinyPlan({
  evas: [eva("eva-1", { longestS: 3600, latestIngressS: 3600 })],
  tasks: [
    task("one", "a", {
      crew: { named: ["ev1"] },
      duration: { likelyS: 1200 },
      windows: [{ startS: 900, endS: 2100 }],
    }),
    task("two", "a", { crew: { named: ["ev2"] } }),
  ],
  placements: [at("two", 900, ["ev2"])],
  rules: { work: { longestS: 2700, restS: 600 } },
});

describe("waiting on purpose", () => {
  it.each([
    ["an outing that begins later", goesOutLater, "two", "one starts 5 min later"],
    ["a rest at the lander", restsAtTheLander, "one", "two starts 20 min later"],
  ])("answers why not with exactly the starts that have to be later: %s", (_, plan, wanted, words) => {
    const report = why(plan, plan.schedule, wanted);
    expect(report).toMatchObject({ state: "fits", conflict: null, offers: 0 });
    const [way, ...others] = report.relaxations;
    expect(others).toEqual([]);
    expect(way!.sentence).toBe(`Nothing has to be given up: it fits if ${words}.`);
    expect(way!.moves).toHaveLength(1);
    expect(check(plan, way!.schedule)).toMatchObject({ placed: 2, score: { breaches: 0 } });
    // The bench claims no more than is known either.
    const [reason] = benchReasons(plan, plan.schedule);
    expect(reason).toMatchObject({ task: wanted, fitsAt: null });
    expect(reason!.sentence).toBe("It fits if others start at other times; Why not? says which.");
  });

  it.each([
    ["an outing that begins later", goesOutLater, at("two", 1920)],
    ["a rest at the lander", restsAtTheLander, at("one", 900, ["ev1"])],
  ])("lets a mend keep both tasks: %s", (_, plan, other) => {
    const day = { placements: [...plan.schedule.placements, { ...other, startS: instant(other.startS) }] };
    expect(check(plan, day as Schedule).score.breaches).toBeGreaterThan(0);
    const { schedule, changes } = mend(plan, day as Schedule, { seed: 1, iterations: 2, clock: () => 0 });
    expect(check(plan, schedule)).toMatchObject({ placed: 2, score: { breaches: 0 } });
    expect(changes.map((one) => one.kind)).toEqual(["moved"]);
  });

  it("finds the day on random small days of which one with other starts in the same order is known", () => {
    const known = { days: 0, waited: 0 };
    for (let seed = 1; seed <= 400; seed += 1) {
      const made = knownDay(seed);
      if (!made) continue;
      const { plan, day, wanted } = made;
      known.days += 1;
      const report = why(plan, day, wanted);
      expect({ seed, state: report.state }).toEqual({ seed, state: "fits" });
      const [way] = report.relaxations;
      expect({ seed, ...check(plan, way!.schedule).score }).toMatchObject({ seed, breaches: 0 });
      if (way!.moves.length > 0) known.waited += 1;
    }
    expect(known.days).toBeGreaterThan(60);
    expect(known.waited).toBeGreaterThan(15);
  });
});

const GRID_S = 300;

/**
 * Two people with two tasks each at places 300 m apart, little work in a row, windows and a latest ingress close round a sound day; and that day
 * without one task, the others as early as they go one after the other. Null where chance made no such day.
 */
function knownDay(seed: number): { plan: Plan; day: Schedule; wanted: string } | null {
  const stream = random(seed);
  const whole = (low: number, high: number): number => low + stream.below(high - low + 1);
  const ids = ["t0", "t1", "t2", "t3"];
  const starts = new Map<string, number>();
  const tasks = ids.map((id, k) => {
    const likelyS = whole(1, 3) * GRID_S;
    const where = stream.next() < 0.7 ? "a" : "b";
    const nowS = (k % 2 === 0 ? 3 : starts.get(ids[k - 1]!)! / GRID_S + 4) * GRID_S + whole(0, 3) * GRID_S;
    starts.set(id, nowS);
    const window = { startS: nowS - whole(0, 1) * GRID_S, endS: nowS + likelyS + whole(0, 1) * GRID_S };
    return task(id, where, {
      duration: { likelyS },
      crew: { named: [k < 2 ? "ev1" : "ev2"] },
      ...(stream.next() < 0.7 ? { windows: [window] } : {}),
    });
  });
  const placements = tasks.map((one) => at(one.id, starts.get(one.id)!, [...one.crew!.named!]));
  const parts = {
    tasks,
    places: [place("lander", 0, 0), place("a", 300, 0), place("b", 600, 0)],
    rules: {
      work: { longestS: whole(8, 11) * GRID_S, restS: 2 * GRID_S },
      separation: { greatestM: stream.next() < 0.5 ? 5000 : 450 },
    },
  };
  const [outing] = check(
    tinyPlan({ ...parts, placements }),
    tinyPlan({ ...parts, placements }).schedule,
  ).outings;
  const plan = tinyPlan({
    ...parts,
    placements,
    evas: [eva("eva-1", { latestIngressS: outing!.span.endS })],
  });
  const judge = judgeFor(plan);
  const sound = (list: readonly Placement[]): boolean =>
    judge({ placements: [...list] }).score.breaches === 0;
  const wanted = ids[stream.below(4)]!;
  let day = plan.schedule.placements.filter((one) => one.task !== wanted);
  if (!sound(plan.schedule.placements) || !sound(day)) return null;
  for (const { task: id } of day) {
    const earlier = (byS: number): Placement[] =>
      day.map((one) => (one.task === id ? { ...one, startS: instant(one.startS - byS) } : one));
    while (sound(earlier(GRID_S))) day = earlier(GRID_S);
  }
  return { plan, day: { placements: day }, wanted };
}
