import { describe, expect, test } from "vitest";
import { drill, plan } from "./cases/equipment.ts";
import { breachesOf, only } from "./pair.ts";
import { remote, task, tinyPlan } from "./tinyPlan.ts";

describe("shared equipment", () => {
  test("equipment that is missing, 0 of it, breaks for the first use and holds for none", () => {
    const missing = only(plan(9000, 0), "equipment");
    expect([missing.level, missing.need, missing.have]).toEqual(["breach", 1, 0]);
    expect(missing.sentence).toMatch(/^Drill: 1 in use at .* by one, there is none\.$/);
    expect(breachesOf({ ...plan(9000, 0), schedule: { placements: [] } })).toEqual([]);
  });

  test("equipment may be used by as many as there are", () => {
    expect(breachesOf(plan(2000, 2))).toEqual([]);
  });

  test("equipment: a task without length uses nothing", () => {
    const mark = tinyPlan({
      tasks: [task("one", null, drill), task("mark", null, { ...drill, duration: { likelyS: 0 } })],
      placements: [remote("one", 0), remote("mark", 300)],
      more: { equipment: [{ id: "drill", name: "Drill", count: 1 }] },
    });
    expect(breachesOf(mark)).toEqual([]);
  });

  test("equipment counts remote work and says when and by whom", () => {
    const busy = tinyPlan({
      tasks: ["before", "one", "two", "three", "after"].map((id) =>
        task(id, null, { ...drill, duration: { likelyS: id === "before" ? 500 : 600 } }),
      ),
      placements: [
        remote("before", 0),
        remote("one", 0),
        remote("two", 500),
        remote("three", 500),
        remote("after", 600),
      ],
      more: { equipment: [{ id: "drill", name: "Drill", count: 2 }] },
    });
    // one 0-600, two and three 500-1100: all of them from 500 to 600; before ends then, after begins then.
    expect(only(busy, "equipment")).toMatchObject({
      need: 3,
      have: 2,
      span: { startS: 500, endS: 600 },
      sentence: "Drill: 3 in use at 0:08:20 MET by one, three and two, there are 2.",
    });
  });
});
