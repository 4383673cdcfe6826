import { describe, expect, it } from "vitest";
import type { Finding, LateEntry, LateReport, LateRow } from "../../../../src/answers/index.ts";
import { check } from "../../../../src/check/index.ts";
import { duration, instant } from "../../../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../../../src/plan/index.ts";
import type { PlanInput } from "../../../../src/plan/plan.ts";
import { greedy } from "../../../../src/solver/index.ts";
import { lateTableRun } from "../../../../src/solver/question/late/index.ts";
import { MINUTES } from "../../../../src/solver/question/late/run.ts";
import { Played } from "../../../../src/solver/question/late/played.ts";
import { Remainder } from "../../../../src/solver/question/late/remainder.ts";
import { compiled } from "../../../../src/solver/problem/known.ts";
import { subsetsByCost } from "../../../../src/solver/question/late/subsets.ts";
import { smallAll } from "../../../plan/witness.ts";
import { demoDay } from "./demoDay.ts";
import { randomPlan } from "../../../properties/randomPlan.ts";
import { at, eva, task, type TaskInput, tinyPlan } from "../../../check/tinyPlan.ts";
import { crowdedPlan, samplePlan } from "../../../exchange/samplePlan.ts";
import { readyPlan } from "../../../readyplan.ts";
import { latePlan, lateSchedule } from "./obeyed.ts";

function tablesOf(plan: Plan, schedule: Schedule, minutes?: readonly number[]): LateReport {
  const run = lateTableRun(plan, schedule, { minutes, clock: () => 0 });
  while (run.step(Infinity));
  return run.report();
}

/** Breaches of the day as the cell has it, but for what lateness brings by itself and the cell owns up to. */
function newBreaches(plan: Plan, schedule: Schedule, row: LateRow, cell: LateEntry): Finding[] {
  const late = latePlan(plan, row.task, cell.minutes * 60);
  return check(late, lateSchedule(schedule, cell)).findings.filter(
    ({ level, rule, subjects, span }) =>
      level === "breach" &&
      // The late task's own window and lags, and what needed what is dropped now.
      !subjects.some(({ kind, id }) => kind === "task" && (id === row.task || cell.voided.includes(id))) &&
      // The stretch of work that the late task is part of.
      !(
        cell.breaks.includes(rule) &&
        rule === "work-and-rest" &&
        span !== null &&
        span.startS <= row.endS &&
        span.endS >= row.endS
      ),
  );
}

function holdsUp(plan: Plan, schedule: Schedule, report: LateReport): void {
  const verdict = check(plan, schedule);
  for (const { eva, rows } of report.evas)
    for (const row of rows) {
      let lost = { must: 0, worth: 0 };
      expect(row.late.map(({ minutes }) => minutes)).toEqual(report.minutes);
      for (const cell of row.late) {
        const where = `${plan.title}, ${row.task}, ${cell.minutes} min late`;
        if (cell.kind !== "over") expect(newBreaches(plan, schedule, row, cell), where).toEqual([]);
        else expect(cell.breaks.length, where).toBeGreaterThan(0);
        // Later never loses less by leaving out alone; another order never loses a must-do task more than that.
        const alone = cell.alone ?? cell;
        expect(
          cell.kind === "over" ||
            alone.mustLost > lost.must ||
            (alone.mustLost === lost.must && alone.worthLost >= lost.worth),
          where,
        ).toBe(true);
        if (cell.kind !== "over") lost = { must: alone.mustLost, worth: alone.worthLost };
        expect(cell.mustLost, where).toBeLessThanOrEqual(alone.mustLost);
        expect(cell.result === null, where).toBe(cell.kind === "over");
        expect(cell.alone !== null, where).toBe(cell.kind === "change");
        // Nobody starts before the plan, and in another order or something else not before the lateness is known.
        for (const { task: id, startS } of cell.moves) {
          const planned = schedule.placements.find((one) => one.task === id)?.startS ?? Infinity;
          const knownS = row.endS + cell.minutes * 60;
          if (cell.kind === "change") expect(startS, where).toBeGreaterThanOrEqual(Math.min(planned, knownS));
          else expect(startS, where).toBeGreaterThan(planned);
        }
        const after = lateSchedule(schedule, cell);
        const ids = after.placements.map((one) => one.task);
        expect(new Set(ids).size, where).toBe(ids.length);
        expect(cell.drop.every((id) => !ids.includes(id))).toBe(true);
        expect(cell.add.every((id) => !schedule.placements.some((one) => one.task === id))).toBe(true);
        if (cell.kind === "change") {
          for (const { crew, tasks } of cell.then)
            expect(
              ordered(after, crew, row.endS).filter((id) => tasks.includes(id)),
              where,
            ).toEqual(tasks);
          continue;
        }
        for (const member of plan.crew) {
          const order = (from: Schedule): string[] =>
            from.placements
              .filter((one) => one.crew.includes(member.id) && !cell.drop.includes(one.task))
              .sort((a, b) => a.startS - b.startS)
              .map((one) => one.task);
          expect(order(after), where).toEqual(order(schedule));
        }
      }
      for (const { minutes, fits } of row.early)
        for (const fit of fits) {
          const early = latePlan(plan, row.task, -minutes * 60);
          const more = { task: fit.task, eva, crew: [...fit.crew], startS: fit.startS };
          const judged = check(early, { placements: [...schedule.placements, more] });
          const where = `${plan.title}, ${row.task}, ${minutes} min early, ${fit.task}`;
          expect(judged.score.breaches, where).toBe(0);
          expect(judged.score.worth, where).toBeGreaterThanOrEqual(verdict.score.worth);
        }
    }
}

