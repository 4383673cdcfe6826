import { describe, expect, it } from "vitest";
import { oneMore, parse, type Plan } from "../../src/plan/index.ts";
import { completePlan } from "./completePlan.ts";
import { parsed } from "../check/tinyPlan.ts";

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
});
