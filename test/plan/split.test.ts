import { cautionsOf, stepsOf } from "./lines.ts";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  leavesInstrument,
  mergeTasks,
  otherPart,
  parse,
  type Plan,
  splitAfterS,
  splitTask,
} from "../../src/plan/index.ts";
import { duration } from "../../src/kernel/index.ts";
import { sharedAmount } from "../../src/plan/sharing.ts";
import { randomPlan } from "../properties/randomPlan.ts";
import { at, eva, place, type TaskInput, task, tinyPlan } from "../check/tinyPlan.ts";

/** `plan` with task `id` in two after `afterS`; fails the test where that cannot be. */
function split(plan: Plan, id: string, afterS: number): { plan: Plan; ids: readonly [string, string] } {
  const made = splitTask(plan, id, afterS);
  if (!made.ok) throw new Error(made.error);
  return { plan: sound({ ...plan, ...made.value.parts }), ids: made.value.tasks };
}

function merge(plan: Plan, a: string, b: string): Plan {
  const made = mergeTasks(plan, a, b);
  if (!made.ok) throw new Error(made.error);
  return sound({ ...plan, ...made.value.parts });
}

/** The plan, which the door must let in as it is. */
function sound(plan: Plan): Plan {
  const read = parse(JSON.parse(JSON.stringify(plan)));
  expect(read.ok ? [] : read.error).toEqual([]);
  return plan;
}

const why = (plan: Plan, a: string, b: string): string => {
  const made = mergeTasks(plan, a, b);
  return made.ok ? "they can" : made.error;
};

const RICH: Partial<TaskInput> = {
  name: "Rake",
  duration: { likelyS: 1800, lowS: 1201, highS: 2500 },
  worth: 41,
  must: true,
  walkM: 101,
  massOutKg: 0.7,
  sample: { container: "box", massKg: 1.3, volumeL: 0.9 },
  windows: [{ startS: 0, endS: 30_000 }],
  equipment: [{ equipment: "drill" }],
  cautions: cautionsOf("Dust", "Edge"),
  steps: stepsOf("Rake", "Bag"),
  notes: "Twice",
  instrument: true,
};

const rich = (more: Partial<TaskInput> = {}) =>
  tinyPlan({
    tasks: [task("x", "a", { ...RICH, ...more }), task("y", "b"), task("z", "a")],
    placements: [at("x", 3000), at("y", 8000)],
    site: {
      keepOuts: [
        {
          id: "hot",
          name: "Hot unit",
          kind: "hot",
          shape: { type: "disc", eastM: 900, northM: 0, radiusM: 5 },
          afterTask: "x",
          exemptTasks: ["x", "z"],
        },
      ],
    },
    more: {
      equipment: [{ id: "drill", name: "Drill", count: 1 }],
      containers: [{ id: "box", name: "Box", emptyMassKg: 1, capacityKg: 9, volumeL: 9 }],
      links: [
        {
          id: "l-start",
          type: "lag",
          from: { task: "y", end: "end" },
          to: { task: "x", end: "start" },
          leastS: -9000,
        },
        {
          id: "l-end",
          type: "lag",
          from: { task: "x", end: "end" },
          to: { task: "y", end: "start" },
          greatestS: 9000,
        },
        { id: "l-crew", type: "crew", tasks: ["x", "y"], crew: "same" },
        { id: "l-eva", type: "eva", tasks: ["y", "x"] },
        { id: "l-apart", type: "apart", tasks: ["x", "y"], leastM: 10 },
      ],
      variants: [{ id: "other", name: "Other", schedule: { placements: [at("x", 5000, ["ev2"])] } }],
    },
  });