/** What a crew member still begins from a moment on, in order. */
function ordered({ placements }: Schedule, crew: string, fromS: number): string[] {
  return placements
    .filter((one) => one.crew.includes(crew) && one.startS >= fromS)
    .sort((a, b) => a.startS - b.startS)
    .map((one) => one.task);
}

describe("the late tables of the ready plans", () => {
  it.each([
    ["small", smallAll],
    ["demo", demoDay],
  ] as const)("leaves no new breach, never gains by being later, keeps the order: %s", (name, schedule) => {
    const plan = readyPlan(name);
    expect(check(plan, schedule).score.breaches).toBe(0);
    const report = tablesOf(plan, schedule);
    expect(report).toMatchObject({ sound: true, complete: true, minutes: MINUTES });
    const crewed = schedule.placements.filter((one) => one.eva !== null).length;
    expect(report.evas.flatMap(({ rows }) => rows)).toHaveLength(crewed);
    holdsUp(plan, schedule, report);
    const kinds = new Set(
      report.evas.flatMap(({ rows }) => rows.flatMap(({ late }) => late.map((c) => c.kind))),
    );
    expect([...kinds].sort()).toEqual(["change", "drop", "end", "keep", "over"]);
  });

  it("holds on the sample plan, and on random plans packed greedily", () => {
    holdsUp(samplePlan(), samplePlan().schedule, tablesOf(samplePlan(), samplePlan().schedule));
    let cells = 0;
    for (let seed = 1; seed <= 12; seed += 1) {
      const plan = randomPlan(seed, { tasks: 9, crew: 2, evas: 2, places: 5, features: 0.6 });
      const schedule = greedy(plan);
      if (check(plan, schedule).score.breaches > 0) continue;
      const report = tablesOf(plan, schedule, [5, 20, 45]);
      holdsUp(plan, schedule, report);
      cells += report.evas.flatMap(({ rows }) => rows).length;
    }
    expect(cells).toBeGreaterThan(20);
  });

  it("makes no table for a schedule that breaks a rule", () => {
    expect(tablesOf(crowdedPlan(), crowdedPlan().schedule)).toMatchObject({ sound: false, evas: [] });
  });
});

