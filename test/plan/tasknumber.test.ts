import { describe, expect, it } from "vitest";
import { freshNumber, parse, splitTask, taskNumbers } from "../../src/plan/index.ts";
import { partNumber } from "../../src/plan/tasknumber.ts";
import { taskNumber } from "../../src/words/index.ts";
import { readyPlan } from "../readyplan.ts";
import { completePlan } from "./completePlan.ts";
import { smallAll } from "./witness.ts";

const listed = (...numbers: (string | undefined)[]) =>
  numbers.map((number, k) => ({ id: `t${k}`, ...(number === undefined ? {} : { number }) }));
const all = (tasks: ReturnType<typeof listed>) => [...taskNumbers(tasks).values()];

describe("the number of a task", () => {
  it("is its own, else the next free whole number in the order of the plan", () => {
    expect(all(listed(undefined, undefined, undefined))).toEqual(["1", "2", "3"]);
    expect(all(listed("G-14", undefined, "1", undefined))).toEqual(["G-14", "2", "1", "3"]);
  });

  it("is written into the plan when it is read, and stays when tasks are put before it, taken out or packed", () => {
    const small = readyPlan("small");
    const before = new Map(small.tasks.map(({ id }) => [id, taskNumber(small, id)]));
    expect([...before.values()]).toEqual(["1", "2", "3", "4", "5", "6", "7", "8"]);
    const added = { ...small.tasks[0]!, id: "new", number: freshNumber(small.tasks) };
    const tasks = [added, ...small.tasks.filter(({ id }) => id !== "scarp-photographs")];
    const links = small.links.filter((link) => !JSON.stringify(link).includes('"scarp-photographs"'));
    const later = { ...small, tasks, links, schedule: { placements: smallAll.placements.slice(0, 2) } };
    expect(taskNumber(later, "new")).toBe("9");
    for (const { id } of later.tasks.slice(1)) expect(taskNumber(later, id)).toBe(before.get(id));
    const again = parse(JSON.parse(JSON.stringify(later)));
    if (!again.ok) throw new Error("faults");
    for (const { id } of later.tasks.slice(1)) expect(taskNumber(again.value, id)).toBe(before.get(id));
  });

  it("is one task's alone, whatever the case of its letters", () => {
    const tasks = completePlan.tasks.map((task, k) => (k === 1 ? { ...task, number: "g-14" } : task));
    const read = parse({ ...completePlan, tasks });
    expect(read.ok ? [] : read.error).toEqual([
      { path: "tasks.1.number", message: 'another task has the number "g-14"' },
    ]);
  });

  it("of a second part is the first's with a letter; nothing else gets another number", () => {
    const small = readyPlan("small");
    const first = small.tasks[2]!;
    const split = splitTask(small, first.id, 60);
    if (!split.ok) throw new Error(split.error);
    const after = { ...small, ...split.value.parts };
    expect(split.value.tasks.map((id) => taskNumber(after, id))).toEqual(["3", "3b"]);
    expect(after.tasks.map(({ id }) => taskNumber(after, id)).join(" ")).toBe("1 2 3 3b 4 5 6 7 8");
    expect(partNumber(after.tasks, "3")).toBe("3c");
    expect(partNumber(after.tasks, "3b")).toBe("3c");
    // Where no letter has room it is a new number, the greatest so far and one.
    expect(partNumber(listed("ABCD-123", "7"), "ABCD-123")).toBe("8");
  });

  it("of a new task never comes back from a task that is gone while a greater one is in use", () => {
    expect(freshNumber(listed("1", "7"))).toBe("8");
    expect(freshNumber([])).toBe("1");
  });
});
