import { describe, expect, it } from "vitest";
import type { ChancesReport } from "../../../src/answers/index.ts";
import { check } from "../../../src/check/index.ts";
import { daySheet, stampOf } from "../../../src/exchange/index.ts";
import { STANDING } from "../../../src/exchange/paper/cuff.ts";
import { marginCells } from "../../../src/exchange/paper/day/summary.ts";
import { type Plan, shortFingerprint } from "../../../src/plan/index.ts";
import { printedDay } from "../../../src/exchange/paper/leaving/printedday.ts";
import { instant } from "../../../src/kernel/index.ts";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";
import { chancesReport } from "../../session/answers.ts";
import { numberedTask } from "../../../src/words/index.ts";
import { READY_NAMES, readyPlan } from "../../readyplan.ts";
import { crowdedPlan, planOf, samplePlan, taskOf } from "../samplePlan.ts";
import { overflows, textsOf, wordsOf } from "./reading.ts";

/**
 * Three EVAs of 24 short tasks with long names for each of two people: more than a sheet, with names that stand below
 * by number. The first word of a name is its own.
 */
function manySheets(): Plan {
  const [first] = samplePlan().evas;
  const evas = [0, 1, 2].map((i) => ({
    ...first!,
    id: `eva-${i + 1}`,
    name: `Outing ${i + 1}`,
    earliestEgressS: 3600 + i * 28_000,
    latestIngressS: 3600 + i * 28_000 + 27_000,
  }));
  const spots = evas.flatMap(({ id, crew, earliestEgressS }) =>
    crew.flatMap((member, k) =>
      Array.from({ length: 24 }, (_, i) => ({
        task: `${id}-${member}-${i}`,
        eva: id,
        crew: [member],
        startS: earliestEgressS + 1500 + i * 900 + k * 60,
      })),
    ),
  );
  const tasks = spots.map(({ task }) =>
    taskOf(task, { name: `${task} documented sample below the rim`, duration: { likelyS: 480 } }),
  );
  return planOf(tasks, spots, { evas });
}

const stampFor = (plan: Plan) => stampOf(plan, check(plan, plan.schedule), 0);
const sheetOf = (plan: Plan, size: "a4" | "letter" = "a4") =>
  daySheet(plan, check(plan, plan.schedule), stampFor(plan), size);