describe("what is dropped", () => {
  // ev1 works at the lander's door: a 600 s, b 600 s, c 600 s without a pause, egress work before, ingress work after.
  const plan = (closeS: number, more: { must?: string; needs?: boolean } = {}): Plan =>
    tinyPlan({
      tasks: [
        task("a", "a", { worth: 5, crew: { named: ["ev1"] } }),
        task("b", "a", { worth: 30, crew: { named: ["ev1"] }, must: more.must === "b" }),
        task("c", "a", { worth: 20, crew: { named: ["ev1"] }, must: more.must === "c" }),
      ],
      placements: [at("a", 6000), at("b", 6600), at("c", 7200)],
      evas: [
        {
          id: "eva-1",
          name: "eva-1",
          crew: ["ev1", "ev2"],
          earliestEgressS: 0,
          latestIngressS: closeS,
          longestS: 36_000,
          egressWorkS: 600,
          ingressWorkS: 600,
        },
      ],
      more:
        more.needs === true
          ? {
              links: [
                {
                  id: "both",
                  type: "lag",
                  from: { task: "a", end: "end" },
                  to: { task: "c", end: "start" },
                  leastS: 0,
                  needs: "both",
                },
              ],
            }
          : {},
    });
  // c ends at 7800, home at 8100, ingress complete at 8700.
  const first = (made: Plan, minutes: number): LateEntry =>
    tablesOf(made, made.schedule, [minutes]).evas[0]!.rows[0]!.late[0]!;

  it("is nothing while the slack lasts, the least worthy that helps beyond it, everything at the end", () => {
    expect(first(plan(9000), 5)).toMatchObject({ kind: "keep", drop: [], worthLost: 0 });
    expect(first(plan(9000), 10)).toMatchObject({ kind: "drop", drop: ["c"], worthLost: 20, mustLost: 0 });
    expect(first(plan(9000), 20)).toMatchObject({ kind: "end", drop: ["b", "c"], worthLost: 50 });
    expect(first(plan(9000), 30)).toMatchObject({
      kind: "over",
      breaks: expect.arrayContaining(["eva-bounds"]) as unknown,
    });
  });

  it("keeps a must-do task before worth", () => {
    expect(first(plan(9000, { must: "c" }), 10)).toMatchObject({ kind: "drop", drop: ["b"], mustLost: 0 });
  });

  it("keeps what something done already needs, and says what was in vain where that does not go", () => {
    // Dropping c would lose a as well, 25 in all, still less than b.
    expect(first(plan(9000, { needs: true }), 10)).toMatchObject({
      kind: "drop",
      drop: ["c"],
      voided: ["a"],
      worthLost: 25,
    });
  });
});

describe("what is dropped for the wish", () => {
  // ev1 works at the lander's door from 6000 on without a pause: a 600 s, m 600 s, r 600 s, o 1,200 s until 9000; home 9300, ingress complete 9900.
  const work = (id: string, worth: number, likelyS: number, more: Partial<TaskInput> = {}): TaskInput =>
    task(id, "a", { worth, crew: { named: ["ev1"] }, duration: { likelyS }, ...more });
  const madeWith = (remedy: object): Plan =>
    tinyPlan({
      crew: [
        { id: "ev1", name: "EV1", bodyMassKg: 80, suit: "suit", workRateSpread: 0 },
        { id: "ev2", name: "EV2", bodyMassKg: 70, suit: "suit", workRateSpread: 0 },
      ],
      tasks: [
        work("a", 5, 600),
        work("m", 30, 600, {
          must: true,
          mishap: { what: "no answer", chance: 0.3, spoils: true, ...remedy },
        }),
        work("r", 1, 600),
        work("o", 3, 1200),
      ],
      placements: [at("a", 6000), at("m", 6600), at("r", 7200), at("o", 7800)],
      evas: [eva("eva-1", { latestIngressS: 9900 + 60 })],
    });
  const byHand = { remedy: { name: "By hand", after: "r", duration: { likelyS: 60 } } };
  const late = (made: Plan) => tablesOf(made, made.schedule, [10, 20]).evas[0]!.rows[0]!.late;

  it("is what loses least as planned where nothing stands on it", () => {
    // 10 min late 600 s have to go, 20 min late 1,200 s.
    expect(late(madeWith({})).map(({ drop }) => drop)).toEqual([["r"], ["o"]]);
  });

  it("is what is dropped when later where that does more: by r must-do work is made good", () => {
    const [ten, twenty] = late(madeWith(byHand));
    expect(twenty).toMatchObject({ drop: ["o"], result: { must: { count: 300 } } });
    // Without r every third day or so would lose m.
    expect(ten).toMatchObject({ kind: "drop", drop: ["o"], least: false, result: { must: { count: 300 } } });
  });
});

