import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { duration } from "../../src/kernel/index.ts";
import {
  applyPatch,
  type Change,
  composePatches,
  fitPatch,
  parse,
  type Patch,
  patchBetween,
  patchSchema,
  type Plan,
} from "../../src/plan/index.ts";
import { invertPatch } from "../../src/plan/patch/patch.ts";
import { randomPlan } from "../properties/randomPlan.ts";
import { anyPlan, anyStep, without } from "./anyPlan.ts";
import { completePlan } from "./completePlan.ts";

function made<Value>(outcome: { ok: true; value: Value } | { ok: false; error: unknown }): Value {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.error));
  return outcome.value;
}

const applied = (plan: Plan, patch: Patch): Plan => made(applyPatch(plan, patch));
const complete = made(parse(completePlan));
const plan = randomPlan(5, { tasks: 6, crew: 2, evas: 2, places: 4, features: 0.5 });

/** A chain of plans, each a step from the one before. */
const chain = (count: number) =>
  fc.tuple(anyPlan, fc.array(anyStep, { minLength: count, maxLength: count })).map(([start, steps]) => {
    const plans = [start];
    // Each step is made by its patch, as the session makes them.
    for (const step of steps)
      plans.push(applied(plans.at(-1)!, patchBetween(plans.at(-1)!, step(plans.at(-1)!))));
    return plans;
  });

describe("a patch", () => {
  it("turns one plan into the other, order and all", () => {
    fc.assert(
      fc.property(anyPlan, anyPlan, (before, after) => {
        expect(JSON.stringify(applied(before, patchBetween(before, after)))).toBe(JSON.stringify(after));
      }),
    );
  });

  it("taken back gives the plan back byte for byte", () => {
    fc.assert(
      fc.property(anyPlan, anyPlan, (before, after) => {
        const patch = patchBetween(before, after);
        const back = applied(applied(before, patch), invertPatch(patch));
        expect(JSON.stringify(back)).toBe(JSON.stringify(before));
        expect(invertPatch(invertPatch(patch))).toEqual(patch);
      }),
    );
  });

  it("goes through text unchanged, and its text is a patch to whoever reads it", () => {
    fc.assert(
      fc.property(anyPlan, anyPlan, (before, after) => {
        const patch = patchBetween(before, after);
        const read = patchSchema.parse(JSON.parse(JSON.stringify(patch)));
        expect(read).toEqual(patch);
        expect(JSON.stringify(applied(before, read))).toBe(JSON.stringify(after));
      }),
    );
  });

  it("put together with the next does what both do, and is the shortest that does", () => {
    fc.assert(
      fc.property(chain(2), (plans) => {
        const [a, b, c] = plans as [Plan, Plan, Plan];
        const both = made(composePatches(patchBetween(a, b), patchBetween(b, c)));
        expect(JSON.stringify(applied(a, both))).toBe(JSON.stringify(c));
        expect(both).toEqual(patchBetween(a, c));
      }),
      { numRuns: 300 },
    );
    fc.assert(
      fc.property(anyPlan, anyPlan, anyPlan, (a, b, c) => {
        expect(made(composePatches(patchBetween(a, b), patchBetween(b, c)))).toEqual(patchBetween(a, c));
      }),
    );
  });

  it("is the same however three are grouped", () => {
    fc.assert(
      fc.property(chain(3), (plans) => {
        const [p, q, r] = plans.slice(1).map((one, i) => patchBetween(plans[i]!, one)) as [
          Patch,
          Patch,
          Patch,
        ];
        const left = composePatches(made(composePatches(p, q)), r);
        const right = composePatches(p, made(composePatches(q, r)));
        expect(made(left)).toEqual(made(right));
      }),
      { numRuns: 300 },
    );
  });

  it("put together with what takes it back is nothing", () => {
    fc.assert(
      fc.property(anyPlan, anyPlan, (before, after) => {
        const patch = patchBetween(before, after);
        expect(made(composePatches(patch, invertPatch(patch)))).toEqual([]);
      }),
    );
  });

  it("leaves what it does not change the same object", () => {
    const after = { ...plan, tasks: plan.tasks.map((task, i) => (i === 2 ? { ...task, worth: 999 } : task)) };
    const next = applied(plan, patchBetween(plan, after));
    expect(next.site).toBe(plan.site);
    expect(next.tasks.map((task, i) => task === plan.tasks[i])).toEqual([
      true,
      true,
      false,
      true,
      true,
      true,
    ]);
    expect(applied(plan, [])).toBe(plan);
  });

  it("is no larger than what differs", () => {
    const longer = {
      ...complete,
      evas: complete.evas.map((eva) => ({ ...eva, longestS: duration(26_000) })),
    };
    expect(patchBetween(complete, longer)).toEqual([
      { path: ["evas", "#eva-1", "longestS"], from: 25_000, to: 26_000 },
    ]);
    const [deploy, survey, wake] = complete.tasks as [Plan["tasks"][0], Plan["tasks"][0], Plan["tasks"][0]];
    const second = { ...survey, id: "second" };
    expect(patchBetween(complete, { ...complete, tasks: [deploy, second, survey, wake] })).toEqual([
      { path: ["tasks", "#second"], to: second },
      { path: ["tasks", ">deploy"], from: "survey", to: "second" },
      { path: ["tasks", ">second"], to: "survey" },
    ]);
  });

  it("puts an optional field where every file has it", () => {
    for (const task of complete.tasks) {
      for (const key of Object.keys(task) as (keyof typeof task)[]) {
        const tasks = complete.tasks.map((one) => (one === task ? without(one, key) : one));
        const lacking = { ...complete, tasks };
        const back = applied(lacking, patchBetween(lacking, complete));
        expect(JSON.stringify(back)).toBe(JSON.stringify(complete));
      }
    }
    const { ground, ...flat } = complete;
    expect(ground).toBeDefined();
    expect(JSON.stringify(applied(flat, patchBetween(flat, complete)))).toBe(JSON.stringify(complete));
  });
});

