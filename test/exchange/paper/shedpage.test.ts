import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { booklets, type Page, type ShedTables } from "../../../src/exchange/index.ts";
import { parseText, type Plan } from "../../../src/plan/index.ts";
import { shedRun } from "../../../src/solver/question/shed/index.ts";
import { demoDay } from "../../solver/question/shed/demoDay.ts";
import { crowdedPlan, samplePlan } from "../samplePlan.ts";
import { collisions, overflows, textsOf, wordsOf } from "./reading.ts";

function demo(): Plan {
  const read = parseText(readFileSync("public/plans/demo.json", "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return { ...read.value, schedule: demoDay };
}

function shedOf(plan: Plan): ShedTables {
  const run = shedRun(plan, plan.schedule, { clock: () => 0 });
  while (run.step(Infinity));
  return run.report();
}

const pagesOf = (plan: Plan, shed: ShedTables | undefined, crew?: string[]): readonly Page[] =>
  booklets(plan, check(plan, plan.schedule), { crew, shed }).pages;

const lateOf = (pages: readonly Page[]): readonly Page[] =>
  pages.filter((page) => page.name.includes("if late"));

describe("the page for being late", () => {
  const plan = demo();
  const shed = shedOf(plan);

  it("stands before the emergency page of every EVA and crew member, and keeps its print apart and on the page", () => {
    const pages = pagesOf(plan, shed);
    const first = pages.flatMap((page, i) => (page.name.endsWith("if late") ? [i] : []));
    expect(first).toHaveLength(4);
    for (const at of first) {
      const after = pages.slice(at).find((page) => !page.name.includes("if late"))!;
      expect(after.name).toMatch(/: emergency/);
    }
    const late = lateOf(pages);
    expect(overflows(late)).toEqual([]);
    expect(collisions(late)).toEqual([]);
    // Running foot aside, nothing is set below 9 points.
    for (const page of late)
      for (const { sizePt, y } of textsOf(page)) if (y < 124) expect(sizePt).toBeGreaterThanOrEqual(9);
  });

  it("cuts no name on a page that has room for two lines of each", () => {
    for (const count of [6, 7, 8]) {
      const few = {
        ...shed,
        evas: shed.evas.map((one) => ({
          ...one,
          rows: one.rows.filter(({ crew }) => crew.includes("ev1")).slice(0, count),
        })),
      };
      const late = lateOf(pagesOf(plan, few, ["ev1"]));
      const cut = late.flatMap((page) => textsOf(page).filter(({ text }) => text.endsWith("…")));
      expect(late).toHaveLength(few.evas.length);
      expect(cut.map(({ text }) => text)).toEqual([]);
    }
  });

  it("explains its signs on the first of several pages", () => {
    const late = lateOf(pagesOf(plan, shed));
    const firsts = late.filter((page) => page.name.endsWith("if late"));
    expect(late.length).toBeGreaterThan(firsts.length);
    for (const page of firsts)
      expect(wordsOf(page)).toMatch(/(drop nothing|end the EVA|rest at the next stop)\./);
  });

  it("names in each row what the shed order drops, by letters that stand on the same page or before it", () => {
    for (const member of ["ev1", "ev2"])
      for (const { eva, rows } of shed.evas) {
        const name = plan.evas.find((one) => one.id === eva)!.name;
        const pages = lateOf(pagesOf(plan, shed, [member])).filter((page) =>
          page.name.includes(`, ${name}: `),
        );
        const words = pages.map(wordsOf).join(" ");
        const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
        rows.forEach((row, i) => {
          if (!row.crew.includes(member)) return;
          for (const cell of row.late) {
            if (cell.kind !== "drop") continue;
            const own = rows.flatMap((one, k) => (cell.drop.includes(one.task) ? [letters[k]!] : []));
            // One letter after the other, as they stand in a cell or broken over its lines.
            expect(words.replaceAll(" ", "")).toContain(own.join(""));
          }
          expect(words).toContain(letters[i]!);
        });
      }
  });

  it("says go, END and END! where that is the answer, and explains only signs that it uses", () => {
    const row = (kind: "keep" | "end" | "over") => ({
      task: "rim-survey",
      crew: ["ev1"],
      late: [{ kind, drop: [], breaks: [] }],
      early: [],
    });
    const sample = samplePlan();
    const task = sample.schedule.placements.find((one) => one.crew.includes("ev1"))!;
    const words = (kind: "keep" | "end" | "over"): string => {
      const tables: ShedTables = {
        minutes: [10],
        sound: true,
        evas: [{ eva: task.eva!, rows: [{ ...row(kind), task: task.task }] }],
      };
      return lateOf(pagesOf(sample, tables, ["ev1"]))
        .map(wordsOf)
        .join(" ");
    };
    expect(words("keep")).toMatch(/ go .*go: drop nothing\./);
    expect(words("keep")).not.toContain("END");
    expect(words("end")).toMatch(/ END .*END: end the EVA\./);
    expect(words("end")).not.toContain("END!");
    expect(words("over")).toMatch(/ END! .*END!: end it at once and tell those in charge/);
  });

  it("says of every EVA that it is not there where no shed order was worked out", () => {
    const words = lateOf(pagesOf(samplePlan(), undefined)).map(wordsOf);
    // Two crew members on two EVAs.
    expect(words).toHaveLength(4);
    for (const one of words) {
      expect(one).toContain("it had not been worked out when this was printed");
      expect(one).toContain("ask those in charge what to drop");
    }
  });

  it("says that there is none for a plan that breaks rules", () => {
    const broken = crowdedPlan();
    const words = lateOf(pagesOf(broken, shedOf(broken))).map(wordsOf);
    expect(words.length).toBeGreaterThan(0);
    for (const one of words) expect(one).toContain("No shed order: this plan breaks rules.");
  });
});