describe("another order", () => {
  // ev1 works at the lander's door: a 600 s, b 1,200 s, c 600 s until 9000 at the latest, one after the other from 6000 on.
  // The EVA closes at 10200: home from the place takes 300 s, ingress work 600 s, so work ends by 9300.
  const plan = (more: Partial<PlanInput> = {}, fast = false): Plan =>
    tinyPlan({
      tasks: [
        task("a", "a", { worth: 5, crew: { named: ["ev1"] }, duration: { likelyS: 600 } }),
        task("b", "a", { worth: 30, crew: { named: ["ev1"] }, duration: { likelyS: 1200 } }),
        task("c", "a", {
          worth: 20,
          crew: { named: ["ev1"] },
          duration: { likelyS: 600 },
          windows: [{ startS: 6000, endS: 9000 }],
        }),
        ...(fast
          ? [task("d", "a", { worth: 25, crew: { named: ["ev1"] }, duration: { likelyS: 300 } })]
          : []),
      ],
      placements: [at("a", 6000), at("b", 6600), at("c", 7800)],
      evas: [
        {
          id: "eva-1",
          name: "eva-1",
          crew: ["ev1", "ev2"],
          earliestEgressS: 0,
          latestIngressS: 10_200,
          longestS: 36_000,
          egressWorkS: 600,
          ingressWorkS: 600,
        },
      ],
      more,
    });
  const first = (made: Plan, minutes: number): LateEntry =>
    tablesOf(made, made.schedule, [minutes]).evas[0]!.rows[0]!.late[0]!;

  it("does what has a window first, and loses nothing", () => {
    // 15 min late a ends at 7500: b then c would end at 9300, after the window; c then b end at 8100 and 9300.
    const cell = first(plan(), 15);
    expect(cell).toMatchObject({
      kind: "change",
      drop: [],
      add: [],
      mustLost: 0,
      worthLost: 0,
      then: [{ crew: "ev1", tasks: ["c", "b"] }],
      alone: { mustLost: 0, worthLost: 20 },
      least: false,
    });
    expect(cell.moves.map(({ task: id, startS }) => [id, startS])).toEqual(
      expect.arrayContaining([
        ["b", 8100],
        ["c", 7500],
      ]),
    );
    // Nothing has a spread: every day goes so. 5 + 30 + 20, and without c 35.
    expect(cell.result).toMatchObject({ meanWorth: 55, must: { count: 300, of: 300 } });
    expect(cell.alone!.result).toMatchObject({ meanWorth: 35 });
  });

  it("takes up something else from the bench where what was planned has no room left", () => {
    // 20 min late a ends at 7800: c until 8400, b until 9600 is too late. d takes 300 s.
    expect(first(plan(), 20)).toMatchObject({ kind: "drop", drop: ["c"], worthLost: 20 });
    expect(first(plan({}, true), 20)).toMatchObject({
      kind: "change",
      drop: ["c"],
      add: ["d"],
      worthLost: -5,
      result: { meanWorth: 60 },
      alone: { worthLost: 20, result: { meanWorth: 35 } },
    });
  });

  it("counts what being late loses whatever is done, with what needs it", () => {
    // a has to end by 6900: 10 min late it is lost, and c that needs it.
    const spoilt = plan({
      links: [
        {
          id: "a-c",
          type: "lag",
          from: { task: "a", end: "end" },
          to: { task: "c", end: "start" },
          leastS: 0,
          needs: "from",
        },
      ],
    });
    const made: Plan = {
      ...spoilt,
      tasks: spoilt.tasks.map((one) =>
        one.id === "a" ? { ...one, windows: [{ startS: instant(6000), endS: instant(6900) }] } : one,
      ),
    };
    expect(first(made, 5)).toMatchObject({ voided: [], worthLost: 0, result: { meanWorth: 55 } });
    expect(first(made, 10)).toMatchObject({ worthLost: 25, result: { meanWorth: 30 } });
  });

  it("goes on where the window from egress of what is late is over: that is lost, and no rule that leaving the rest out would keep", () => {
    // Egress at 300; a ends 1500 s after it and may 1600 s after it, b follows at 1800.
    const made = tinyPlan({
      tasks: [task("a", "a", { worth: 10, pet: { startS: 900, endS: 1600 } }), task("b", "a", { worth: 7 })],
      placements: [at("a", 1200), at("b", 1800)],
      crew: [{ id: "ev1", name: "EV1", bodyMassKg: 80, suit: "suit", workRateSpread: 0 }],
      evas: [eva("eva-1", { crew: ["ev1"] })],
    });
    const [cell] = tablesOf(made, made.schedule, [5]).evas[0]!.rows[0]!.late;
    expect(cell).toMatchObject({
      kind: "keep",
      drop: [],
      breaks: [],
      worthLost: 10,
      result: { meanWorth: 7 },
    });
  });

  it("shows what a crew comes to that follows the cell: its drops, moves and additions, laid on the day and played again", () => {
    let cells = 0;
    let changed = 0;
    for (let seed = 1; seed <= 8; seed += 1) {
      const drawn = randomPlan(seed, { tasks: 10, crew: 2, evas: 1, places: 4, features: 0.5 });
      const late: Plan = {
        ...drawn,
        tasks: drawn.tasks.map((one) => {
          const { likelyS } = one.duration;
          return { ...one, duration: { likelyS, highS: duration(2 * likelyS) } };
        }),
      };
      const schedule = greedy(late);
      if (check(late, schedule).score.breaches > 0) continue;
      const problem = compiled(late, schedule);
      const played = new Played(problem);
      for (const { eva, rows } of tablesOf(late, schedule, [20]).evas)
        for (const row of rows) {
          const a = late.tasks.findIndex(({ id }) => id === row.task);
          const e = late.evas.findIndex(({ id }) => id === eva);
          const remainder = new Remainder(problem, schedule, a, e);
          const [cell] = row.late;
          if (!cell?.result) continue;
          cells += 1;
          if (cell.kind === "change") changed += 1;
          const again = played.outcome(
            remainder,
            problem.lengthS[a]! + 20 * 60,
            lateSchedule(schedule, cell),
          );
          expect(again, `seed ${seed}, ${cell.sentence}`).toEqual(cell.result);
        }
    }
    expect(cells).toBeGreaterThan(15);
    expect(changed).toBeGreaterThan(0);
  });

  it("gives the same twice, and on days without spread what it plans", () => {
    let cells = 0;
    let changed = 0;
    for (let seed = 1; seed <= 38; seed += 1) {
      const random = randomPlan(seed, { tasks: 10, crew: 2, evas: 1, places: 4, features: 0.5 });
      const sure: Plan = {
        ...random,
        tasks: random.tasks.map((one) => ({ ...one, duration: { likelyS: one.duration.likelyS } })),
        crew: random.crew.map((one) => ({ ...one, workRateSpread: 0 })),
      };
      const schedule = greedy(sure);
      const { breaches, worth } = check(sure, schedule).score;
      if (breaches > 0) continue;
      const report = tablesOf(sure, schedule, [10, 30]);
      expect(tablesOf(sure, schedule, [10, 30])).toEqual(report);
      for (const row of report.evas.flatMap(({ rows }) => rows))
        for (const cell of row.late) {
          if (!cell.result) continue;
          cells += 1;
          if (cell.kind === "change") changed += 1;
          const where = `seed ${seed}, ${row.task}, ${cell.sentence}`;
          // Where a stretch of work is too long the crew rests on the day, which the row says and no plan has.
          if (cell.breaks.includes("work-and-rest"))
            expect(cell.result.meanWorth, where).toBeLessThanOrEqual(worth - cell.worthLost);
          else expect(cell.result.meanWorth, where).toBe(worth - cell.worthLost);
        }
    }
    expect(cells).toBeGreaterThan(60);
    expect(changed).toBeGreaterThan(5);
  });
});

describe("subsets by cost", () => {
  it("come each once, cheapest first", () => {
    const costs = [1, 2, 2, 5, 9];
    const all = [...subsetsByCost(costs)];
    expect(all).toHaveLength(32);
    expect(new Set(all.map(({ items }) => items.join(" "))).size).toBe(32);
    for (const { cost, items } of all) expect(cost).toBe(items.reduce((sum, i) => sum + costs[i]!, 0));
    for (let i = 1; i < all.length; i += 1) expect(all[i]!.cost).toBeGreaterThanOrEqual(all[i - 1]!.cost);
  });
});