describe("a patch that does not fit", () => {
  const dearer = patchBetween(plan, {
    ...plan,
    title: "Other",
    tasks: plan.tasks.map((task, i) => (i === 1 ? { ...task, worth: 999 } : task)),
  });
  const second = plan.tasks[1]!;
  const refused = (on: Plan, patch: Patch): unknown => {
    const text = JSON.stringify(on);
    const outcome = applyPatch(on, patch);
    // Never half applied: the plan is as it was.
    expect(JSON.stringify(on)).toBe(text);
    return outcome.ok ? null : outcome.error;
  };

  it("is refused where something else stands there", () => {
    const other = {
      ...plan,
      tasks: plan.tasks.map((task) => (task === second ? { ...task, worth: 7 } : task)),
    };
    expect(refused(other, dearer)).toEqual({
      reason: "other value",
      path: ["tasks", `#${second.id}`, "worth"],
    });
  });

  it("is refused where the thing is gone", () => {
    const without = { ...plan, tasks: plan.tasks.filter((task) => task !== second) };
    expect(refused(without, dearer)).toEqual({ reason: "not there", path: ["tasks", `#${second.id}`] });
  });

  it("is refused where items cannot stand in the order asked for", () => {
    // In the one plan a block of two goes to the front; where its two stand at both ends that is no order.
    const order = (...at: number[]): Plan => ({ ...plan, tasks: at.map((i) => plan.tasks[i]!) });
    const [a, b, c] = plan.tasks.map((task) => task.id);
    const patch: Change[] = [
      { path: ["tasks", ">"], from: a, to: b },
      { path: ["tasks", `>${c}`], from: plan.tasks[3]!.id, to: a },
    ];
    expect(refused(order(0, 1, 2, 3, 4, 5), patch)).toEqual({ reason: "order", path: ["tasks"] });
    const noOrder = { reason: "order", path: ["tasks"] };
    expect(refused(plan, [{ path: ["tasks", "#new"], to: { id: "new" } }])).toEqual(noOrder);
    // An end behind the first leaves out all others, and what follows on nothing that is there is a follower too many.
    expect(refused(plan, [{ path: ["tasks", `>${a}`], from: b, to: null }])).toEqual(noOrder);
    expect(refused(plan, [{ path: ["tasks", ">nothing"], to: a }])).toEqual(noOrder);
  });

  it("is refused where two changes are about the same thing, also in a file", () => {
    const twice: Change[] = [
      { path: ["title"], from: plan.title, to: "Other" },
      { path: ["title", "more"], to: 1 },
    ];
    expect(refused(plan, twice)).toEqual({ reason: "malformed", path: ["title", "more"] });
    expect(patchSchema.safeParse(twice).success).toBe(false);
    expect(patchSchema.safeParse([{ path: ["__proto__"], from: {}, to: { x: 1 } }]).success).toBe(false);
  });

  it("cannot be put behind one that it does not follow", () => {
    const first = patchBetween(plan, { ...plan, title: "One" });
    const other = patchBetween({ ...plan, title: "Two" }, plan);
    expect(composePatches(first, other)).toEqual({
      ok: false,
      error: { reason: "other value", path: ["title"] },
    });
  });
});

