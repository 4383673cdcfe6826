import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant, random } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import {
  type Call,
  type DayStanding,
  isMark,
  played,
  rehearsalFrom,
  standingOf,
} from "../../src/rehearsal/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { mend } from "../solver/mended.ts";
import { walksOf } from "../../src/terrain/index.ts";
import { randomPlan } from "./randomPlan.ts";

/** A random plan with the day a short pack finds, without a spread of durations. */
function packedPlan(seed: number): Plan {
  const plan = randomPlan(seed, {
    tasks: 12,
    crew: 2 + (seed % 2),
    evas: 1 + (seed % 3),
    places: 5,
    features: 0.5,
  });
  const sure = {
    ...plan,
    tasks: plan.tasks.map((task) => ({ ...task, duration: { likelyS: task.duration.likelyS } })),
  };
  const packing = packRun(sure, { seed, iterations: 200, clock: () => 0 });
  while (packing.step(Infinity)) continue;
  return { ...sure, schedule: packing.best() };
}

const breaches = (plan: Plan): readonly string[] =>
  judgeFor(plan)(plan.schedule)
    .findings.filter(({ level }) => level === "breach")
    .map(({ sentence }) => sentence);

/**
 * What a day breaks from which everything given up so far is simply taken off: judged without a rehearsal. What is given up may have
 * been the pause or the company that the rest relied on (seed 704: without its first task an EVA begins later, and the wait that was
 * its rest is gone), and nothing but a new plan mends that.
 */
function brokenWithout(plan: Plan, leftOut: DayStanding["facts"]["leftOut"]): readonly string[] {
  const placements = plan.schedule.placements.filter(({ task }) => !leftOut.has(task));
  return breaches({ ...plan, schedule: { placements } });
}

const SEEDS = Array.from({ length: 40 }, (_, i) => 700 + i);