describe("the day timeline", () => {
  it("is one landscape sheet for a stay of two EVAs", () => {
    for (const [size, widthMm, heightMm] of [
      ["a4", 297, 210],
      ["letter", 279.4, 215.9],
    ] as const) {
      const { pages } = sheetOf(samplePlan(), size);
      expect(pages).toHaveLength(1);
      expect(pages[0]).toMatchObject({ widthMm, heightMm });
    }
  });

  it("has both clocks, lanes, blocks, relay, tasks, ways, margins and who decides", () => {
    const words = wordsOf(sheetOf(samplePlan()).pages[0]!);
    for (const said of ["MET", "UTC", "EV1", "EV2", "By command", "Sleep", "Meal", "Pass 1", "Rim survey"]) {
      expect(words).toContain(said);
    }
    // The walk home from the boulder takes 692 s.
    expect(words).toContain("12 min");
    expect(words).toContain("Oxygen");
    expect(words).toContain("must-do 3 of 3");
    expect(words).toContain("no breach");
    expect(words).toContain(STANDING);
  });

  it("gives margins rounded down", () => {
    const plan = samplePlan();
    const verdict = check(plan, plan.schedule);
    const margins = verdict.margins.map((one, i) => ({ ...one, margin: i === 0 ? 0.0299 : 0.5 }));
    const words = wordsOf(daySheet(plan, { ...verdict, margins }, stampFor(plan)).pages[0]!);
    expect(words).toContain(" 2 %");
    expect(words).not.toContain(" 3 %");
  });

  it("gives the margins of the day as printed, which goes out sooner and comes in later than the plan", () => {
    const plan = samplePlan();
    const verdict = check(plan, plan.schedule);
    const outing = verdict.outings[0]!;
    // 10 min sooner out and in 10 min later are 20 min more of waiting at the lander.
    const played = check(plan, plan.schedule, {
      egressS: new Map([[outing.eva, instant(outing.span.startS - 600)]]),
      ingressS: new Map([[outing.eva, instant(outing.span.endS + 600)]]),
    });
    const cells = marginCells(plan, verdict, outing, played);
    const own = played.margins.filter(({ eva, crew }) => eva === outing.eva && crew === outing.crew);
    expect(cells.slice(1, 5)).toEqual(own.map(({ margin }) => `${Math.floor(100 * margin)} %`));
    expect(cells.slice(1, 5)).not.toEqual(marginCells(plan, verdict, outing).slice(1, 5));
    // And the sheet has them, where its printed day is such a one.
    const day = printedDay(plan);
    const later = new Map([...day.ingressS].map(([eva, at]) => [eva, instant(at + 600)]));
    const words = wordsOf(
      daySheet(plan, verdict, stampFor(plan), "a4", { ...day, ingressS: later }).pages[0]!,
    );
    const late = check(plan, plan.schedule, { ingressS: later, egressS: day.egressS });
    const asPrinted = marginCells(plan, verdict, outing, late).slice(1, 5).join(" ");
    expect(words).toContain(asPrinted);
  });

  it("has no margin of what nobody has given of a suit, and no latest ingress then", () => {
    const plan = samplePlan();
    const toGive = ["waterKg" as const, "emergencyOxygenS" as const];
    const open = {
      ...plan,
      suits: plan.suits.map((one) => (one.id === "suit-1" ? { ...one, toGive } : one)),
    };
    const rowOf = (one: Plan, crew: string): string[] => {
      const verdict = check(one);
      return marginCells(
        one,
        verdict,
        verdict.outings.find((outing) => outing.crew === crew)!,
      );
    };
    const [known, unknown] = [rowOf(plan, "ev1"), rowOf(open, "ev1")];
    // Water and the least spare on the walk-back, which is held against emergency oxygen; the others stand.
    expect(unknown).toEqual(known.map((cell, k) => (k === 3 || k === 6 ? "unknown" : cell)));
    expect(rowOf(open, "ev2")).toEqual(rowOf(plan, "ev2"));
    const words = wordsOf(daySheet(open, check(open), stampFor(open)).pages[0]!);
    expect(words).toContain("latest unknown: a suit or the stay is not given");
    expect(words).not.toContain("no later than");
  });

  it("says the chances beside the wishes, and which must-do work is below: unknown where nobody worked them out", () => {
    const plan = samplePlan();
    const said = (chances: ChancesReport | null): string =>
      daySheet(plan, check(plan, plan.schedule), stampFor(plan), "a4", undefined, chances)
        .pages.map(wordsOf)
        .join(" ");
    expect(said(null)).toContain("Chances: NOT WORKED OUT.");
    const [must] = plan.tasks.filter((task) => task.must);
    const unplayed = said(chancesReport({ days: 0, unplayed: [must!.id] }));
    expect(unplayed).toContain(
      `Chances: NOT KNOWN. No simulated day can play ${numberedTask(plan, must!.id)} as`,
    );
    expect(unplayed).not.toContain("everybody home");
    const below = chanceOf(1601, 2000);
    const tasks = [{ task: must!.id, must: true, done: below, reason: null, slackS: 0 }];
    const words = said(chancesReport({ days: 2000, home: chanceOf(2000, 2000), must: below, tasks }));
    expect(words).toMatch(/1 of \d+ placed tasks? has no low and high duration/);
    expect(words).toContain("everybody home over 99.8 %, wish 99 %");
    expect(words).toContain("every must-do done 80.0 % (78.2 to 81.8 %), BELOW THE WISH of 90 %");
    expect(words).toContain("the crew acts, caution 25 %");
    expect(words).toContain(`MUST-DO BELOW THE WISH: ${must!.name} 80.0 %`);
  });

  it("lays time on a straight scale: an hour is as long everywhere", () => {
    const texts = textsOf(sheetOf(samplePlan()).pages[0]!);
    const x = (words: string): number => texts.find((mark) => mark.text === words)!.x;
    expect(x("4:00") - x("2:00")).toBeCloseTo(x("20:00") - x("18:00"), 6);
    // Touchdown at 06:00 UTC: 2:00 MET is 08:00 UTC.
    expect(x("2:00")).toBeCloseTo(x("08:00"), 6);
  });

  it("names every placed task, in its box or by number below", () => {
    for (const plan of [samplePlan(), crowdedPlan()]) {
      const words = sheetOf(plan).pages.map(wordsOf).join(" ");
      for (const { task } of plan.schedule.placements) {
        const name = plan.tasks.find((one) => one.id === task)!.name;
        for (const word of name.split(" ")) expect(words).toContain(word);
      }
    }
  });

  it("numbers tasks as the plan does, not by their order on the sheet", () => {
    const plan = samplePlan();
    // By remote work no box is drawn: it is listed in words.
    const outside = plan.schedule.placements.filter(({ eva }) => eva !== null);
    const tasks = plan.tasks.map((task, k) => ({ ...task, number: `Z${90 - k}` }));
    const texts = sheetOf({ ...plan, tasks }).pages.flatMap((page) => textsOf(page).map(({ text }) => text));
    for (const { task } of outside) {
      const { number } = tasks.find(({ id }) => id === task)!;
      expect(texts.some((words) => words === number || words.startsWith(`${number} `))).toBe(true);
    }
  });

  it("says of which revision it is, by name, fingerprint and date", () => {
    const plan = { ...samplePlan(), revision: { name: "Rev 7", note: "" } };
    const words = wordsOf(sheetOf(plan).pages[0]!);
    expect(words).toContain(`Rev 7 · ${shortFingerprint(plan)}`);
    expect(words).toContain("printed 1 Jan 1970");
  });

  it("keeps the numbers of an EVA and the names they stand for on one sheet", () => {
    const plan = manySheets();
    const { pages } = sheetOf(plan);
    expect(pages.length).toBeGreaterThan(1);
    for (const page of pages) {
      const texts = textsOf(page).map((mark) => mark.text);
      for (const { id, name } of plan.evas) {
        const band = texts.includes(name);
        // Every name begins with a word of its own; it stands where its EVA stands and nowhere else.
        for (const { task, eva } of plan.schedule.placements)
          if (eva === id) expect(texts.some((words) => words.startsWith(`${task} `))).toBe(band);
      }
    }
  });

  it("tells breaches in full", () => {
    const plan = crowdedPlan();
    const verdict = check(plan, plan.schedule);
    const words = sheetOf(plan).pages.map(wordsOf).join(" ");
    expect(verdict.score.breaches).toBeGreaterThan(0);
    expect(words).toContain(`NOT CLEARED, BREACHES: ${verdict.score.breaches}`);
    for (const finding of verdict.findings.filter((one) => one.level === "breach")) {
      expect(words).toContain(finding.sentence);
    }
  });

  it("keeps every mark inside its sheet, an empty schedule and the ready plans included", () => {
    const ready = READY_NAMES.map(readyPlan);
    for (const plan of [samplePlan(), crowdedPlan(), ...ready]) {
      for (const size of ["a4", "letter"] as const) expect(overflows(sheetOf(plan, size).pages)).toEqual([]);
    }
  });
});
