import { describe, expect, it } from "vitest";
import { check } from "../../../../src/check/index.ts";
import {
  barredPages,
  booklets,
  type Page,
  pageChanges,
  pageWords,
  type Revision,
  sheetPaper,
  stampOf,
} from "../../../../src/exchange/index.ts";
import { changesBody } from "../../../../src/exchange/paper/sheets/changes.ts";
import { sheetsOf } from "../../../../src/exchange/paper/sheets/frame.ts";
import { instant } from "../../../../src/kernel/index.ts";
import type { Plan } from "../../../../src/plan/index.ts";
import { numberedTask } from "../../../../src/words/index.ts";
import { samplePlan } from "../../samplePlan.ts";
import { collisions, overflows, textsOf, wordsOf } from "../reading.ts";
import { factsOf } from "./facts.ts";
import { stepsOf } from "../../../plan/lines.ts";

async function revisionOf(plan: Plan, printedMs = 0): Promise<Revision> {
  const facts = await factsOf(plan);
  const stamp = stampOf(plan, facts.verdict, printedMs);
  return {
    plan,
    papers: [
      booklets(plan, facts.verdict, { day: facts.day }),
      ...(["console", "manifest"] as const).map((kind) => sheetPaper(kind, facts, stamp, { paper: "a4" })),
    ],
  };
}

/** The texts of a page without what tells revision, date and page. */
const plainly = (page: Page): string =>
  textsOf(page)
    .map(({ text }) => text)
    .filter((text) => !/printed|[0-9a-f]{4} [0-9a-f]{4}|\d+ (of|\/) \d+/.test(text) && !/^\d+$/.test(text))
    .toSorted()
    .join("|");

const withSteps = (plan: Plan, id: string, ...steps: string[]): Plan => ({
  ...plan,
  tasks: plan.tasks.map((task) => (task.id === id ? { ...task, steps: stepsOf(...steps) } : task)),
});

const bars = (page: Page): number =>
  page.marks.filter((mark) => mark.kind === "lines" && mark.widthMm === 1 && mark.segments.length === 1)
    .length;

describe("changes between two revisions", () => {
  it("are none between a plan and itself, whenever it is printed and whatever it is called", async () => {
    const plan = samplePlan();
    const before = await revisionOf(plan);
    const after = await revisionOf({ ...plan, revision: { ...plan.revision, name: "Rev 2" } }, 86_400_000);
    expect(pageChanges(before, before)).toEqual([]);
    // Another name is another fingerprint, which the crew reads out from its first page: that one is replaced.
    for (const { name } of pageChanges(before, after)) expect(name).toContain("at a glance");
    expect(barredPages(before, before)).toEqual([]);
    const [page] = sheetsOf([changesBody(before, before)], stampOf(plan, check(plan), 0), { paper: "a4" });
    expect(wordsOf(page!)).toContain("Every page stays.");
  });

  it("are just the pages that read otherwise: a task's own pages in each of its crew's booklets for another step", async () => {
    const plan = samplePlan();
    const before = await revisionOf(plan);
    const after = await revisionOf(
      withSteps(plan, "carry-unit", "Lift together on EV1's word", "Walk out of step", "Set it down"),
    );
    const changes = pageChanges(before, after);
    const read = (revision: Revision): Map<string, string> =>
      new Map(
        revision.papers.flatMap(({ pages }) =>
          pages.map((page) => [`${page.part} ${page.name}`, plainly(page)]),
        ),
      );
    const [was, now] = [read(before), read(after)];
    const other = [...now].filter(([name, words]) => was.get(name) !== words).map(([name]) => name);
    expect(
      changes.filter(({ kind }) => kind === "replace").map(({ part, name }) => `${part} ${name}`),
    ).toEqual([...now.keys()].filter((name) => other.includes(name) || name.endsWith("at a glance")));
    expect(changes.length).toBeGreaterThan(0);
    for (const { kind, name } of changes) {
      expect(kind).toBe("replace");
      expect(name).toMatch(/Carry the seismic unit|at a glance/);
    }
    const barred = barredPages(before, after);
    expect(barred).toHaveLength(changes.length);
    for (const page of barred) expect(bars(page)).toBeGreaterThan(0);
    expect(overflows(barred)).toEqual([]);
  });

  it("name pages that are new, and pages that are gone, both ways round", async () => {
    const plan = samplePlan();
    const [last] = plan.schedule.placements.filter(({ task }) => task === "rim-survey");
    const fewer: Plan = {
      ...plan,
      schedule: { placements: plan.schedule.placements.filter((one) => one !== last) },
    };
    const [whole, less] = [await revisionOf(plan), await revisionOf(fewer)];
    const gone = pageChanges(whole, less).filter(({ kind }) => kind === "gone");
    const came = pageChanges(less, whole).filter(({ kind }) => kind === "new");
    expect(gone.some(({ name }) => name.includes("Rim survey"))).toBe(true);
    expect(came.map(({ part, name }) => `${part} ${name}`).toSorted()).toEqual(
      gone.map(({ part, name }) => `${part} ${name}`).toSorted(),
    );
  });

  it("set on a sheet every change in words and every page, and clip nothing", async () => {
    const plan = samplePlan();
    const [first, ...rest] = plan.schedule.placements;
    const later: Plan = {
      ...plan,
      schedule: { placements: [{ ...first!, startS: instant(first!.startS + 60) }, ...rest] },
    };
    const [before, after] = [await revisionOf(plan), await revisionOf(later)];
    const pages = sheetsOf([changesBody(before, after)], stampOf(plan, check(plan), 0), { paper: "letter" });
    const words = pages.map(wordsOf).join(" ");
    expect(words).toContain("Quick first sample starts at");
    expect(words).toContain("replace");
    expect(overflows(pages)).toEqual([]);
    expect(collisions(pages)).toEqual([]);
  });

  it("number a task once, and call booklets as their own heads do, on the sheet and in a line", async () => {
    const plan = samplePlan();
    const [task, ...others] = plan.tasks;
    const longer: Plan = { ...plan, tasks: [{ ...task!, name: "Another name" }, ...others] };
    const [before, after] = [await revisionOf(plan), await revisionOf(longer)];
    const cells = changesBody(before, after).sections.flatMap((one) =>
      one.kind === "table" ? one.rows.map((row) => row.cells.map(({ text }) => text)) : [],
    );
    const abouts = cells.filter((row) => row.length === 2).map(([about]) => about);
    expect(abouts).toEqual([`Task ${numberedTask(longer, task!.id)}`]);
    const heads = plan.crew.flatMap((one) => plan.evas.map((eva) => `${one.name}, ${eva.name}`));
    const lines = pageChanges(before, after).map(pageWords);
    const booklets = cells.filter((row) => row.length === 4 && row[2] !== "");
    expect(booklets.length).toBeGreaterThan(0);
    for (const [booklet, page, what, todo] of booklets) {
      expect(heads).toContain(booklet);
      expect(what).not.toContain(booklet);
      expect(lines).toContain(`${booklet}, page ${page}, ${what}: ${todo}`);
    }
  });
});
