import { describe, expect, it } from "vitest";
import {
  isReturnLeast,
  mergeTasks,
  parse,
  type Plan,
  type Task,
  tasksOn,
  untoldBack,
} from "../../src/plan/index.ts";
import { readyPlan } from "../readyplan.ts";
import { planOf, taskOf } from "../exchange/samplePlan.ts";

const at = (task: string, startS: number) => ({ task, eva: "eva-1", crew: ["ev1"], startS: startS as never });
const put = (massKg: number, volumeL = 1) => ({ sample: { container: "box-a", massKg, volumeL } });
const tasksOf = (plan: Plan): Task[] => tasksOn(plan, plan.schedule);

describe("what a task brings back", () => {
  it("is not told by sampling without a sample, nor by 0 in a container, and is nothing where that is said", () => {
    const [told, unweighed, unmeasured, untold, nothing, survey] = planOf(
      [
        taskOf("told", put(1)),
        taskOf("unweighed", put(0)),
        taskOf("unmeasured", put(1, 0)),
        taskOf("untold"),
        taskOf("nothing", { bringsNothing: true }),
        taskOf("survey", { kind: "survey" }),
      ],
      [],
    ).tasks.map(untoldBack);
    expect(told).toEqual({ mass: false, volume: false });
    expect(unweighed).toEqual({ mass: true, volume: false });
    expect(unmeasured).toEqual({ mass: false, volume: true });
    expect(untold).toEqual({ mass: true, volume: true });
    expect(nothing).toEqual({ mass: false, volume: false });
    expect(survey).toEqual({ mass: false, volume: false });
  });

  it("leaves a return mass known where nothing is said to come back", () => {
    const known = planOf([taskOf("nothing", { bringsNothing: true })], [at("nothing", 20_000)] as never);
    expect(isReturnLeast(known, tasksOf(known))).toBe(false);
    const open = planOf([taskOf("nothing")], [at("nothing", 20_000)] as never);
    expect(isReturnLeast(open, tasksOf(open))).toBe(true);
  });

  it("is refused as nothing beside a sample", () => {
    const plan = planOf([taskOf("one", put(1))], []);
    const tasks = [{ ...plan.tasks[0], bringsNothing: true }];
    expect(parse({ ...plan, tasks })).toMatchObject({
      ok: false,
      error: [{ path: "tasks.0.bringsNothing", message: "a task that brings nothing back has no sample" }],
    });
  });

  it("is told of every task of the demo", () => {
    const { tasks } = readyPlan("demo");
    expect(tasks.filter((one) => untoldBack(one).mass || untoldBack(one).volume)).toEqual([]);
    expect(tasks.find(({ id }) => id === "dig-trench")).toMatchObject({ bringsNothing: true });
  });

  it("is nothing of two tasks made one where both say so", () => {
    const one = (...says: readonly boolean[]) => {
      const plan = planOf(
        ["a", "b"].map((id, i) => taskOf(id, says[i] ? { bringsNothing: true } : {})),
        [at("a", 20_000), at("b", 21_200)] as never,
      );
      const made = mergeTasks(plan, "a", "b");
      return made.ok ? made.value.parts.tasks?.[0]?.bringsNothing : made.error;
    };
    expect(one(true, true)).toBe(true);
    expect(one(true, false)).toBeUndefined();
    expect(one(false, true)).toBeUndefined();
  });
});
