import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { beforePrint, booklets } from "../../../src/exchange/index.ts";
import { remedyWords } from "../../../src/exchange/paper/remedies.ts";
import { duration } from "../../../src/kernel/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { samplePlan } from "../samplePlan.ts";
import { collisions, overflows, wordsOf } from "./reading.ts";

/** The sample plan with something that may have to be made good with its first task, at the end of task `after`. */
function remedied(after?: string): { plan: Plan; first: string; others: readonly string[] } {
  const plan = samplePlan();
  const placed = plan.schedule.placements.filter(({ crew }) => crew.length > 0).map(({ task }) => task);
  const [first = ""] = placed;
  const tasks = plan.tasks.map((task) =>
    task.id === first
      ? {
          ...task,
          mishap: {
            what: "no lamp",
            chance: 0.05,
            spoils: true,
            remedy: {
              name: "Switch on by hand",
              ...(after === undefined ? {} : { after }),
              duration: { likelyS: duration(250) },
              steps: [
                { text: "Cap off", cautions: [{ class: "caution" as const, text: "Cold key." }] },
                { text: "Key right", cautions: [] },
              ],
            },
          },
        }
      : task,
  );
  return { plan: { ...plan, tasks }, first, others: placed.slice(1) };
}

const pagesSaying = (plan: Plan, words: string) =>
  booklets(plan, check(plan, plan.schedule)).pages.filter((page) => wordsOf(page).includes(words));

describe("what is done only if, on paper", () => {
  it("stands under IF with all of its steps inside the form, on the pages of the task at whose end it is done", () => {
    const { plan, others } = remedied();
    expect(pagesSaying(samplePlan(), "Switch on by hand")).toEqual([]);
    const pages = pagesSaying(plan, "Switch on by hand");
    expect(pages.length).toBeGreaterThan(0);
    for (const page of pages) {
      // 250 s are said as 5 min: never less than it takes.
      expect(wordsOf(page)).toMatch(
        /Cold key\..*IF no lamp THEN Switch on by hand, about 5 min a Cap off b Key right/,
      );
      expect(overflows([page])).toEqual([]);
      expect(collisions([page])).toEqual([]);
    }
    const elsewhere = remedied(others[0]).plan;
    const names = pagesSaying(elsewhere, "Switch on by hand").map(({ name }) => name);
    expect(names.length).toBeGreaterThan(0);
    expect(names).not.toEqual(pages.map(({ name }) => name));
  });

  it("stands beside its task on the console's timeline", () => {
    const { plan, first } = remedied();
    expect(remedyWords(plan, first)).toBe(". IF no lamp THEN Switch on by hand, about 5 min");
    expect(remedyWords(samplePlan(), first)).toBe("");
  });

  it("is told before printing where nobody is there to do it", () => {
    const doubts = (plan: Plan) =>
      beforePrint(plan, check(plan, plan.schedule)).filter(({ words }) => words.startsWith("nobody there"));
    const { plan, first, others } = remedied(remedied().others[0]);
    expect(doubts(plan)).toEqual([]);
    const without = {
      ...plan,
      schedule: { placements: plan.schedule.placements.filter(({ task }) => task !== others[0]) },
    };
    expect(doubts(without).map(({ tasks }) => tasks)).toEqual([[first]]);
    // Work that begins with the task is still to end when it has gone wrong; work that began a second before may be over.
    const { placements } = plan.schedule;
    const ownS = placements.find(({ task }) => task === first)!.startS;
    const beginning = (byS: number): Plan => ({
      ...plan,
      schedule: {
        placements: placements.map((one) =>
          one.task === others[0] ? { ...one, startS: instant(ownS + byS) } : one,
        ),
      },
    });
    expect(doubts(beginning(0))).toEqual([]);
    expect(doubts(beginning(-1)).map(({ tasks }) => tasks)).toEqual([[first]]);
  });

  it("is told before print where it hangs on work that is not begun when it is needed", () => {
    const said = (plan: Plan): boolean =>
      beforePrint(plan, check(plan, plan.schedule)).some(({ words }) =>
        words.startsWith("nobody there to make it good"),
      );
    const { others, first } = remedied();
    const { plan } = remedied(others.at(-1));
    const link = (id: string, from: string, to: string, needs: "from" | "none") => ({
      id,
      type: "lag" as const,
      from: { task: from, end: "end" as const },
      to: { task: to, end: "start" as const },
      leastS: duration(0),
      needs,
    });
    const between = others[0]!;
    const linked = (needs: "from" | "none"): Plan => ({
      ...plan,
      links: [link("one", first, between, needs), link("two", between, others.at(-1)!, needs)],
    });
    expect(said(linked("none"))).toBe(false);
    expect(said(linked("from"))).toBe(true);
  });
});