describe("a patch fitted to another plan", () => {
  it("is itself on the plan that it was made on", () => {
    fc.assert(
      fc.property(anyPlan, anyPlan, (before, after) => {
        const patch = patchBetween(before, after);
        expect(made(fitPatch(before, patch))).toEqual({ patch, clashes: [] });
        // Done already: nothing is left to do.
        expect(made(fitPatch(after, patch))).toEqual({ patch: [], clashes: [] });
      }),
    );
  });

  it("always fits then, and loses no item of either", () => {
    fc.assert(
      fc.property(anyPlan, anyPlan, anyPlan, (base, theirs, ours) => {
        const { patch, clashes } = made(fitPatch(ours, patchBetween(base, theirs)));
        const merged = applied(ours, patch);
        const ids = (of: Plan): Set<string> => new Set(of.tasks.map((task) => task.id));
        const clashing = new Set(clashes.flatMap(({ path }) => (path[0] === "tasks" ? [path[1]] : [])));
        for (const id of ids(theirs))
          if (!ids(base).has(id)) expect(ids(merged).has(id) || clashing.has(`#${id}`)).toBe(true);
        for (const id of ids(ours))
          if (!ids(base).has(id) || ids(theirs).has(id)) expect(ids(merged)).toContain(id);
        expect(ids(merged).size).toBe(merged.tasks.length);
      }),
    );
  });

  it("holds where something else of the same thing has changed, and says what stands in its way", () => {
    const named = (longestS: number, name = "EVA 1"): Plan => ({
      ...complete,
      evas: complete.evas.map((eva) => ({ ...eva, name, longestS: duration(longestS) })),
    });
    const patch = patchBetween(complete, named(26_000));
    const renamed = made(fitPatch(named(25_000, "First"), patch));
    expect(renamed.clashes).toEqual([]);
    expect(applied(named(25_000, "First"), renamed.patch)).toEqual(named(26_000, "First"));
    expect(made(fitPatch(named(20_000), patch))).toEqual({ patch: [], clashes: patch });
    expect(made(fitPatch({ ...complete, evas: [] }, patch)).clashes).toEqual(patch);
  });

  it("puts new items beside their neighbours though others came between", () => {
    const [a, b, c] = complete.tasks as [Plan["tasks"][0], Plan["tasks"][0], Plan["tasks"][0]];
    const task = (id: string) => ({ ...b, id });
    const of = (...tasks: Plan["tasks"]): Plan => ({ ...complete, tasks });
    const patch = patchBetween(of(a, b, c), of(a, task("x"), task("y"), b, c, task("z")));
    const ours = of(a, task("o"), b, c, task("p"));
    const merged = applied(ours, made(fitPatch(ours, patch)).patch);
    expect(merged.tasks.map(({ id }) => id)).toEqual([a.id, "x", "y", "o", b.id, c.id, "z", "p"]);
  });

  it("from outside loses nothing though it asks for a ring", () => {
    const task = (id: string) => ({ ...complete.tasks[1]!, id });
    const ring: Change[] = [
      { path: ["tasks", "#x"], to: task("x") },
      { path: ["tasks", "#y"], to: task("y") },
      { path: ["tasks", ">x"], to: "y" },
      { path: ["tasks", ">y"], to: "x" },
    ];
    const merged = applied(complete, made(fitPatch(complete, ring)).patch);
    expect(merged.tasks.map(({ id }) => id)).toEqual([...complete.tasks.map(({ id }) => id), "x", "y"]);
  });
});
