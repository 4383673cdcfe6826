import { cautionsOf, stepsOf } from "../../plan/lines.ts";
import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { beforePrint } from "../../../src/exchange/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { chanceOf } from "../../../src/solver/simulate/chance.ts";
import { chancesReport } from "../../session/answers.ts";
import { planOf, samplePlan, taskOf } from "../samplePlan.ts";

const doubts = (plan: Plan): { words: string; tasks: readonly string[] }[] =>
  beforePrint(plan, check(plan, plan.schedule)).map(({ words, tasks }) => ({ words, tasks }));
const wordsOf = (plan: Plan): string[] => doubts(plan).map(({ words }) => words);

describe("the check before print", () => {
  it("finds steps and cautions that were not written, of tasks that are placed with crew, seconds, and notes", () => {
    const plan = planOf(
      [
        taskOf("full", { name: "Full", steps: stepsOf("Do it"), cautions: cautionsOf("Mind it") }),
        taskOf("bare", { name: "Bare" }),
        taskOf("benched", { name: "Benched" }),
        taskOf("remote", { name: "Remote", crew: { count: 0 } }),
      ],
      [
        { task: "full", eva: "eva-1", crew: ["ev1"], startS: 6000 },
        { task: "bare", eva: "eva-1", crew: ["ev1"], startS: 9001 },
        { task: "remote", eva: null, crew: [], startS: 9000 },
      ],
      { notes: "Made for a trial." },
    );
    expect(doubts(plan).slice(-5)).toEqual([
      { words: "no steps for 1 task", tasks: ["bare"] },
      { words: "no caution for 1 task", tasks: ["bare"] },
      { words: "cautions without a class for 1 task", tasks: ["full"] },
      { words: "starts with seconds for 1 task", tasks: ["bare"] },
      { words: "notes of the plan not printed", tasks: [] },
    ]);
  });

  it("finds names that stand for two people or things, which have no number beside them", () => {
    const plan = samplePlan();
    const [first, ...rest] = plan.crew;
    const namesakes = {
      ...plan,
      crew: [first!, ...rest.map((one) => ({ ...one, name: first!.name.toLowerCase() }))],
    };
    expect(rest.length).toBeGreaterThan(0);
    expect(wordsOf(plan).filter((one) => one.startsWith("one name"))).toEqual([]);
    expect(wordsOf(namesakes)).toContain(`one name for several crew members: ${first!.name.toLowerCase()}`);
  });

  it("finds must-do work that was left out, and a day that breaks rules, before all else", () => {
    const plan = samplePlan();
    const [first, ...rest] = plan.schedule.placements;
    const without = { ...plan, schedule: { placements: rest } };
    const must = plan.tasks.find(({ id }) => id === first!.task)!;
    expect(must.must).toBe(true);
    expect(doubts(without)).toContainEqual({ words: "must-do left out: 1 task", tasks: [must.id] });
    const early = { ...plan, schedule: { placements: [{ ...first!, startS: instant(0) }, ...rest] } };
    expect(wordsOf(early)[0]).toMatch(/^\d+ breach.*not fit to be flown$/);
  });

  it("finds signs that the faces of paper lack before they are frames on a page", () => {
    const plan = samplePlan();
    const [task, ...tasks] = plan.tasks;
    const [place, ...places] = plan.site.places;
    const odd: Plan = {
      ...plan,
      tasks: [{ ...task!, steps: stepsOf("Turn 採 once") }, ...tasks],
      site: { ...plan.site, places: [{ ...place!, name: "採" }, ...places] },
    };
    expect(wordsOf(plan).filter((words) => words.startsWith("signs"))).toEqual([]);
    expect(doubts(odd)).toContainEqual({
      words: "signs that paper cannot show in 1 task",
      tasks: [task!.id],
    });
    expect(wordsOf(odd)).toContain(`signs that paper cannot show in ${place!.id}`);
  });

  it("finds values that sheets ask for and the plan lacks, and none that it has", () => {
    const plan = samplePlan();
    expect(wordsOf(plan)).toContain("mass of 2 tools not known");
    expect(wordsOf(plan).some((words) => words.startsWith("bags not known for"))).toBe(true);
    const known: Plan = {
      ...plan,
      equipment: plan.equipment.map((one) => ({ ...one, massKg: 1, returns: true })),
      tasks: plan.tasks.map((task) => ({
        ...task,
        ...(task.sample ? { sample: { ...task.sample, bags: 2 } } : {}),
      })),
    };
    expect(wordsOf(known).filter((words) => /tool|bags/.test(words))).toEqual([]);
  });

  it("finds chances that are not surely what is wished, and says when nobody worked them out", () => {
    const plan = samplePlan();
    const verdict = check(plan, plan.schedule);
    const of = (home: number): string[] => {
      const report = {
        ...chancesReport(),
        home: chanceOf(home, 2000),
        must: chanceOf(2000, 2000),
        wish: { home: 0.98, must: 0.5 },
      };
      return beforePrint(plan, verdict, report).flatMap(({ words }) =>
        words.includes("chance") ? [words] : [],
      );
    };
    expect(of(1900)).toEqual(["chance of everybody home not surely at the wish of 98 %"]);
    expect(of(2000)).toEqual([]);
    expect(beforePrint(plan, verdict, null).map(({ words }) => words)).toContain("chances not worked out");
    expect(wordsOf(plan).filter((words) => words.includes("chance"))).toEqual([]);
  });
});
