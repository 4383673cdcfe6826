import { describe, expect, it } from "vitest";
import { parse } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";
import { removalOf, type Removable } from "../../src/session/index.ts";
import { planOf, smallInput } from "./bench.ts";

/** A plan in which everything is named by something. */
const tasks = smallInput.tasks;
const rich: PlanInput = {
  ...smallInput,
  site: {
    ...smallInput.site,
    legs: [{ from: "lander", to: "ridge", distanceM: 120, durationS: 150 }],
    places: [...smallInput.site.places, { id: "spare", name: "Spare", kind: "station", eastM: 5, northM: 5 }],
    keepOuts: [
      {
        id: "hot-unit",
        name: "Heat",
        kind: "hot",
        shape: { type: "disc", eastM: 10, northM: 10, radiusM: 3 },
        afterTask: "one",
        exemptTasks: ["two"],
      },
    ],
  },
  stay: {
    ...smallInput.stay,
    blocks: [
      { id: "nap", name: "Nap", kind: "sleep", crew: ["ev2"], startS: 40_000, endS: 50_000 },
      { id: "meal", name: "Meal", kind: "meal", crew: ["ev1", "ev2"], startS: 50_000, endS: 52_000 },
    ],
    relayPasses: [{ id: "pass", name: "Pass", startS: 0, endS: 9000 }],
  },
  suits: [...smallInput.suits, { ...smallInput.suits[0]!, id: "spare-suit", name: "Spare suit" }],
  equipment: [{ id: "drill", name: "Drill", count: 1 }],
  containers: [
    { id: "box", name: "Box", emptyMassKg: 1, capacityKg: 10, volumeL: 5 },
    { id: "spare-box", name: "Spare box", emptyMassKg: 1, capacityKg: 10, volumeL: 5 },
  ],
  tasks: [
    { ...tasks[0]!, sample: { container: "box", massKg: 1 }, equipment: [{ equipment: "drill" }] },
    { ...tasks[1]!, pin: { eva: "eva-1", crew: ["ev2"] }, crew: { count: 1, named: ["ev2"] } },
    { ...tasks[2]! },
  ],
  links: [
    {
      id: "l1",
      type: "lag",
      from: { task: "one", end: "end" },
      to: { task: "two", end: "start" },
      leastS: 0,
    },
    { id: "l2", type: "eva", tasks: ["two", "three"] },
  ],
  schedule: {
    placements: [
      { task: "one", eva: "eva-1", crew: ["ev1"], startS: 7200 },
      { task: "two", eva: "eva-1", crew: ["ev2"], startS: 9000 },
    ],
  },
  variants: [
    {
      id: "v1",
      name: "Other",
      schedule: { placements: [{ task: "one", eva: "eva-1", crew: ["ev2"], startS: 7200 }] },
    },
  ],
};
const plan = planOf(rich);

const FREE: readonly (readonly [Removable, string])[] = [
  ["task", "one"],
  ["task", "two"],
  ["task", "three"],
  ["crew", "ev1"],
  ["crew", "ev2"],
  ["suit", "spare-suit"],
  ["eva", "eva-1"],
  ["equipment", "drill"],
  ["container", "spare-box"],
  ["place", "spare"],
  ["keep-out", "hot-unit"],
  ["link", "l1"],
  ["block", "nap"],
  ["pass", "pass"],
  ["variant", "v1"],
];

describe("taking a thing out of the plan", () => {
  it.each(FREE)("leaves a sound plan that names it nowhere: %s %s", (kind, id) => {
    const removal = removalOf(plan, kind, id);
    expect(removal.hindrances).toEqual([]);
    const next = { ...plan, ...removal.change(plan) };
    const read = parse(next);
    expect(read.ok ? [] : read.error).toEqual([]);
    expect(JSON.stringify(next)).not.toContain(`"${id}"`);
  });

  it("is hindered where a name would be left hanging, and says by whom", () => {
    expect(removalOf(plan, "suit", "suit").hindrances).toEqual(["EV1 wears it: choose another suit first."]);
    expect(removalOf(plan, "container", "box").hindrances[0]).toMatch(/Task one puts its sample in it/);
    expect(removalOf(plan, "place", "ridge").hindrances).toHaveLength(3);
    expect(removalOf(plan, "place", "lander").hindrances[0]).toMatch(/exactly one/);
    const alone = planOf({ ...rich, evas: [{ ...rich.evas[0]!, crew: ["ev2"] }] });
    expect(removalOf(alone, "crew", "ev2").hindrances[0]).toMatch(/EVA 1 would have nobody/);
  });

  it("gives people their own suit back on EVAs where they wore the one that goes, or drops it with them", () => {
    const dressed = planOf({ ...rich, evas: [{ ...rich.evas[0]!, suits: { ev1: "spare-suit" } }] });
    const removal = removalOf(dressed, "suit", "spare-suit");
    expect([removal.hindrances, removal.consequences]).toEqual([[], ["EV1 wears their own suit on EVA 1."]]);
    const next = { ...dressed, ...removal.change(dressed) };
    expect(next.evas[0]!.suits).toEqual({});
    const without = { ...dressed, ...removalOf(dressed, "crew", "ev1").change(dressed) };
    expect(without.evas[0]!.suits).toEqual({});
    expect([parse(next).ok, parse(without).ok]).toEqual([true, true]);
  });

  it("says what goes with a task", () => {
    expect(removalOf(plan, "task", "one").consequences).toEqual([
      "Its place on the day line goes, in variants as well.",
      "Its link with Task two goes.",
      "Keep-out Heat waits for it: it will hold always.",
    ]);
    expect(removalOf(plan, "task", "three").consequences).toEqual(["Its link with Task two goes."]);
  });

  it("counts the tasks that lose their need of a tool, and offers 0 of it instead, which keeps the need", () => {
    const { consequences, instead } = removalOf(plan, "equipment", "drill");
    expect(consequences).toEqual([
      "1 task loses its need of it and may be done without it.",
      "Task one no longer asks for it.",
    ]);
    const next = { ...plan, ...instead!.change(plan) };
    expect(next.equipment).toEqual([{ id: "drill", name: "Drill", count: 0 }]);
    expect(next.tasks).toBe(plan.tasks);
    expect(parse(next).ok).toBe(true);
    const unasked = planOf({ ...rich, tasks: smallInput.tasks });
    expect(removalOf(unasked, "equipment", "drill").instead).toBeUndefined();
  });

  it("never turns one crew member's rest into everybody's", () => {
    const change = removalOf(plan, "crew", "ev2").change(plan);
    expect(change.stay?.blocks.map((block) => [block.id, block.crew])).toEqual([["meal", ["ev1"]]]);
  });

  it("says what goes with a crew member", () => {
    expect(removalOf(plan, "crew", "ev2").consequences).toEqual([
      "EVA 1 goes out without EV2.",
      "Nap goes.",
      "Meal no longer names this one.",
      "Task two no longer asks for this one by name.",
      "Task two loses the pin of its crew.",
      "2 placements go to the bench, variants counted.",
    ]);
  });

  it("leaves alone what does not name it", () => {
    const change = removalOf(plan, "task", "three").change(plan);
    expect(change.site).toBe(plan.site);
    expect(change.schedule).toBe(plan.schedule);
    expect(change.variants).toBe(plan.variants);
  });
});