describe("a split", () => {
  it("divides what can be divided and asks of both parts what was asked of the whole", () => {
    const { plan, ids } = split(rich(), "x", 600);
    expect(ids).toEqual(["x", "x-2"]);
    const [one, two] = plan.tasks as [Plan["tasks"][number], Plan["tasks"][number]];
    expect([one.name, two.name]).toEqual(["Rake, part 1", "Rake, part 2"]);
    expect([one.duration, two.duration]).toEqual([
      { likelyS: 600, lowS: 400, highS: 833 },
      { likelyS: 1200, lowS: 801, highS: 1667 },
    ]);
    expect([one.worth, two.worth]).toEqual([13, 28]);
    expect([one.walkM, two.walkM]).toEqual([34, 67]);
    expect(one.sample!.massKg + two.sample!.massKg).toBe(1.3);
    expect([one.massOutKg, two.massOutKg]).toEqual([0.7, 0]);
    expect([one.instrument, two.instrument]).toEqual([false, true]);
    expect([one.must, two.must]).toEqual([true, true]);
    expect([one.steps, two.steps]).toEqual([stepsOf("Rake", "Bag"), []]);
    expect([one.cautions, two.cautions]).toEqual([RICH.cautions, RICH.cautions]);
    expect(two.windows).toEqual(one.windows);
    expect(two.equipment).toEqual(one.equipment);
    expect(plan.schedule.placements.slice(0, 2)).toEqual([at("x", 3000), at("x-2", 3600)]);
    expect(plan.variants[0]!.schedule.placements).toEqual([at("x", 5000, ["ev2"]), at("x-2", 5600, ["ev2"])]);
  });

  it("shares bags out without losing one, leaves what is said of the load with the load, and merges both back", () => {
    const sample = { container: "box", massKg: 1.3, volumeL: 0.9 };
    const cases = [
      // 600 s of 1800 s are a third: 2 of 6 bags, the first 2 of 7 numbers, none of 2 bags.
      [6, 2, 4],
      [
        ["A", "B", "C", "D", "E", "F", "G"],
        ["A", "B"],
        ["C", "D", "E", "F", "G"],
      ],
      [2, undefined, 2],
      [undefined, undefined, undefined],
    ] as const;
    for (const [bags, first, second] of cases) {
      const given = { ...sample, ...(bags === undefined ? {} : { bags: bags as number }) };
      const plan = rich({ sample: given, returns: false });
      const done = split(plan, "x", 600);
      const [one, two] = done.plan.tasks;
      expect([one!.sample?.bags, two!.sample?.bags]).toEqual([first, second]);
      expect([one!.returns, two!.returns]).toEqual([false, undefined]);
      const back = merge(done.plan, "x", "x-2").tasks[0]!;
      expect([back.sample?.bags, back.returns]).toEqual([bags, false]);
    }
  });

  it("leaves an instrument once, by the second part, and merges back what was said or not said of it", () => {
    for (const said of [{}, { instrument: true }, { instrument: false }]) {
      const unsaid = { ...RICH };
      delete unsaid.instrument;
      for (const kind of ["deployment", "survey"] as const) {
        const before = tinyPlan({
          tasks: [task("x", "a", { ...unsaid, kind, ...said })],
          more: {
            equipment: [{ id: "drill", name: "Drill", count: 1 }],
            containers: [{ id: "box", name: "Box", emptyMassKg: 1, capacityKg: 9, volumeL: 9 }],
          },
        });
        const { plan } = split(before, "x", 600);
        const leaves = plan.tasks.map(leavesInstrument);
        expect(leaves).toEqual([false, leavesInstrument(before.tasks[0]!)]);
        expect(merge(plan, "x", "x-2").tasks).toEqual(before.tasks);
      }
    }
  });

  it("hangs every link on the part that has the end it counts from, and binds the parts", () => {
    const { plan } = split(rich(), "x", 600);
    const named = Object.fromEntries(
      plan.links.map((link) => [link.id, link.type === "lag" ? [link.from.task, link.to.task] : link.tasks]),
    );
    expect(named).toEqual({
      "l-start": ["y", "x"],
      "l-end": ["x-2", "y"],
      "l-crew": ["x", "y"],
      "l-crew-2": ["x-2", "y"],
      "l-eva": ["y", "x"],
      "l-eva-2": ["y", "x-2"],
      "l-apart": ["x-2", "y"],
      "x-parts-2": ["x", "x-2"],
      "x-crew-2": ["x", "x-2"],
    });
    expect(plan.links.find((link) => link.id === "x-parts-2")).toMatchObject({
      from: { end: "end" },
      to: { end: "start" },
      leastS: 0,
      needs: "both",
    });
    expect(plan.site.keepOuts[0]).toMatchObject({ afterTask: "x-2", exemptTasks: ["x", "x-2", "z"] });
  });

  it("needs no same-crew link where all are named, and none for remote work", () => {
    const types = (more: Partial<TaskInput>) =>
      split(tinyPlan({ tasks: [task("x", "a", more)] }), "x", 300).plan.links.map((link) => link.type);
    expect(types({ crew: { count: 2, named: ["ev1"] } })).toEqual(["lag", "crew"]);
    expect(types({ crew: { count: 1, named: ["ev2"] } })).toEqual(["lag"]);
    expect(types({ crew: { count: 0 } })).toEqual(["lag"]);
  });

  it("walks to the end place in the last part, and counts the sun from that walk there only", () => {
    const carry = tinyPlan({
      tasks: [task("x", "a", { endPlace: "b", sunAngle: { leastDeg: 20, greatestDeg: 180 } })],
    });
    const { plan } = split(carry, "x", 120);
    expect(plan.tasks.map(({ place, endPlace, sunAngle }) => [place, endPlace, sunAngle?.leastDeg])).toEqual([
      ["a", undefined, undefined],
      ["a", "b", 20],
    ]);
    expect(merge(plan, "x-2", "x")).toEqual(carry);
  });

  it("keeps a pin on both parts, each at its own start", () => {
    const whole = rich({ pin: { startS: 3000, eva: "eva-1", crew: ["ev1"] } });
    const { plan } = split(whole, "x", 600);
    expect(plan.tasks[0]!.pin).toEqual({ startS: 3000, eva: "eva-1", crew: ["ev1"] });
    expect(plan.tasks[1]!.pin).toEqual({ startS: 3600, eva: "eva-1", crew: ["ev1"] });
    expect(merge(plan, "x", "x-2")).toEqual(whole);
  });

  it("is where the cursor's minute is, else in the middle in whole minutes", () => {
    const plan = rich({ duration: { likelyS: 1500 } });
    expect(splitAfterS(plan, "x", 3000 + 620)).toBe(600);
    expect(splitAfterS(plan, "x", 3010)).toBe(720);
    expect(splitAfterS(plan, "x", 4490)).toBe(720);
    // Either part just lasts its minute.
    expect(splitAfterS(plan, "x", 3060)).toBe(60);
    expect(splitAfterS(plan, "x", 4440)).toBe(1440);
    expect(splitAfterS(plan, "x", 9000)).toBe(720);
    expect(splitAfterS(plan, "x", null)).toBe(720);
    expect(splitAfterS(plan, "z", 3600)).toBe(300);
    // Two minutes are just enough for two parts.
    expect(splitAfterS(rich({ duration: { likelyS: 120 } }), "x", null)).toBe(60);
    expect(splitAfterS(rich({ duration: { likelyS: 119 } }), "x", 3060)).toBeNull();
    expect(splitAfterS(plan, "nothing", null)).toBeNull();
  });

  it("is refused where a part would have no time", () => {
    for (const afterS of [0, 1800, -5, 600.5])
      expect(splitTask(rich(), "x", afterS)).toMatchObject({
        ok: false,
        error: expect.stringMatching(/some time/),
      });
  });
});

