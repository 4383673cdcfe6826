import { describe, expect, it } from "vitest";
import type { ChancesReport, OddsReport, Outcome } from "../../src/answers/index.ts";
import { judgeFor } from "../../src/check/index.ts";
import type { Engine } from "../../src/engine/calls.ts";
import { makeCore } from "../../src/engine/core.ts";
import { instant } from "../../src/kernel/index.ts";
import { applyEdit, type Plan, type Schedule } from "../../src/plan/index.ts";
import { type Session, MANY_DAYS } from "../../src/session/index.ts";
import { rehearsalWork } from "../../src/session/rehearsing.ts";
import { lateTableRun } from "../../src/solver/question/late/index.ts";
import { MINUTES } from "../../src/solver/question/late/run.ts";
import { SHOWN } from "../../src/solver/question/late/played.ts";
import { oddsRun } from "../../src/solver/simulate/index.ts";
import { walksOf } from "../../src/terrain/index.ts";
import { at, eva, task, tinyPlan } from "../check/tinyPlan.ts";
import { sessionWith } from "./bench.ts";
import { latePlan, lateSchedule } from "../solver/question/late/obeyed.ts";

/**
 * Mend, why-not, variants, the late table and the rehearsal's new plan ask for the same rules of the crew, the same wish and the same days: what
 * each says of a day is the odds' own figure of it. The plan's crew and wish are none that anything takes by itself.
 */
const CAUTION = 0.75;
const WISH = { home: 0.97, must: 0.6 };

/** Three must-do tasks and three others in an EVA that on late days is too short for all of them. */
function lateDay(): Plan {
  const spread = { duration: { lowS: 500, likelyS: 600, highS: 1500 } };
  return tinyPlan({
    evas: [eva("eva-1", { longestS: 5200 })],
    tasks: [
      task("x", "a", { worth: 5, ...spread }),
      task("y", "b", { worth: 30, must: true, ...spread }),
      task("z", "a", { worth: 20, must: true, ...spread }),
      task("u", "a", { worth: 7, ...spread }),
      task("v", "b", { worth: 9, ...spread }),
      task("w", "c", { worth: 11, must: true, ...spread }),
    ],
    placements: [
      at("x", 1000),
      at("y", 1900),
      at("z", 2800),
      at("u", 1000, ["ev2"]),
      at("v", 1900, ["ev2"]),
      at("w", 3400, ["ev2"]),
    ],
    more: { odds: { crew: { acts: true, caution: CAUTION }, wish: WISH } },
  });
}

/** The whole core, answering at once. */
function realEngine(): Engine {
  const core = makeCore(() => 0);
  const calls = Object.entries(core).map(([name, answer]) => [
    name,
    (plan: Plan, given: never, hearing: object = {}) => Promise.resolve(answer(plan, given, hearing)),
  ]);
  return { ...(Object.fromEntries(calls) as Omit<Engine, "close">), close: () => undefined };
}

function sessionAt(plan: Plan): Session {
  const engine = realEngine();
  const { session } = sessionWith({ engine, spare: () => engine });
  expect(session.open(JSON.stringify(plan))).toBe(true);
  return session;
}

function oddsOf(plan: Plan, schedule: Schedule, days = MANY_DAYS): OddsReport {
  const run = oddsRun(plan, schedule, { days, seed: 1, shape: "pert", clock: () => 0 });
  while (run.step(Infinity));
  return run.report();
}

/** Holds a figure to the odds of its day, and the odds to the plan's crew and wish. */
function expectOdds(report: ChancesReport | null, plan: Plan, schedule: Schedule): void {
  const { days, crew, wish, home, must, whole, worth, leftOut } = oddsOf(plan, schedule);
  expect(crew).toMatchObject({ goesAhead: true, caution: CAUTION });
  expect(wish).toEqual(WISH);
  expect(report).toMatchObject({ days, crew, wish, home, must, whole, leftOut });
  expect(report!.meanWorth).toBeCloseTo(worth.mean, 9);
  // On a day that always goes as planned it would not matter who is asked.
  expect(whole.count).toBeLessThan(days);
  expect(worth.mean).toBeLessThan(worth.planned);
}

