import { beforeAll, describe, expect, it } from "vitest";
import { check, homeIfs } from "../../../../src/check/index.ts";
import { type SheetFacts } from "../../../../src/exchange/index.ts";
import { printedDay } from "../../../../src/exchange/paper/leaving/printedday.ts";
import { consoleBodies, consoleRows, GAUGES } from "../../../../src/exchange/paper/sheets/console.ts";
import { flightRulesBody, ruleRows } from "../../../../src/exchange/paper/sheets/flightrules.ts";
import {
  evasOut,
  givenOf,
  type SheetGiven,
  placedTasksOf,
} from "../../../../src/exchange/paper/sheets/given.ts";
import { gaugeRows } from "../../../../src/exchange/paper/sheets/gauges.ts";
import { answerAt, type Late, lateAnswers } from "../../../../src/exchange/paper/late.ts";
import { lateBody } from "../../../../src/exchange/paper/sheets/late.ts";
import { lateLines } from "../../../../src/exchange/paper/sheets/latelines.ts";
import { leftOutRows } from "../../../../src/exchange/paper/sheets/leftout.ts";
import { caseLoads } from "../../../../src/exchange/paper/sheets/manifest.ts";
import { scenarioRows } from "../../../../src/exchange/paper/sheets/rehearsal.ts";
import { stationRows } from "../../../../src/exchange/paper/sheets/stations.ts";
import { carriedRows, stowageBody, toolRows } from "../../../../src/exchange/paper/sheets/stowage.ts";
import { duration } from "../../../../src/kernel/index.ts";
import type { LateRow } from "../../../../src/answers/index.ts";
import { crewName, numberedSentence, taskNumber } from "../../../../src/words/index.ts";
import { signedValue } from "../../../../src/plan/index.ts";
import { FLIGHT_RULES, RULE_IDS } from "../../../../src/rules/index.ts";
import { readyPlan } from "../../../readyplan.ts";
import { randomPlan } from "../../../properties/randomPlan.ts";
import { planOf, samplePlan, taskOf } from "../../samplePlan.ts";
import { factsOf, packed } from "./facts.ts";

/** Rows of sheets held against the judge, each worked out here once more from the verdict alone. */

let all: { name: string; given: SheetGiven }[] = [];

beforeAll(async () => {
  const plans = [
    samplePlan(),
    packed(readyPlan("small")),
    ...[3, 8, 21, 34].map((seed) =>
      packed(randomPlan(seed, { tasks: 12, crew: 1 + (seed % 3), evas: 2, places: 6, features: 0.5 })),
    ),
  ];
  all = await Promise.all(
    plans.map(async (plan) => {
      const facts: SheetFacts = await factsOf(plan);
      return { name: plan.title, given: givenOf(facts) };
    }),
  );
}, 0);

describe("the sheet of flight rules", () => {
  it("says who has signed a rule and whose sign-off a change undid, and nothing where nobody has signed", () => {
    const given = all[0]!.given;
    const about = { kind: "rule", id: "walkback" } as const;
    const head = { about, atUtc: "2031-03-31T08:30:00Z" };
    const signoffs = [
      { ...head, id: "s1", by: "B. Surgeon", value: signedValue(given.plan, about) ?? "" },
      { ...head, id: "s2", by: "A", value: "0".repeat(64) },
    ];
    const titles = (of: SheetGiven) =>
      flightRulesBody(of).sections.map((one) => ("title" in one ? one.title : ""));
    expect(titles(given)).not.toContain("Sign-offs, under names as they were typed");
    const signed = { ...given, plan: { ...given.plan, signoffs } };
    expect(titles(signed)).toContain("Sign-offs, under names as they were typed");
    const text = JSON.stringify(flightRulesBody(signed));
    expect(text).toContain("Signed by B. Surgeon, 31 Mar 2031 08:30 UTC.");
    expect(text).toContain("Changed since it was signed by A, 31 Mar 2031 08:30 UTC.");
  });
});