describe("a share of an amount", () => {
  it("leaves a rest that adds up to the last bit, whatever the amount and the share", () => {
    const amount = fc.oneof(
      fc.double({ min: 0, max: 500, noNaN: true }),
      fc.integer({ min: 0, max: 500_000 }).map((grams) => grams / 1000),
    );
    fc.assert(
      fc.property(amount, fc.double({ min: 0, max: 1, noNaN: true }), (total, share) => {
        const [first, second] = sharedAmount(total, share, [100, 1000]);
        expect(first + second).toBe(total);
        expect(Math.min(first, second)).toBeGreaterThanOrEqual(0);
        // Near the proportion: by the grains that plain figures may cost.
        expect(Math.abs(first - total * share)).toBeLessThanOrEqual(Math.max(0.033, total * 0.34));
      }),
      { numRuns: 2000 },
    );
  });
});

describe("a merge", () => {
  it("takes any split back, up to nothing at all", () => {
    const shape = { tasks: 9, crew: 3, evas: 2, places: 5, features: 1 };
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.nat(8),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (seed, which, share) => {
          const drawn = laid(randomPlan(seed, shape));
          const { id, duration } = drawn.tasks[which]!;
          const shared = drawn.groups.some(({ shares, tasks }) => shares.length > 0 && tasks.includes(id));
          if (shared) expect(splitTask(drawn, id, 60)).toMatchObject({ ok: false });
          const plan = { ...drawn, groups: drawn.groups.map((group) => ({ ...group, shares: [] })) };
          const { plan: apart, ids } = split(plan, id, Math.max(1, Math.floor(duration.likelyS * share)));
          expect(otherPart(apart, ids[0])).toBe(ids[1]);
          expect(otherPart(apart, ids[1])).toBe(ids[0]);
          expect(merge(apart, ids[1], ids[0])).toEqual(plan);
        },
      ),
      // A plan with a link of the planner's that asks the same as one between parts.
      { numRuns: 300, examples: [[1918, 8, 0.01]] },
    );
  });

  it("is refused where a group counts the second task for itself, or says what the first counts", () => {
    const { plan, ids } = split(rich(), "x", 900);
    const counted = { id: "g", name: "Rakes", least: 0, shares: [] };
    const both = { ...plan, groups: [{ ...counted, tasks: [...ids] }] };
    expect(mergeTasks(both, ...ids)).toEqual({
      ok: false,
      error: "Group Rakes counts Rake, part 2 for itself.",
    });
    const first = { ...plan, groups: [{ ...counted, tasks: [ids[0]], shares: [100, 50] }] };
    expect(mergeTasks(first, ...ids)).toEqual({
      ok: false,
      error: "Group Rakes says what Rake, part 1 counts.",
    });
    expect(mergeTasks({ ...plan, groups: [{ ...counted, tasks: [ids[0]] }] }, ...ids).ok).toBe(true);
  });

  it("keeps what may go wrong with one of two tasks, and is refused where two things may", () => {
    const { plan, ids } = split(rich(), "x", 900);
    const mishap = { what: "sticks", chance: 0.1, extraS: duration(60), spoils: false };
    const going = (first: object, second: object): Plan => ({
      ...plan,
      tasks: plan.tasks.map((one) => {
        const bare = { ...one };
        delete bare.mishap;
        return one.id === ids[0] ? { ...bare, ...first } : one.id === ids[1] ? { ...bare, ...second } : one;
      }),
    });
    expect(mergeTasks(going({ mishap }, {}), ...ids).ok).toBe(true);
    expect(mergeTasks(going({}, { mishap }), ...ids).ok).toBe(true);
    expect(mergeTasks(going({ mishap }, { mishap: { ...mishap, chance: 0.2 } }), ...ids)).toMatchObject({
      ok: false,
      error: expect.stringContaining("what may go wrong"),
    });
  });

  it("takes two splits back in either order of the parts", () => {
    const whole = rich();
    const once = split(whole, "x", 900).plan;
    const twice = split(once, "x-2", 300);
    expect(twice.plan.tasks.map((one) => one.name).slice(0, 3)).toEqual([
      "Rake, part 1",
      "Rake, part 2.1",
      "Rake, part 2.2",
    ]);
    expect(merge(twice.plan, ...twice.ids).tasks.map((one) => one.name)).toContain("Rake, part 2");
    expect(merge(merge(twice.plan, ...twice.ids), "x", "x-2")).toEqual(whole);
  });

  it("makes one of two tasks that lie back to back, with their sums", () => {
    const plan = tinyPlan({
      tasks: [
        task("x", "a", { worth: 3, steps: stepsOf("One") }),
        task("y", "a", { worth: 4, steps: stepsOf("Two"), must: true }),
      ],
      placements: [at("x", 3000), at("y", 3600)],
    });
    const one = merge(plan, "y", "x");
    expect(one.tasks).toMatchObject([
      {
        id: "x",
        name: "x and y",
        worth: 7,
        must: true,
        duration: { likelyS: 1200 },
        steps: stepsOf("One", "Two"),
      },
    ]);
    expect(one.schedule.placements).toEqual([at("x", 3000)]);
  });

  it("lays parts with a gap where the first began, but not over what lies between", () => {
    const { plan } = split(rich(), "x", 600);
    const moved = (startS: number, more: Plan["schedule"]["placements"] = []): Plan => ({
      ...plan,
      schedule: {
        placements: [
          ...plan.schedule.placements.map((one) =>
            one.task === "x-2" ? { ...one, startS: startS as never } : one,
          ),
          ...more,
        ],
      },
    });
    expect(merge(moved(5000), "x", "x-2").schedule.placements).toContainEqual(at("x", 3000));
    expect(why(moved(9000), "x", "x-2")).toBe("y lies between them.");
    // Also where only one of its crew is theirs, and not where none is.
    const withCrew = (...crew: string[]): Plan => {
      const gap = moved(9000);
      const placements = gap.schedule.placements.map((one) => (one.task === "y" ? { ...one, crew } : one));
      return { ...gap, schedule: { placements } };
    };
    expect(why(withCrew("ev1", "ev2"), "x", "x-2")).toBe("y lies between them.");
    expect(why(withCrew("ev2"), "x", "x-2")).toBe("they can");
    expect(why(moved(3500), "x", "x-2")).toBe("Rake, part 2 begins before Rake, part 1 ends.");
    const benched = { ...plan, schedule: { placements: plan.schedule.placements.slice(2) } };
    expect(why(benched, "x", "x-2")).toBe("they can");
    const half = { ...plan, schedule: { placements: plan.schedule.placements.slice(1) } };
    expect(why(half, "x", "x-2")).toBe("Rake, part 1 is on the bench and the other is not.");
  });

  it("says in words why two tasks cannot be one", () => {
    const pair = (more: Partial<TaskInput>, first: Partial<TaskInput> = {}, links: object[] = []) =>
      tinyPlan({
        tasks: [task("x", "a", first), task("y", "a", more), task("z", "b")],
        placements: [at("x", 3000), at("y", 3600)],
        places: [place("lander", 0, 0), place("a", 300, 0), place("b", 600, 0)],
        evas: [eva("eva-1"), eva("eva-2", { earliestEgressS: 20_000 })],
        more: { links: links as never },
      });
    const said = (...parts: Parameters<typeof pair>) => why(pair(...parts), "x", "y");
    expect(said({})).toBe("they can");
    expect(said({ kind: "upkeep", effort: "rest" })).toBe("They differ in kind, effort.");
    expect(said({ windows: [{ startS: 0, endS: 9000 }] })).toBe("They differ in windows.");
    expect(said({ place: "b" })).toBe("y does not begin where x ends.");
    expect(said({ place: "b", endPlace: "a" }, { endPlace: "b" })).toMatch(/^Both walk/);
    expect(said({ endPlace: "b" }, { instrument: true })).toMatch(/leaves its instrument/);
    expect(said({ pin: { startS: 3600 } })).toBe("Only y is pinned: unpin it first.");
    expect(said({ pin: { startS: 3600 } }, { pin: { startS: 3300 } })).toMatch(/pinned to different/);
    expect(said({ pin: { startS: 3600 } }, { pin: { startS: 3000 } })).toBe("they can");
    const lag = (from: object, to: object, more: object = { leastS: 0 }) => [
      { id: "l", type: "lag", from, to, ...more },
    ];
    const [xEnd, yStart] = [
      { task: "x", end: "end" },
      { task: "y", end: "start" },
    ];
    expect(said({}, {}, lag(xEnd, yStart))).toBe("they can");
    expect(said({}, {}, lag(xEnd, yStart, { leastS: 60 }))).toMatch(/another time/);
    expect(said({}, {}, lag(xEnd, { task: "z", end: "start" }))).toBe(
      "A link with z counts from the end of x, which would lie inside.",
    );
    expect(said({}, {}, [{ id: "l", type: "crew", tasks: ["x", "y"], crew: "different" }])).toMatch(
      /different crew/,
    );
    const gap = pair({});
    expect(
      why({ ...gap, schedule: { placements: [at("x", 3000), at("y", 3700)] as never } }, "x", "y"),
    ).toMatch(/right where/);
    expect(
      why({ ...gap, schedule: { placements: [at("x", 3000), at("y", 3600, ["ev2"])] as never } }, "x", "y"),
    ).toMatch(/different crew/);
    expect(
      why(
        { ...gap, schedule: { placements: [at("x", 3000), at("y", 3600, ["ev1"], "eva-2")] as never } },
        "x",
        "y",
      ),
    ).toMatch(/different EVAs/);
    expect(why({ ...gap, schedule: { placements: [] } }, "x", "y")).toMatch(/bench/);
    expect(why(gap, "x", "x")).toBe("Two tasks are needed.");
  });

  it("is refused where a keep-out or a variant tells the parts apart", () => {
    const { plan } = split(rich(), "x", 600);
    const [keepOut] = plan.site.keepOuts;
    const withKeepOut = (more: object): Plan => ({
      ...plan,
      site: { ...plan.site, keepOuts: [{ ...keepOut!, ...more }] },
    });
    expect(why(withKeepOut({ afterTask: "x" }), "x", "x-2")).toMatch(/waits for the end of Rake, part 1/);
    expect(why(withKeepOut({ exemptTasks: ["x"] }), "x", "x-2")).toBe(
      "Keep-out Hot unit exempts Rake, part 1 only.",
    );
    const variants = [{ id: "v", name: "Late", schedule: { placements: [at("x", 3000) as never] } }];
    expect(why({ ...plan, variants }, "x", "x-2")).toBe(
      "In variant Late: Rake, part 2 is on the bench and the other is not.",
    );
  });
});

/** The plan with every second task placed somewhere, sound or not. */
function laid(plan: Plan): Plan {
  const placements = plan.tasks
    .filter((_, k) => k % 2 === 0)
    .map((one, k) => ({
      task: one.id,
      eva: one.crew.count === 0 ? null : plan.evas[0]!.id,
      crew: plan.evas[0]!.crew.slice(0, one.crew.count),
      startS: (5000 + 1200 * k) as never,
    }));
  return { ...plan, schedule: { placements } };
}
