import { describe, expect, it } from "vitest";
import { duration } from "../../../src/kernel/index.ts";
import { isTooLong, tooLong, tooLongCase } from "../../../src/screens/fields/task/toolong.ts";
import { taskTable } from "../../../src/screens/fields/tasks.ts";
import { eva, task, tinyPlan } from "../../check/tinyPlan.ts";

/** A stay of 20 hours with an EVA of 6 h and one that its bounds cut to 5 h: 5:40 and 4:40 beside 20 min of fixed work. */
const plan = tinyPlan({
  tasks: [task("work", "a"), task("call", "a", { crew: { count: 0 } })],
  evas: [
    eva("long", { longestS: 21_600 }),
    eva("cut", { crew: ["ev1"], earliestEgressS: 40_000, latestIngressS: 58_000 }),
  ],
});
const [work, call] = plan.tasks as [(typeof plan.tasks)[number], (typeof plan.tasks)[number]];

describe("a duration that can hardly be meant", () => {
  it("is one that no EVA has time for, to the second, and one beyond the stay", () => {
    expect(tooLong(21_600 - 1200, work, plan)).toBeNull();
    expect(tooLong(21_600 - 1199, work, plan)).toBe("Longer than any EVA has for work: 5:40 at most.");
    expect(tooLong(25 * 3600, work, plan)).toBe("Longer than the stay of 20:00.");
    expect(tooLong(undefined, work, plan)).toBeNull();
  });

  it("is bound by the stay alone for what nobody goes out for, where no EVA is given, and for a long case", () => {
    expect(tooLong(72_000, call, plan)).toBeNull();
    expect(tooLong(72_001, call, plan)).toBe("Longer than the stay of 20:00.");
    expect(tooLong(30_000, work, tinyPlan({ evas: [] }))).toBeNull();
    expect(tooLongCase(72_000, plan)).toBeNull();
    expect(tooLongCase(72_001, plan)).toBe("Longer than the stay of 20:00.");
  });

  it("is said at its cell and counted over the table at once", () => {
    const long = { ...work, duration: { likelyS: duration(90_000) } };
    const doubtful = { ...plan, tasks: [long, call] };
    expect(isTooLong(long, doubtful)).toBe(true);
    expect(isTooLong(work, plan)).toBe(false);
    const doubts = (of: typeof plan) =>
      taskTable.line(of, "work")!.cells.flatMap((cell) => (cell?.doubt ? [cell.label, cell.doubt] : []));
    expect(doubts(doubtful)).toEqual(["Likely of work", "Longer than the stay of 20:00."]);
    expect(doubts(plan)).toEqual([]);
    const [first] = taskTable.lacks(doubtful);
    expect(first).toEqual({ words: "longer than there is time for", rows: new Set(["work"]) });
    expect(taskTable.lacks(plan).map(({ words }) => words)).not.toContain("longer than there is time for");
  });
});