describe("GO IF on paper", () => {
  it("asks of every gauge for what the printed day draws and the reserve, never less", () => {
    let asked = 0;
    for (const { name, given } of all) {
      for (const { eva, crew, consumable, points, reserve, stock } of given.played.margins) {
        const least = given.goIf.find((one) => one.eva === eva && one.crew === crew)?.leastPct?.[consumable];
        const needPct = (100 * (points[0]!.value - points.at(-1)!.value + reserve)) / stock;
        expect(least, `${name}, ${eva}, ${crew}, ${consumable}`).toBeGreaterThanOrEqual(needPct - 1e-9);
        asked += 1;
      }
    }
    expect(asked).toBeGreaterThan(20);
  });
});

describe("the console timeline", () => {
  it("has every gauge as the judge's track has it, never above", () => {
    for (const { given } of all) {
      for (const { eva, outings } of evasOut(given)) {
        for (const row of consoleRows(given, eva, outings)) {
          row.gauges.forEach((gauges, k) =>
            gauges.forEach(({ left, least }, i) => {
              const track = given.played.margins.find(
                (one) =>
                  one.eva === eva.id &&
                  one.crew === outings[k]!.crew &&
                  one.consumable === GAUGES[i]!.consumable,
              )!;
              // Straight between the two points of the track about this moment.
              const after = track.points.findIndex((point) => point.atS >= row.atS);
              const [a, b] = [track.points[Math.max(0, after - 1)]!, track.points[after]!];
              const span = b.atS - a.atS;
              const here = span === 0 ? b.value : a.value + ((b.value - a.value) * (row.atS - a.atS)) / span;
              expect(left!).toBeCloseTo(here / track.stock, 9);
              // HOME IF of the task at work; never under the reserve that is left at ingress, which it is once inside.
              const { doing } = row.crew[k]!;
              const at = homeIfs(given.plan).find(
                (one) =>
                  one.eva === eva.id &&
                  one.crew === track.crew &&
                  one.at === "task" &&
                  one.task === doing?.task,
              );
              if (doing?.kind === "task") expect(least).toBe((at?.leastPct?.[track.consumable] ?? NaN) / 100);
              if (doing?.kind === "in") expect(least).toBeCloseTo(track.reserve / track.stock, 9);
              else expect(least ?? Infinity).toBeGreaterThanOrEqual(track.reserve / track.stock);
            }),
          );
        }
      }
    }
  });

  it("has a row for the begin of every task, walk and rest of every crew member, in order", () => {
    for (const { given } of all) {
      for (const { eva, outings } of evasOut(given)) {
        const rows = consoleRows(given, eva, outings);
        expect(rows.map(({ atS }) => atS)).toEqual(
          [...new Set(rows.map(({ atS }) => atS))].sort((a, b) => a - b),
        );
        outings.forEach((outing, k) => {
          const begins = rows.filter(({ crew }) => crew[k]!.begins);
          const tasks = begins.flatMap(({ atS, crew }) =>
            crew[k]!.doing?.task ? [`${crew[k]!.doing.task} ${atS}`] : [],
          );
          const own = placedTasksOf(given.plan).filter(
            (placed) => placed.eva === eva.id && placed.crew.includes(outing.crew),
          );
          expect(tasks.toSorted()).toEqual(
            own.map((placed) => `${placed.task.id} ${placed.startS}`).toSorted(),
          );
          // A rest that the work limit needs is a line of its own, or restful work.
          for (const rest of given.played.rests)
            if (rest.eva === eva.id && rest.crew === outing.crew) {
              const at = rows.findLast(({ atS }) => atS <= rest.span.endS - rest.needS);
              expect(["rest", "task"]).toContain(at?.crew[k]!.doing?.kind);
            }
          expect(begins.at(-1)?.atS).toBe(outing.span.endS);
        });
      }
    }
  });

  it("says when the relay comes up and goes down, in the row in which it does", async () => {
    // Passes are from 2:30 to 4:20, from 11:40 to 13:40 and from 16:50 to 18:40; the second lies between the EVAs, and the last outlasts EVA 2.
    const given = givenOf(await factsOf(samplePlan()));
    const said = evasOut(given).flatMap(({ eva, outings }) =>
      consoleRows(given, eva, outings).flatMap(({ relay }) =>
        relay.changes.map(({ atS, up }) => `${atS / 60} ${up ? "up" : "down"}`),
      ),
    );
    expect(said).toEqual(["150 up", "260 down", "1010 up"]);
  });

  it("names work that takes no time, in the row of the moment, before what begins at once after it", async () => {
    const plan = samplePlan();
    const tasks = plan.tasks.map((task) =>
      task.id === "rake" ? { ...task, duration: { likelyS: duration(0) } } : task,
    );
    const given = givenOf(await factsOf({ ...plan, tasks }));
    const timeline = consoleBodies(given)[0]!.sections.find((one) => one.kind === "table")!;
    const row = timeline.rows.find(({ cells }) => cells[0]!.text === "3:38")!;
    // EV1 rakes at the boulder, 622.6 m from the lander, and walks home at once: 692 s at 0.9 m/s, 12 min.
    expect(row.cells[3]).toMatchObject({ number: "7", text: "Rake sample; walk to Lander, 12 min" });
    expect(row.cells[4]).toMatchObject({ number: "6", text: "Double core tube" });
  });

  it("has no walk-back and no distance apart below any point of the judge's between two rows", () => {
    for (const { given } of all) {
      for (const { eva, outings } of evasOut(given)) {
        const rows = consoleRows(given, eva, outings);
        rows.slice(0, -1).forEach((row, i) => {
          const within = (atS: number): boolean => row.atS <= atS && atS <= rows[i + 1]!.atS;
          outings.forEach((outing, k) => {
            const track = given.played.reach.find((one) => one.eva === eva.id && one.crew === outing.crew)!;
            const most = Math.max(
              0,
              ...track.points.filter(({ atS }) => within(atS)).map(({ value }) => value),
            );
            expect(row.homeS[k] ?? 0).toBeGreaterThanOrEqual(most);
          });
          // Where it jumps, only what it is on this side of a row's begin and end.
          const apart = given.played.separation
            .filter((one) => one.eva === eva.id)
            .flatMap(({ points }) =>
              points
                .filter(
                  ({ atS }, p) =>
                    within(atS) &&
                    (atS > row.atS || points[p + 1]?.atS !== atS) &&
                    (atS < rows[i + 1]!.atS || points[p - 1]?.atS !== atS),
                )
                .map(({ value }) => value),
            );
          expect(row.apartM ?? 0).toBeGreaterThanOrEqual(Math.max(0, ...apart));
        });
      }
    }
  });

  it("has nobody farther apart before a task begins that may lead off its place, and at the lander asks for no more than its gauges", () => {
    const at = (task: string, crew: string, startS: number) => ({ task, eva: "eva-1", crew: [crew], startS });
    const plan = planOf(
      [taskOf("look", { place: "pad" }), taskOf("dig"), taskOf("stroll", { walkM: 200 })],
      [at("look", "ev1", 7500), at("dig", "ev2", 7500), at("stroll", "ev2", 8700)],
    );
    const given = givenOf({ plan, verdict: check(plan), day: printedDay(plan), sunDeg: () => null });
    const [{ eva, outings }] = evasOut(given) as [ReturnType<typeof evasOut>[0]];
    const rows = consoleRows(given, eva, outings);
    // Both reach their places at the same moment: 360 m from each other, and 100 m more while one strolls.
    expect(rows.find(({ atS }) => atS === 7500)?.apartM).toBeCloseTo(360, 6);
    expect(rows.find(({ atS }) => atS === 8700)?.apartM).toBeGreaterThan(460);
    const waits = rows.filter(({ crew }) => crew[0]!.doing?.kind === "wait");
    const lander = homeIfs(plan).find((one) => one.at === "lander" && one.crew === "ev1");
    expect(waits.length).toBeGreaterThan(0);
    const last = rows.findLast(
      ({ crew }) => crew[0]!.doing?.words.startsWith("wait") && crew[0]!.doing.words.endsWith("Lander"),
    );
    expect(last?.gauges[0]![0]!.least).toBe((lander?.leastPct?.oxygen ?? NaN) / 100);
  });

  it("is of a day in which nothing breaks that does not break when everybody leaves at once", () => {
    for (const { given } of all)
      expect(given.played.score.breaches).toBeLessThanOrEqual(check(given.plan).score.breaches);
  });
});