describe("a rehearsed random plan", () => {
  it.each(SEEDS)(
    "goes as planned where nothing slips, and is always sound for the packer: seed %i",
    (seed) => {
      const plan = packedPlan(seed);
      const walks = walksOf(plan);
      expect(breaches(plan)).toEqual([]);
      for (const share of [0, 0.2, 0.45, 0.7, 1]) {
        const now = played(plan, rehearsalFrom(0, 1), Math.round(plan.stay.lengthS * share), walks);
        const { placements, plan: gone, ahead } = standingOf(plan, now, walks);
        const times = new Map(placements.map((placement) => [placement.task, placement.startS]));
        expect(times).toEqual(new Map(plan.schedule.placements.map((spot) => [spot.task, spot.startS])));
        expect(gone.tasks.filter((task) => isMark(task.id))).toEqual([]);
        expect(breaches(gone)).toEqual([]);
        expect(breaches(ahead)).toEqual([]);
      }
    },
  );

  it.each(SEEDS.slice(0, 16))("keeps what has happened through a mend after a slip: seed %i", (seed) => {
    const plan = packedPlan(seed);
    const walks = walksOf(plan);
    const source = random(seed);
    const some = plan.schedule.placements[source.below(Math.max(1, plan.schedule.placements.length))];
    if (!some) return;
    const before = played(plan, rehearsalFrom(0, 1), some.startS + 1, walks);
    const slip = {
      kind: "longer",
      atS: before.nowS,
      task: some.task,
      byS: 600 + source.below(3600),
    } as const;
    const calls: readonly Call[] = [...before.calls, slip];
    const later = played(plan, { ...before, calls: [...calls] }, some.startS + 900, walks);
    const now = standingOf(plan, later, walks);
    const past = now.placements.filter((placement) => placement.state !== "to come");
    const { schedule } = mend(now.ahead, now.ahead.schedule, {
      seed: 1,
      iterations: 12,
      keep: past.map((placement) => placement.task),
      clock: () => 0,
    });
    expect(breaches({ ...now.ahead, schedule })).toEqual([]);
    const placedAs = new Map(schedule.placements.map((one) => [one.task, one]));
    if (past.some((placement) => !placedAs.has(placement.task))) {
      // Only where what has happened, and what is under way, cannot be sound with nothing else done at all.
      const alone = now.ahead.schedule.placements.filter(
        ({ task }) => isMark(task) || past.some((placement) => placement.task === task),
      );
      expect(breaches({ ...now.ahead, schedule: { placements: alone } })).not.toEqual([]);
      return;
    }
    for (const placement of past)
      expect(placedAs.get(placement.task)).toMatchObject({ startS: placement.startS, eva: placement.eva });
    const begun = new Set(past.map((placement) => placement.task));
    for (const spot of schedule.placements)
      if (!begun.has(spot.task) && !isMark(spot.task)) expect(spot.startS).toBeGreaterThanOrEqual(now.nowS);
    const taken: Call = { kind: "replanned", atS: instant(now.nowS), schedule };
    const after = standingOf(plan, { ...later, calls: [...later.calls, taken] }, walks);
    expect(breaches(after.ahead)).toEqual([]);
  });

  it.each(SEEDS.slice(0, 16))(
    "goes out no sooner than planned when the first work of an EVA is given up: seed %i",
    (seed) => {
      const plan = packedPlan(seed);
      const walks = walksOf(plan);
      const planned = judgeFor(plan)(plan.schedule).outings;
      const [first] = planned.toSorted((a, b) => a.span.startS - b.span.startS);
      if (!first) return;
      const own = plan.schedule.placements
        .filter(({ eva }) => eva === first.eva)
        .toSorted((a, b) => a.startS - b.startS);
      // Something is left to go out for.
      if (own.length < 2) return;
      const given: Call = { kind: "left-out", atS: instant(0), task: own[0]!.task };
      const begun = rehearsalFrom(0, seed);
      const over = played(plan, { ...begun, calls: [given] }, plan.stay.lengthS, walks);
      const out = over.calls.find((call) => call.kind === "out" && call.eva === first.eva);
      expect(out?.atS).toBeGreaterThanOrEqual(first.span.startS);
    },
  );

  it.each(SEEDS.slice(0, 16))("goes on from where they are when anything is given up: seed %i", (seed) => {
    const plan = packedPlan(seed);
    const walks = walksOf(plan);
    const source = random(seed);
    let now = rehearsalFrom(0, 1);
    for (let k = 0; k < 4; k += 1) {
      now = played(plan, now, now.nowS + 300 + source.below(5400), walks);
      const open = standingOf(plan, now, walks).placements.filter((placement) => placement.state !== "done");
      const some = open[source.below(Math.max(1, Math.min(3, open.length)))];
      if (some) now = { ...now, calls: [...now.calls, { kind: "left-out", atS: now.nowS, task: some.task }] };
      const standing = standingOf(plan, now, walks);
      for (const day of [standing.plan, standing.ahead]) {
        const moved = judgeFor(day)(day.schedule).findings.filter(
          ({ rule, level }) => level === "breach" && (rule === "one-at-a-time" || rule === "no-way"),
        );
        expect(moved.map(({ sentence }) => sentence)).toEqual([]);
      }
      const { ahead } = standing;
      const told = brokenWithout(plan, standing.facts.leftOut);
      expect(breaches(ahead).filter((sentence) => !told.includes(sentence))).toEqual([]);
      if (told.length === 0) continue;
      const { schedule } = mend(ahead, ahead.schedule, { seed: 1, iterations: 12, clock: () => 0 });
      expect(breaches({ ...ahead, schedule })).toEqual([]);
    }
    // Nobody is inside sooner than the judge lets them walk.
    const over = standingOf(plan, played(plan, now, plan.stay.lengthS, walks), walks);
    for (const { eva, span } of judgeFor(over.plan)(over.plan.schedule).outings)
      if (over.facts.inS.has(eva)) expect(over.facts.inS.get(eva)).toBeGreaterThanOrEqual(span.endS);
  });
});
