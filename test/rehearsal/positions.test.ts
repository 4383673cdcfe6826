import { describe, expect, it } from "vitest";
import { check, recallOf } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { type Call, nextCall, played, rehearsalFrom, standingOf } from "../../src/rehearsal/index.ts";
import { walksOf } from "../../src/terrain/index.ts";
import { at, place, task, tinyPlan } from "../check/tinyPlan.ts";

// EV1 works on a (300 m out) from 3000 to 3600 and on b (600 m out) from 3900 on; egress at 3000 - 300 - 600 = 2100.
const plan = tinyPlan({
  tasks: [task("x", "a"), task("y", "b"), task("late", "b"), task("walk", "a", { endPlace: "b" })],
  placements: [at("x", 3000), at("y", 3900)],
});
const call = (atS: number, rest: object): Call => ({ ...rest, atS: instant(atS) }) as Call;
const OUT = call(2100, { kind: "out", eva: "eva-1" });
const X: readonly Call[] = [
  call(3000, { kind: "begins", task: "x" }),
  call(3600, { kind: "ends", task: "x" }),
];

function day(nowS: number, calls: readonly Call[], of: Plan = plan) {
  const walks = walksOf(of);
  const rehearsal = { ...rehearsalFrom(0, 1), nowS: instant(nowS), calls: [OUT, ...calls] };
  const standing = standingOf(of, rehearsal, walks);
  const recall = recallOf(standing.plan, standing.plan.schedule, "eva-1", nowS);
  return { rehearsal, walks, standing, ev1: recall?.crew.find((one) => one.crew === "ev1"), recall };
}

/** When a crew playing by itself is inside. */
function inS(nowS: number, calls: readonly Call[], of: Plan = plan): number | undefined {
  const { rehearsal, walks } = day(nowS, calls, of);
  return played(of, rehearsal, of.stay.lengthS, walks).calls.find((one) => one.kind === "in")?.atS;
}

function breaches(of: Plan): readonly string[] {
  return check(of)
    .findings.filter(({ level }) => level === "breach")
    .map(({ sentence }) => sentence);
}

describe("work that is given up", () => {
  const began = [...X, call(3900, { kind: "begins", task: "y" })];

  it("leaves its crew where it was", () => {
    const { ev1, recall, standing } = day(4200, [...began, call(4200, { kind: "left-out", task: "y" })]);
    expect(ev1).toMatchObject({ from: "b", to: "lander", share: 0, walkbackS: 600 });
    expect(recall?.earliestS).toBe(4200 + 600 + 600);
    expect(breaches(standing.plan)).toEqual([]);
  });

  it("does not bring a crew that plays by itself home at once", () => {
    expect(inS(4200, [...began, call(4200, { kind: "left-out", task: "y" })])).toBe(4200 + 600 + 600);
  });

  it("keeps the way out where it is given up in the second it began", () => {
    const calls = [...began, call(3900, { kind: "left-out", task: "y" })];
    const { standing } = day(3900, calls);
    expect(check(standing.plan).walkedM["ev1"]).toBe(300 + 300 + 600);
    expect(inS(3900, calls)).toBe(3900 + 600 + 600);
    // Something else may begin there in the same second.
    const again = day(3900, [
      ...calls,
      call(3900, { kind: "replanned", schedule: { placements: [at("x", 3000), at("late", 3900)] } }),
      call(3900, { kind: "begins", task: "late" }),
    ]);
    expect(breaches(again.standing.plan)).toEqual([]);
  });

  it("stays done when the day is planned anew without it", () => {
    const calls = [
      ...began,
      call(4200, { kind: "left-out", task: "y" }),
      call(4200, { kind: "replanned", schedule: { placements: [at("x", 3000)] } }),
    ];
    const part = check(day(4300, calls).standing.plan).outings[0]!.stretches.find(
      (one) => one.task === "rehearsed:part-1",
    );
    expect(part?.span).toEqual({ startS: 3900, endS: 4200 });
    expect(inS(4200, calls)).toBe(4200 + 600 + 600);
  });

  it("leaves its crew on its way where it ends elsewhere", () => {
    // 600 s of work from a to b, 300 m: a third of it done is a third of the way.
    const of = { ...plan, schedule: { placements: [at("walk", 3000)] } } as Plan;
    const calls = [
      call(3000, { kind: "begins", task: "walk" }),
      call(3200, { kind: "left-out", task: "walk" }),
    ];
    const { standing, recall } = day(3200, calls, of);
    expect(standing.plan.site.places.at(-1)).toMatchObject({
      eastM: 400,
      northM: 0,
      name: "between a and b",
    });
    // Back to a and home 100 + 300; on to b and home 200 + 600.
    expect(recall?.earliestS).toBe(3200 + 400 + 600);
    expect(inS(3200, calls, of)).toBe(3200 + 400 + 600);
    expect(breaches(standing.plan)).toEqual([]);
  });

  it("leaves its crew at its end where only the result is lost, however soon it was there", () => {
    const of = { ...plan, schedule: { placements: [at("walk", 3000)] } } as Plan;
    const calls = [
      call(3000, { kind: "begins", task: "walk" }),
      call(3500, { kind: "spoilt", task: "walk" }),
    ];
    const { standing, recall } = day(3500, calls, of);
    expect(standing.plan.site.places).toEqual(of.site.places);
    // b is 600 m from home, 600 s.
    expect(recall?.earliestS).toBe(3500 + 600 + 600);
    expect(inS(3500, calls, of)).toBe(3500 + 600 + 600);
  });
});