describe("the other sheets", () => {
  it("have gauges for every crew member at every end of a task", () => {
    for (const { given } of all)
      for (const { eva } of evasOut(given)) {
        const placedTasks = placedTasksOf(given.plan).filter((placed) => placed.eva === eva.id);
        const rows = gaugeRows(given, eva);
        expect(rows).toHaveLength(placedTasks.reduce((sum, placed) => sum + placed.crew.length, 0));
        expect(rows.map(({ placed }) => placed.endS)).toEqual(
          rows.map(({ placed }) => placed.endS).toSorted((a, b) => a - b),
        );
      }
  });

  it("sum the cases to what the judge says is lifted", () => {
    for (const { given } of all) {
      const sum = caseLoads(given).reduce((total, load) => total + load.withCaseKg, 0);
      expect(sum).toBeCloseTo(given.verdict.returnKg, 6);
    }
  });

  it("name all that is carried and every tool in use, and how many at once as the judge counts them", () => {
    for (const { given } of all) {
      const out = evasOut(given).flatMap(({ eva }) => carriedRows(given, eva));
      expect(out.map(({ task }) => task.id).toSorted()).toEqual(
        placedTasksOf(given.plan)
          .filter(({ task, eva }) => task.massOutKg > 0 && eva !== null)
          .map(({ task }) => task.id)
          .toSorted(),
      );
      for (const { eva } of evasOut(given))
        for (const row of toolRows(given, eva)) {
          // At every minute of the EVA, counted anew.
          const ends = row.uses.flatMap(({ startS, endS }) => [startS, endS - 1]);
          const counts = ends.map((atS) =>
            row.uses
              .filter((placed) => placed.startS <= atS && atS < placed.endS)
              .flatMap(({ task }) => task.equipment.filter((one) => one.equipment === row.equipment))
              .reduce((sum, one) => sum + one.count, 0),
          );
          expect(row.atOnce).toBe(Math.max(...counts));
        }
    }
  });

  it("name who carries: both and all where nobody stays behind, and by name who goes out alone", async () => {
    const carrier = async (crew: string[], out: string[]): Promise<string[]> => {
      const plan = planOf(
        [taskOf("load", { massOutKg: 3, crew: { count: crew.length } })],
        [{ task: "load", eva: "eva-1", crew, startS: 6000 }],
      );
      const evas = plan.evas.map((eva) => (eva.id === "eva-1" ? { ...eva, crew: out } : eva));
      const body = stowageBody(givenOf(await factsOf({ ...plan, evas })));
      const tables = body.sections.flatMap((one) => (one.kind === "table" ? [one] : []));
      return tables.flatMap(({ rows }) => rows.map(({ cells }) => cells[2]!.text));
    };
    expect(await carrier(["ev1"], ["ev1"])).toEqual(["EV1"]);
    expect(await carrier(["ev1"], ["ev1", "ev2"])).toEqual(["EV1"]);
    expect(await carrier(["ev1", "ev2"], ["ev1", "ev2"])).toEqual(["both"]);
  });

  it("have every task of the plan on the day or left out, and the bench's own words for it", () => {
    for (const { given } of all) {
      const rows = leftOutRows(given);
      const placed = placedTasksOf(given.plan).map(({ task }) => task.id);
      expect([...rows.map(({ task }) => task.id), ...placed].toSorted()).toEqual(
        given.plan.tasks.map(({ id }) => id).toSorted(),
      );
      for (const { task, reason } of rows) {
        const said = given.reasons?.find((one) => one.task === task.id)?.sentence;
        // A task that the sentence names has its number before it.
        expect(reason).toBe(said === undefined ? null : numberedSentence(given.plan, said));
      }
    }
  });

  it("have every task of an EVA at the place where it begins", () => {
    for (const { given } of all)
      for (const { eva } of evasOut(given)) {
        const rows = stationRows(given, eva);
        const ids = rows.flatMap(({ place, placedTasks }) =>
          placedTasks.map(({ task }) => `${place.id} ${task.id}`),
        );
        const own = placedTasksOf(given.plan).filter(
          (placed) => placed.eva === eva.id && placed.crew.length > 0,
        );
        expect(ids.toSorted()).toEqual(own.map(({ task }) => `${task.place} ${task.id}`).toSorted());
      }
  });

  it("have every rule once, with who decides on it", () => {
    for (const { given } of all) {
      const rows = ruleRows(given);
      expect(rows.map(({ rule }) => rule)).toEqual(RULE_IDS);
      for (const { rule, owner, source } of rows) {
        expect(owner).toBe(FLIGHT_RULES[rule].decides ?? "the planner");
        expect(source).not.toBe("");
      }
    }
  });

  /** The lines of a row, with the answers that the pages of the crew have. */
  const linesOf = (given: SheetGiven, eva: string, row: LateRow) => {
    const late = lateAnswers(given.plan, given.verdict, given.lateTable)(eva, row.task, row.endS);
    return { late, lines: lateLines(given, row, late) };
  };

  it("answer every lateness of the table once, with all of the order, as pages do and never better than it is", () => {
    const seen = { tested: 0, untested: 0, over: 0 };
    for (const { given } of all)
      for (const { eva, rows } of given.lateTable?.evas ?? []) {
        const numbers = (ids: readonly string[]): string[] => ids.map((id) => taskNumber(given.plan, id));
        for (const row of rows) {
          const { late, lines } = linesOf(given, eva, row);
          expect(lines.flatMap((line) => line.minutes)).toEqual(row.late.map((cell) => cell.minutes));
          for (const cell of row.late) {
            const line = lines.find((one) => one.minutes.includes(cell.minutes))!;
            expect(line.doneByS).toBe(row.endS + line.minutes.at(-1)! * 60);
            const answer = answerAt(late, row.endS + cell.minutes * 60);
            if (!answer) {
              expect(line.kind).toBe(cell.kind === "over" || cell.kind === "end" ? cell.kind : "untested");
              expect(line.says).toMatch(
                /^(NO TESTED ANSWER: .*ask|END AT ONCE, tell|END: walk home, tell) those in charge/,
              );
              expect(line).toMatchObject({ orders: [], takeUp: [], result: null });
              seen[cell.kind === "over" ? "over" : "untested"] += 1;
              continue;
            }
            // Of these minutes, or of the later ones that it was found for.
            const source = [cell, ...row.late].find(
              (one) =>
                (one === cell || row.endS + one.minutes * 60 === answer.doneByS) &&
                numbers(one.drop).join() === line.out.join() &&
                (one.kind === "end") === answer.home &&
                one.kind === line.kind,
            )!;
            expect(line).toMatchObject({
              kind: source.kind,
              out: numbers(source.drop),
              takeUp: numbers(source.add),
            });
            expect(line.out).toEqual(numbers(answer.leaveOut));
            expect(line.orders).toEqual(
              answer.then.map(({ crew, tasks }) => ({
                who: crewName(given.plan, crew),
                tasks: numbers(tasks),
              })),
            );
            for (const id of source.voided) expect(line.says).toContain(taskNumber(given.plan, id));
            expect(line.says).not.toContain("those in charge");
            expect(line.says.includes("REST ")).toBe(answer.rests.length > 0);
            for (const { task } of [...answer.rests, ...answer.from])
              expect(line.says).toContain(taskNumber(given.plan, task));
            expect(line.result === null).toBe(source.result === null);
            expect(line.result?.must.share ?? 0).toBeLessThanOrEqual(source.result?.must.share ?? 0);
            expect(line.result?.home.share ?? 0).toBeLessThanOrEqual(source.result?.home.share ?? 0);
            expect(line.result?.meanWorth ?? 0).toBeLessThanOrEqual(source.result?.meanWorth ?? 0);
            seen.tested += 1;
          }
        }
      }
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(0);
  });

  it("say of every answer what is done then: in whose order, or in the planned one", () => {
    const row = all.flatMap(({ given }) => given.lateTable?.evas ?? []).flatMap(({ rows }) => rows)[0]!;
    const { given } = all.find((one) => one.given.lateTable?.evas.some(({ rows }) => rows.includes(row)))!;
    const moved = {
      ...row.late[0]!,
      kind: "change" as const,
      drop: [],
      add: [],
      voided: [],
      breaks: [],
      then: [],
    };
    const late: Late = {
      answers: [
        {
          doneByS: row.endS + moved.minutes * 60,
          ...{ leaveOut: [], then: [], rests: [], onArrival: false, from: [], home: false },
        },
      ],
      why: "",
    };
    const [line] = lateLines(given, { ...row, late: [moved] }, late);
    expect(line).toMatchObject({ orders: [], says: "all else in its planned order" });
    for (const one of all)
      for (const { eva, rows } of one.given.lateTable?.evas ?? [])
        for (const { says, orders } of rows.flatMap((each) => linesOf(one.given, eva, each).lines))
          expect(says !== "" || orders.length > 0).toBe(true);
  });

  it("decode every number of the late table, and set an order on a line of its own for each who has one", () => {
    for (const { given } of all) {
      const tables = lateBody(given).sections.flatMap((one) => (one.kind === "table" ? [one] : []));
      given.lateTable?.evas.forEach(({ eva, rows }, i) => {
        const [names, answers] = [tables[2 * i]!, tables[2 * i + 1]!];
        const decoded = names.rows.flatMap(({ cells }) => cells.map((cell) => `${cell.number} ${cell.text}`));
        for (const { task, late } of rows)
          for (const id of [
            task,
            ...late.flatMap(({ drop, then }) => [drop, ...then.map((one) => one.tasks)].flat()),
          ])
            expect(decoded).toContain(
              `${taskNumber(given.plan, id)} ${given.plan.tasks.find((one) => one.id === id)!.name}`,
            );
        expect(new Set(decoded).size).toBe(decoded.length);
        const lines = rows.flatMap((row) => linesOf(given, eva, row).lines);
        const whole = lines.flatMap(({ orders }) => orders);
        const written = answers.rows.map(({ cells }) => cells.map(({ text }) => text).join("|"));
        for (const { who, tasks } of whole)
          expect(written.some((one) => one.includes(`|${who}: ${tasks.join(", ") || "home"}`))).toBe(true);
        // Both chances of every answer stand in its row, each with its sampling error.
        const said = answers.rows.flatMap(({ cells }) =>
          cells.map(({ text, under }) => `${text} (${under})`),
        );
        const counted = lines.flatMap(({ result }) => result ?? []);
        for (const { words } of counted.flatMap(({ home, must }) => [home, must]))
          expect(said).toContain(words.includes("(") ? words : `${words} (undefined)`);
        // What was found for a task that is left early nobody has tested as paper is obeyed.
        const early = rows.filter((row) => row.early.some(({ fits }) => fits.length > 0)).length;
        expect(
          written.filter((one) => / early\|one more may fit, ask those in charge: \d/.test(one)),
        ).toHaveLength(early);
        // Every row takes all columns.
        for (const { cells } of answers.rows)
          expect(cells.reduce((sum, { span = 1 }) => sum + span, 0)).toBeLessThanOrEqual(
            answers.columns.length,
          );
      });
    }
  });

  it("have all that was thrown into a rehearsal, and nothing that the crew called by itself", () => {
    for (const { given } of all) {
      const kinds = scenarioRows(given.rehearsal!).map(({ kind }) => kind);
      expect(kinds.filter((kind) => kind === "hold" || kind === "note")).toEqual(["hold", "note"]);
      for (const own of ["out", "in", "begins", "ends"] as const) expect(kinds).not.toContain(own);
    }
  });
});
