import fc from "fast-check";
import { instant, random, type Random } from "../../src/kernel/index.ts";
import type { Placement, Plan } from "../../src/plan/index.ts";
import { randomPlan } from "../properties/randomPlan.ts";

/**
 * Plans that share ids and little else: of one seed, with tasks, links and places left out, in another order, and placed
 * anyhow. Two of them differ in fields, optional fields, forms of a union, membership and order at once.
 */
export const anyPlan: fc.Arbitrary<Plan> = fc
  .record({ seed: fc.integer({ min: 1, max: 60 }), jolt: fc.integer({ min: 0, max: 1_000_000 }) })
  .map(({ seed, jolt }) => jolted(planOfSeed(seed), random(jolt)));

const known = new Map<number, Plan>();
function planOfSeed(seed: number): Plan {
  const plan = known.get(seed) ?? randomPlan(seed, { tasks: 7, crew: 2, evas: 2, places: 4, features: 0.8 });
  known.set(seed, plan);
  return plan;
}

/** Small steps from one plan to the next: chains in which changes meet, cancel and undo each other. */
export const anyStep: fc.Arbitrary<(plan: Plan) => Plan> = fc.oneof(
  fc.constantFrom("One", "Two").map((title) => (plan: Plan) => ({ ...plan, title })),
  fc
    .tuple(fc.nat(6), fc.constantFrom(1, 2))
    .map(([at, worth]) => changeTask(at, (task) => ({ ...task, worth }))),
  fc.nat(6).map((at) => changeTask(at, (task) => without(task, "sample"))),
  fc
    .tuple(fc.nat(6), fc.constantFrom("box", "bag"))
    .map(([at, container]) =>
      changeTask(at, (task) => ({ ...task, sample: { container, massKg: 1, volumeL: 1 } })),
    ),
  fc
    .tuple(fc.nat(6), fc.constantFrom("geology" as const, { watts: 300 }, { watts: 400 }))
    .map(([at, effort]) => changeTask(at, (task) => ({ ...task, effort }))),
  fc.nat(6).map((at) => (plan: Plan) => ({ ...plan, tasks: plan.tasks.filter((_task, i) => i !== at) })),
  fc.tuple(fc.nat(6), fc.nat(6)).map(([from, to]) => (plan: Plan) => {
    const [task] = plan.tasks.slice(from);
    const others = plan.tasks.filter((one) => one !== task);
    return task ? { ...plan, tasks: [...others.slice(0, to), task, ...others.slice(to)] } : plan;
  }),
  fc.nat(6).map((at) => (plan: Plan) => {
    const [task] = plan.tasks.slice(at);
    const id = "again";
    if (!task || plan.tasks.some((one) => one.id === id)) return plan;
    return { ...plan, tasks: [...plan.tasks.slice(0, at), { ...task, id }, ...plan.tasks.slice(at)] };
  }),
  fc
    .record({
      id: fc.constantFrom("s1", "s2", "s3"),
      by: fc.constantFrom("A", "B"),
      of: fc.constantFrom("t1", "walkback", "day"),
      gone: fc.boolean(),
    })
    .map((drawn) => (plan: Plan) => said(plan, drawn)),
  fc.integer({ min: 0, max: 1_000_000 }).map((jolt) => (plan: Plan) => ({
    ...plan,
    schedule: { placements: placements(plan, random(jolt)) },
  })),
);

/** Something is said, said otherwise, or taken back: a comment and a sign-off of one id, and whose hands the plan was in. */
function said(plan: Plan, { id, by, of, gone }: { id: string; by: string; of: string; gone: boolean }): Plan {
  const kind = of === "t1" ? "task" : of === "day" ? "page" : "rule";
  const head = { id, about: { kind, id: of } as const, by, atUtc: "2031-03-30T10:00:00Z" };
  const others = <Item extends { readonly id: string }>(list: readonly Item[]): Item[] =>
    list.filter((one) => one.id !== id);
  return {
    ...plan,
    comments: [
      ...others(plan.comments),
      ...(gone ? [] : [{ ...head, text: `${by} says`, settled: by === "A" }]),
    ],
    signoffs: [...others(plan.signoffs), ...(gone ? [] : [{ ...head, value: by.toLowerCase().repeat(64) }])],
    hands: [...plan.hands.filter((one) => one.name !== by), { id: by.toLowerCase(), name: by }],
  };
}

/** `record` without the field of this name. */
export function without<Key extends string, Rest extends object>(
  record: Rest & { readonly [key in Key]?: unknown },
  key: Key,
): Rest {
  return Object.fromEntries(Object.entries(record).filter(([name]) => name !== key)) as Rest;
}

function changeTask(at: number, change: (task: Plan["tasks"][number]) => Plan["tasks"][number]) {
  return (plan: Plan): Plan => ({
    ...plan,
    tasks: plan.tasks.map((task, i) => (i === at ? change(task) : task)),
  });
}

function jolted(plan: Plan, stream: Random): Plan {
  const some = <Item>(list: readonly Item[]): Item[] =>
    shuffled(list, stream).filter(() => stream.next() < 0.8);
  const made = {
    ...plan,
    tasks: some(plan.tasks),
    links: some(plan.links),
    site: { ...plan.site, places: shuffled(plan.site.places, stream), legs: some(plan.site.legs) },
    variants: some(["v1", "v2"]).map((id) => ({
      id,
      name: id,
      schedule: { placements: placements(plan, stream) },
    })),
  };
  return { ...made, schedule: { placements: placements(made, stream) } };
}

function placements(plan: Plan, stream: Random): Placement[] {
  return shuffled(plan.tasks, stream)
    .filter(() => stream.next() < 0.6)
    .map(({ id }) => ({
      task: id,
      eva: plan.evas[stream.below(plan.evas.length)]?.id ?? null,
      crew: plan.crew.slice(0, 1 + stream.below(2)).map((one) => one.id),
      startS: instant(60 * stream.below(100)),
    }));
}

function shuffled<Item>(list: readonly Item[], stream: Random): Item[] {
  return list
    .map((item) => ({ item, at: stream.next() }))
    .toSorted((a, b) => a.at - b.at)
    .map(({ item }) => item);
}
