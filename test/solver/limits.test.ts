import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { Day } from "../../src/solver/network/day.ts";
import { loadSchedule } from "../../src/solver/network/placing.ts";
import { compiled } from "../../src/solver/problem/known.ts";
import { at, eva, task, tinyPlan } from "../check/tinyPlan.ts";

/** Days that meet a limit to the second: the maker takes them, and leaves one second less on the bench. */

function packed(plan: Plan): { placed: number; breaches: number } {
  const run = packRun(plan, { seed: 1, iterations: 60, clock: () => 0 });
  while (run.step(1)) continue;
  const { placed, score } = check(plan, run.best());
  return { placed, breaches: score.breaches };
}

describe("work that is as long as it may be", () => {
  it("ends at the limit with a task, and on arrival at home", () => {
    // 300 s to a, four tasks of 600 s, 300 s home, no airlock work: in 3600 s there is time for one rest of 600 s. Only in the middle it leaves
    // no more than 1500 s of work on either side.
    const halves = (longestS: number): Plan =>
      tinyPlan({
        evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0, longestS: 3600 })],
        tasks: ["one", "two", "three", "four"].map((id) => task(id, "a", { worth: 10 })),
        rules: { work: { longestS, restS: 600 }, startGridS: 1 },
      });
    expect(packed(halves(1500))).toEqual({ placed: 4, breaches: 0 });
    expect(packed(halves(1499))).toEqual({ placed: 3, breaches: 0 });
  });

  it("ends at the limit with the egress work alone", () => {
    // 600 s of egress; 600 s of rest at the lander, which is a task of its own; 600 s of work there; no ingress work.
    const egress = (longestS: number): Plan =>
      tinyPlan({
        evas: [eva("eva-1", { crew: ["ev1"], ingressWorkS: 0 })],
        tasks: [task("sit", "lander", { effort: "rest" }), task("one", "lander")],
        rules: { work: { longestS, restS: 600 }, startGridS: 1 },
      });
    expect(packed(egress(600))).toEqual({ placed: 2, breaches: 0 });
    expect(packed(egress(599))).toEqual({ placed: 0, breaches: 0 });
  });
});

describe("touchdown", () => {
  it("is before every egress, however early the EVA may begin", () => {
    // Egress is 900 s before the first task at a; only a window that opens then is early enough.
    const early = (startS: number): Plan =>
      tinyPlan({
        evas: [eva("eva-1", { crew: ["ev1"], earliestEgressS: -7200 })],
        tasks: [task("one", "a", { worth: 10, windows: [{ startS, endS: startS + 600 }] })],
      });
    expect(packed(early(900))).toEqual({ placed: 1, breaches: 0 });
    expect(packed(early(899))).toEqual({ placed: 0, breaches: 0 });
  });
});

describe("an EVA that lasts as long as it may", () => {
  // 600 s of egress, 300 s to a, 600 s of work, 300 s home, 600 s of ingress: 2400 s.
  const lasting = (longestS: number): Plan =>
    tinyPlan({ evas: [eva("eva-1", { crew: ["ev1"], longestS })], tasks: [task("one", "a")] });

  it("is packed, and not one second longer", () => {
    expect(packed(lasting(2400))).toEqual({ placed: 1, breaches: 0 });
    expect(packed(lasting(2399)).placed).toBe(0);
  });

  /** At most 6000 s, starts on the second; `pin`: when the one that is pinned starts. */
  const pinned = (which: "one" | "two", startS: number): Plan =>
    tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"], longestS: 6000 })],
      tasks: ["one", "two"].map((id) => task(id, "a", id === which ? { pin: { startS } } : {})),
      placements: [at("one", which === "one" ? startS : 9000), at("two", which === "two" ? startS : 1500)],
      rules: { startGridS: 1 },
    });
  const rooms = (plan: Plan): { fromS: number; toS: number }[] => {
    const day = new Day(compiled(plan, plan.schedule));
    expect(loadSchedule(day, plan.schedule)).toBe(0);
    const { earliest, latest } = day.board;
    return [0, 1].map((activity) => ({ fromS: earliest[activity]!, toS: latest[activity]! }));
  };

  it("leaves room for a second task up to its longest, however late ingress may be", () => {
    // Egress at 0 at the latest; in by 6000 s the second, at a, starts by 6000 - 600 - 300 - 600 = 4500 s.
    expect(rooms(pinned("one", 900))).toEqual([
      { fromS: 900, toS: 900 },
      { fromS: 1500, toS: 4500 },
    ]);
  });

  it("leaves room for a first task from its longest before the end, however early egress may be", () => {
    // In at 10,000 + 600 + 300 + 600 = 11,500 s at the soonest: egress from 5500 s on, the first task from 6400 s on.
    expect(rooms(pinned("two", 10_000))).toEqual([
      { fromS: 6400, toS: 9400 },
      { fromS: 10_000, toS: 10_000 },
    ]);
  });
});
