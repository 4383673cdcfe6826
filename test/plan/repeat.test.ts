import { describe, expect, it } from "vitest";
import { oneMore, parse, type Plan } from "../../src/plan/index.ts";
import { completePlan } from "./completePlan.ts";
import { parsed, task, tinyPlan } from "../check/tinyPlan.ts";

const plan = parsed(completePlan);

function more(of: Plan, id: string): { readonly plan: Plan; readonly id: string } {
  const made = oneMore(of, id);
  if (!made) throw new Error(`no task ${id}`);
  const read = parse({ ...of, ...made.parts });
  if (!read.ok) throw new Error(read.error.map(({ path, message }) => `${path}: ${message}`).join("; "));
  return { plan: read.value, id: made.id };
}

describe("one more of a task", () => {
  it("is alike but for id, number and name, not pinned, and in a group with it that asks for nothing yet", () => {
    const { plan: once, id } = more(plan, "deploy");
    const [task, made] = ["deploy", id].map((one) => once.tasks.find((each) => each.id === one)!);
    expect({ ...made, id: "", number: "", name: "" }).toEqual({
      ...task,
      pin: undefined,
      id: "",
      number: "",
      name: "",
    });
    expect(made!.number).not.toBe(task!.number);
    expect(made!.name).toBe(`${task!.name} 2`);
    expect(once.groups.at(-1)).toEqual({
      ...{ id: "deploy-several", name: task!.name, tasks: ["deploy", id] },
      ...{ least: 0, shares: [] },
    });
    // Own bag numbers stay with the first.
    expect(more(plan, "survey").plan.tasks.find((one) => one.id === "survey-2")?.sample?.bags).toBe(2);
  });

  it("joins the same group again, whichever of them it is made of", () => {
    const once = more(plan, "survey");
    const twice = more(once.plan, once.id);
    expect(twice.plan.groups.at(-1)?.tasks).toEqual(["survey", "survey-2", "survey-3"]);
    expect(twice.plan.groups).toHaveLength(plan.groups.length + 1);
    expect(twice.plan.tasks.find((one) => one.id === "survey-3")?.name).toBe("Ridge samples 3");
    expect(oneMore(plan, "nothing")).toBeNull();
  });

  it("makes a group whose id is no longer than an id may be, and no other group's", () => {
    // 64 signs at most: of a task's 64 the first 56 and "-several".
    const long = "a".repeat(64);
    const lengthy = tinyPlan({ tasks: [task(long, "a")] });
    expect(more(lengthy, long).plan.groups[0]!.id).toBe(`${"a".repeat(56)}-several`);
    const x = tinyPlan({
      tasks: [task("x", "a"), task("y", "a")],
      more: { groups: [{ id: "x-several", name: "Both", tasks: ["y"], least: 0, shares: [] }] },
    });
    expect(more(x, "x").plan.groups.map(({ id }) => id)).toEqual(["x-several", "x-several-2"]);
  });
});
