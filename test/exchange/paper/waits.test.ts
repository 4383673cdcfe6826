import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { booklets } from "../../../src/exchange/index.ts";
import { printedDay } from "../../../src/exchange/paper/leaving/printedday.ts";
import { consoleRows } from "../../../src/exchange/paper/sheets/console.ts";
import { evasOut, givenOf } from "../../../src/exchange/paper/sheets/given.ts";
import { waitsFor, waitWords } from "../../../src/exchange/paper/waits.ts";
import { instant } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import type { PlanInput } from "../../../src/plan/plan.ts";
import { planOf, taskOf } from "../samplePlan.ts";
import { wordsOf } from "./reading.ts";

type Lag = Partial<Extract<PlanInput["links"], readonly unknown[]>[number]> & {
  readonly leastS?: number;
  readonly greatestS?: number;
};

const link = (from: string, to: string, more: Lag = { leastS: 0 }, end: "start" | "end" = "end") =>
  ({
    id: `${from}-${to}`,
    type: "lag",
    from: { task: from, end },
    to: { task: to, end: "start" },
    ...more,
  }) as NonNullable<PlanInput["links"]>[number];

/** EV1 digs at the rim and then looks; EV2 carries at the pad and then sets up; the ground wakes it. */
function plan(...links: NonNullable<PlanInput["links"]>[number][]): Plan {
  const wake = taskOf("wake", { kind: "upkeep", place: undefined, crew: { count: 0 } });
  return planOf(
    [
      taskOf("dig"),
      taskOf("look"),
      taskOf("carry", { place: "pad" }),
      taskOf("setup", { place: "pad" }),
      wake,
    ],
    [
      { task: "dig", eva: "eva-1", crew: ["ev1"], startS: 6600 },
      { task: "carry", eva: "eva-1", crew: ["ev2"], startS: 6600 },
      { task: "look", eva: "eva-1", crew: ["ev1"], startS: 9000 },
      { task: "setup", eva: "eva-1", crew: ["ev2"], startS: 9000 },
      { task: "wake", eva: null, crew: [], startS: 10_800 },
    ],
    { links },
  );
}

const pageOf = (of: Plan, crew: string, task: string): string => {
  const { pages } = booklets(of, check(of), { crew: [crew] });
  return wordsOf(pages.find(({ name }) => name.endsWith(`: ${task}`))!);
};