describe("a way that is broken off", () => {
  it("is left from where they are", () => {
    // 100 of 300 m from a to b: back 100 + 300, on 200 + 600.
    const calls = [...X, call(3700, { kind: "left-out", task: "y" })];
    const { standing, recall, ev1 } = day(3700, calls);
    expect(standing.plan.site.places.at(-1)).toMatchObject({
      eastM: 400,
      northM: 0,
      name: "between a and b",
    });
    expect(recall?.earliestS).toBe(3700 + 400 + 600);
    expect(ev1?.from).toBe(standing.plan.site.places.at(-1)!.id);
    expect(inS(3700, calls)).toBe(3700 + 400 + 600);
    const verdict = check(standing.plan);
    expect(verdict.walkedM["ev1"]).toBe(300 + 100 + 400);
    expect(breaches(standing.plan)).toEqual([]);
    expect(breaches(standing.ahead)).toEqual([]);
  });

  it("leads on to what is next from there", () => {
    const of = tinyPlan({
      tasks: [task("x", "a"), task("y", "b"), task("z", "c")],
      placements: [at("x", 3000), at("y", 3900), at("z", 5300)],
    });
    const calls = [...X, call(3700, { kind: "left-out", task: "y" })];
    // From (400, 0) to c at (0, 400): 566 m, and there in time for 5300.
    const { standing } = day(3700, calls, of);
    expect(standing.placements.find((placement) => placement.task === "z")).toMatchObject({ startS: 5300 });
    const traverse = check(standing.plan).outings[0]!.stretches.filter((one) => one.kind === "traverse");
    expect(traverse.map(({ span }) => span.endS - span.startS)).toEqual([300, 100, 566, 400]);
  });

  it("ends at the place itself where they had come to it and waited", () => {
    const of = { ...plan, schedule: { placements: [at("x", 3000), at("y", 5000)] } } as Plan;
    const calls = [...X, call(4500, { kind: "left-out", task: "y" })];
    expect(day(4500, calls, of).ev1).toMatchObject({ from: "b", walkbackS: 600 });
    expect(inS(4500, calls, of)).toBe(4500 + 600 + 600);
  });

  it("is one on the way out, too, and home", () => {
    // Out of the hatch at 2700, 120 m on at 2820.
    const out = [call(2820, { kind: "closed", place: "a" }), call(2820, { kind: "left-out", task: "y" })];
    expect(inS(2820, out)).toBe(2820 + 120 + 600);
    // On the way home from b since 4500, 200 m on, when something at b is added: back there at 4700 + 200.
    const home = [
      ...X,
      call(3900, { kind: "begins", task: "y" }),
      call(4500, { kind: "ends", task: "y" }),
      call(4700, {
        kind: "replanned",
        schedule: { placements: [at("x", 3000), at("y", 3900), at("late", 4600)] },
      }),
    ];
    const { standing } = day(4700, home);
    expect(standing.placements.find((placement) => placement.task === "late")).toMatchObject({
      startS: 4900,
    });
    expect(breaches(standing.plan)).toEqual([]);
  });

  it("may be broken off again", () => {
    const of = tinyPlan({
      tasks: [task("x", "a"), task("y", "b"), task("z", "c")],
      placements: [at("x", 3000), at("y", 3900), at("z", 5300)],
    });
    const calls = [
      ...X,
      call(3700, { kind: "left-out", task: "y" }),
      call(3950, { kind: "left-out", task: "z" }),
    ];
    // 250 of the 566 s from (400, 0) to (0, 400) are gone: at (223.3, 176.7), 284.7 m from the lander.
    const { recall, standing } = day(3950, calls, of);
    expect(recall?.earliestS).toBe(3950 + 285 + 600);
    expect(inS(3950, calls, of)).toBe(3950 + 285 + 600);
    expect(breaches(standing.plan)).toEqual([]);
  });

  it("goes by the hop they are on where a way leads through other places", () => {
    // A wall between a and d: the way goes through c.
    const of = tinyPlan({
      places: [place("lander", 0, 0), place("a", 300, 0), place("c", 0, 400), place("d", -300, 0)],
      site: {
        keepOuts: [
          {
            id: "wall",
            name: "wall",
            kind: "walking",
            shape: { type: "disc", eastM: -150, northM: 0, radiusM: 60 },
          },
        ],
      },
      tasks: [task("x", "a"), task("y", "d")],
      placements: [at("x", 3000), at("y", 6000)],
    });
    // a to c 500, c to d 500: 100 m beyond c after 600 s, at (-60, 320), 325.6 m from the lander.
    const { recall, standing } = day(4200, [...X, call(4200, { kind: "left-out", task: "y" })], of);
    expect(standing.plan.site.places.at(-1)!.name).toBe("between c and d");
    expect(recall?.earliestS).toBe(4200 + 326 + 600);
    expect(breaches(standing.plan)).toEqual([]);
  });

  it("goes on or back along a leg that the planner gave, for nobody knows where it leads", () => {
    const legs = [{ from: "a", to: "b", distanceM: 400, durationS: 400, bothWays: true }];
    const of = tinyPlan({
      site: { legs },
      tasks: [task("x", "a"), task("y", "b")],
      placements: [at("x", 3000), at("y", 5000)],
    });
    // 100 of 400 s: back 100 + 300, on 300 + 600.
    const calls = [...X, call(3700, { kind: "left-out", task: "y" })];
    const { recall, standing, ev1 } = day(3700, calls, of);
    expect(recall?.earliestS).toBe(3700 + 400 + 600);
    expect(ev1?.walkbackS).toBe(400);
    expect(inS(3700, calls, of)).toBe(3700 + 400 + 600);
    expect(check(standing.plan).walkedM["ev1"]).toBe(300 + 100 + 400);
    expect(breaches(standing.plan)).toEqual([]);
    // 350 of 400 s: back 350 + 300, on 50 + 600.
    expect(day(3950, [...X, call(3950, { kind: "left-out", task: "y" })], of).recall?.earliestS).toBe(
      3950 + 650 + 600,
    );
  });

  it("follows the trail over a height grid", () => {
    // A wall 40 m high and 600 m long between the lander and north: the way there leads round its end.
    const ground = {
      type: "grid" as const,
      westM: -700,
      southM: -700,
      cellM: 25,
      columns: 57,
      rows: 57,
      detour: 1,
      heights: Array.from({ length: 57 }, (_, row) =>
        Array.from({ length: 57 }, (_, column) => {
          const north = 700 - 25 * row;
          return north >= 100 && north <= 150 && Math.abs(25 * column - 700) <= 300 ? "4000" : "0";
        }).join(" "),
      ),
    };
    const of = tinyPlan({
      places: [place("lander", 0, 0), place("north", 0, 250)],
      tasks: [task("x", "north")],
      placements: [at("x", 3000)],
      more: { ground },
    });
    // Out of the hatch at 2700 and 300 s on: at the end of the wall, and nowhere near the straight line.
    const { standing, recall } = day(3000, [call(3000, { kind: "left-out", task: "x" })], of);
    const spot = standing.plan.site.places.at(-1)!;
    expect(Math.abs(spot.eastM)).toBeGreaterThan(200);
    expect(recall!.earliestS).toBeGreaterThan(3000 + 600 + Math.hypot(spot.eastM, spot.northM) - 1);
    expect(recall!.earliestS).toBeLessThanOrEqual(3000 + 600 + 310);
    expect(inS(3000, [call(3000, { kind: "left-out", task: "x" })], of)).toBe(recall!.earliestS);
    expect(breaches(standing.plan)).toEqual([]);
  });

  it("changes nothing where they walk to the same place as before", () => {
    const of = {
      ...plan,
      schedule: { placements: [at("x", 3000), at("y", 3900), at("late", 4600)] },
    } as Plan;
    const { standing } = day(3700, [...X, call(3700, { kind: "left-out", task: "y" })], of);
    expect(standing.plan.site).toBe(of.site);
    expect(
      nextCall(of, day(3700, [...X, call(3700, { kind: "left-out", task: "y" })], of).rehearsal, walksOf(of)),
    ).toEqual({ kind: "begins", task: "late", atS: 4600 });
  });
});