describe("one day, one set of chances", () => {
  it("of a mended day", async () => {
    const plan = lateDay();
    const session = sessionAt(plan);
    session.place("z", { eva: "eva-1", crew: ["ev1"], startS: instant(1900) });
    await session.mend({ seed: 1, seconds: 5, iterations: 200 });
    const { plan: now } = session.state.getState();
    expect(judgeFor(now)(now.schedule).score.breaches).toBe(0);
    expectOdds(await session.chancesOf({ plan: now, schedule: now.schedule }), now, now.schedule);
  });

  it("of what a question why offers, and of the variant that it is kept as", async () => {
    const made = lateDay();
    const short: Plan = {
      ...made,
      evas: made.evas.map((one) => ({ ...one, longestS: instant(4200) as never })),
    };
    const left = { placements: short.schedule.placements.filter(({ task: id }) => id !== "z") };
    const session = sessionAt({ ...short, schedule: left });
    await session.askWhy("z");
    const { plan, why } = session.state.getState();
    const [way] = why!.report!.relaxations;
    expect(way).toBeDefined();
    const then = applyEdit(plan, way!.edit);
    expectOdds(await session.chancesOf({ plan: then, schedule: way!.schedule }), then, way!.schedule);
    const variant = session.variantDay(session.tryRelaxation(way!)!)!;
    expect(variant.schedule).toEqual(way!.schedule);
    expectOdds(await session.chancesOf(variant), then, way!.schedule);
  });

  it("of a rehearsal's new plan", async () => {
    const plan = lateDay();
    const session = sessionAt(plan);
    const rehearsal = rehearsalWork(session, {
      engine: realEngine(),
      judgeFor,
      clock: { nowMs: () => 0, after: () => () => undefined },
      walksOf,
      archive: {
        readRehearsal: () => Promise.resolve(null),
        writeRehearsal: () => Promise.resolve(),
        writeClock: () => Promise.resolve(),
      },
      windows: undefined,
      memory: { get: () => null, set: () => true },
    });
    rehearsal.begin(1);
    rehearsal.setCaller("trainer");
    rehearsal.goOn(100);
    rehearsal.call({ kind: "out", eva: "eva-1" });
    await rehearsal.planAnew("mend");
    const { day, proposal } = rehearsal.state.getState();
    const { ahead } = day!.standing;
    expectOdds(proposal!.chances!.before, ahead, ahead.schedule);
    expectOdds(proposal!.chances!.after, ahead, proposal!.schedule);
  });

  it("of a row of the late table: the odds, on the days that the table counts, of the day with the task so late and the row obeyed", () => {
    const made = lateDay();
    // Of the moment at which x is left nothing is known but what the odds know as well.
    const begun = ["x", "u"];
    const sure = made.tasks.map((one) =>
      begun.includes(one.id) ? { ...one, must: true, duration: { likelyS: one.duration.likelyS } } : one,
    );
    const plan: Plan = {
      ...made,
      tasks: sure,
      crew: made.crew.map((one) => ({ ...one, workRateSpread: 0 })),
    };
    const run = lateTableRun(plan, plan.schedule, { minutes: [0, ...MINUTES], clock: () => 0 });
    while (run.step(Infinity));
    const row = run.report().evas[0]!.rows.find((one) => one.task === "x")!;
    expect(row.late[0]).toMatchObject({ kind: "keep", drop: [] });
    // The table chooses by the first days of the odds and counts on those after them.
    const skipped = 60;
    const shares = row.late.map((cell) => {
      if (!cell.result) return null;
      const late = latePlan(plan, "x", cell.minutes * 60);
      const obeyed = lateSchedule(plan.schedule, cell);
      const [first, all] = [skipped, skipped + SHOWN].map((days) => oddsOf(late, obeyed, days)) as [
        OddsReport,
        OddsReport,
      ];
      const then = (which: "home" | "must"): number => all[which].count - first[which].count;
      const worth = (all.worth.mean * (skipped + SHOWN) - first.worth.mean * skipped) / SHOWN;
      expect(all.crew).toMatchObject({ caution: CAUTION });
      expect(countsOf(cell.result), cell.sentence).toEqual({
        home: then("home"),
        must: then("must"),
        of: SHOWN,
      });
      expect(cell.result.meanWorth, cell.sentence).toBeCloseTo(worth, 9);
      return cell.result.must.share;
    });
    expect(new Set(shares).size).toBeGreaterThan(2);
  });
});

function countsOf({ home, must }: Outcome): { home: number; must: number; of: number } {
  return { home: home.count, must: must.count, of: must.of };
}