describe("what a task waits for", () => {
  it("stands on its page where the order of the pages does not keep it by itself", () => {
    const tied = plan(link("carry", "look"), link("dig", "look"), link("carry", "setup"));
    expect(pageOf(tied, "ev1", "look")).toContain("AFTER EV2 3 done");
    // Who digs has done so before they look, and who sets up has carried.
    expect(pageOf(tied, "ev1", "look")).not.toContain("1 done");
    expect(pageOf(tied, "ev2", "setup")).not.toContain("AFTER");
  });

  it("says how long after, and within what time, in minutes on the safe side", () => {
    const tied = plan(
      link("dig", "look", { leastS: 1190, greatestS: 9010 }),
      link("carry", "look", { greatestS: 3630 }, "start"),
      link("carry", "setup", { leastS: 610 }),
    );
    expect(pageOf(tied, "ev1", "look")).toContain("AFTER 1 done, 20 to 150 min; EV2 3 begun, within 60 min");
    expect(pageOf(tied, "ev2", "setup")).toContain("AFTER 3 done, 11 min or more");
  });

  it("says no time to who comes straight from the one task to the other: being late makes it no longer", () => {
    const tied = plan(link("carry", "setup", { greatestS: 3600 }));
    expect(pageOf(tied, "ev2", "setup")).not.toContain("AFTER");
    const { placements } = tied.schedule;
    const between = {
      ...tied,
      schedule: {
        placements: [
          ...placements.filter(({ task }) => task !== "look"),
          { ...placements[0]!, task: "look", crew: ["ev2"], startS: instant(7800) },
        ],
      },
    };
    expect(pageOf(between, "ev2", "setup")).toContain("AFTER 3 done, within 60 min");
  });

  it("stands as DONE AFTER where it counts to the task's end, for the console too", () => {
    const toEnd = (one: ReturnType<typeof link>, task: string) =>
      ({ ...one, to: { task, end: "end" } }) as ReturnType<typeof link>;
    // That setting up is done later than what the same one does before goes without saying.
    const tied = plan(
      toEnd(link("carry", "look", { leastS: 610, greatestS: 9010 }), "look"),
      toEnd(link("carry", "setup"), "setup"),
      toEnd(link("look", "wake", { leastS: 600 }, "start"), "wake"),
    );
    expect(pageOf(tied, "ev1", "look")).toContain("DONE AFTER EV2 3 done, 11 to 150 min");
    expect(pageOf(tied, "ev1", "look").match(/AFTER/g)).toHaveLength(1);
    expect(pageOf(tied, "ev2", "setup")).not.toContain("AFTER");
    expect(waitWords(tied, "wake", null, "end")).toBe("EV1 2 begun, 10 min or more");
    const given = givenOf({ plan: tied, verdict: check(tied), day: printedDay(tied), sunDeg: () => null });
    const rows = evasOut(given).flatMap(({ eva, outings }) => consoleRows(given, eva, outings));
    expect(rows.flatMap(({ ground }) => ground)).toEqual(["5 wake, done after EV1 2 begun, 10 min or more"]);
  });

  it("stands with the task that comes later, whichever end of the link that is", () => {
    // That carrying begins 30 min or more before looking does, and 2 h at the most, is for who looks.
    const tied = plan(link("look", "carry", { leastS: -7200, greatestS: -1800 }, "start"));
    expect(pageOf(tied, "ev1", "look")).toContain("AFTER EV2 3 begun, 30 to 120 min");
    expect(pageOf(tied, "ev2", "carry")).not.toContain("AFTER");
    // Nor does it wait for what comes later where it only must not be too late itself.
    const soon = plan(link("look", "carry", { leastS: -7200, greatestS: 1800 }, "start"));
    expect(pageOf(soon, "ev2", "carry")).not.toContain("AFTER");
    expect(pageOf(soon, "ev1", "look")).not.toContain("AFTER");
  });

  it("is not what is left out, what may begin sooner, nor what counts to an end", () => {
    const tied = plan(link("carry", "look"), link("dig", "setup", { leastS: -600 }), {
      ...link("carry", "wake"),
      to: { task: "wake", end: "end" },
    } as NonNullable<PlanInput["links"]>[number]);
    const without = {
      ...tied,
      schedule: { placements: tied.schedule.placements.filter(({ task }) => task !== "carry") },
    };
    expect(waitsFor(without, "look")).toEqual([]);
    expect(waitsFor(tied, "setup")).toEqual([]);
    expect(waitsFor(tied, "wake")).toEqual([]);
  });

  it("stands on the console sheet too, for the ground as for the crew", () => {
    const tied = plan(
      link("setup", "wake"),
      link("wake", "look", { leastS: 0, greatestS: 3600 }),
      link("carry", "look"),
    );
    expect(waitWords(tied, "look", "ev1")).toBe("EV2 3 done; GROUND 5 done, within 60 min");
    const given = givenOf({ plan: tied, verdict: check(tied), day: printedDay(tied), sunDeg: () => null });
    const rows = evasOut(given).flatMap(({ eva, outings }) => consoleRows(given, eva, outings));
    expect(rows.flatMap(({ ground }) => ground)).toEqual(["5 wake, after EV2 4 done"]);
    const doing = rows.flatMap(({ crew }) => crew.flatMap((one) => (one.begins ? one.doing!.words : [])));
    expect(doing).toContain("look, after EV2 3 done; GROUND 5 done, within 60 min");
  });
});
