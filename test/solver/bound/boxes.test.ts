import { describe, expect, it } from "vitest";
import type { Plan } from "../../../src/plan/index.ts";
import { Boxes } from "../../../src/solver/bound/boxes.ts";
import { Exact } from "../../../src/solver/bound/exact.ts";
import { relaxed } from "../../../src/solver/bound/relaxed.ts";
import { packRun } from "../../../src/solver/index.ts";
import { Board } from "../../../src/solver/network/board.ts";
import { Day } from "../../../src/solver/network/day.ts";
import { insertAll } from "../../../src/solver/network/placing.ts";
import { read } from "../../../src/solver/network/verify.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { eva, task, tinyPlan } from "../../check/tinyPlan.ts";
import { randomPlan } from "../../properties/randomPlan.ts";

/** What the exact search comes to from nothing, without any other bound. */
function exactly(plan: Plan): { worth: number; proved: boolean } {
  const problem = compile(plan);
  const nothing = new Board(problem);
  const exact = new Exact(problem);
  for (const turn of exact.run(nothing)) expect(turn).toBeUndefined();
  return { worth: (exact.found ? exact.best : nothing).worth, proved: exact.proved };
}

describe("rests that an order has room for", () => {
  it.each([
    [3600, 3],
    [3540, 2],
  ])("are told from those that it has not: out for %i s, %i tasks", (longestS, tasks) => {
    // Work in stretches of at most 1800 s, with 600 s of rest between. Three tasks of 600 s at the lander and 600 s of hatch at both ends are
    // 3000 s: one rest, 3600 s in all. Nobody else is there, so that there is no waiting before the first task or after the last.
    const plan = tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"], longestS })],
      tasks: ["one", "two", "three"].map((id) => task(id, "lander", { worth: 1 })),
      rules: { startGridS: 60, work: { longestS: 1800, restS: 600 } },
    });
    expect(exactly(plan)).toEqual({ worth: tasks, proved: true });
  });

  it.each([
    [3000, 1],
    [2940, 0],
  ])("are taken at the lander while somebody else is out: back by %i s, %i task of EV1", (backByS, worth) => {
    // EV1 is back from a at 2400, 2400 s after the egress that may not be later, and has 600 s in the hatch to go: 3000 s in a row where 2700 are
    // allowed. With EV2's task, of no worth, from 2100 on all are back at 3000, and EV1 has rested for 600 s.
    const window = { startS: 900, endS: 2100 };
    const plan = tinyPlan({
      evas: [eva("eva-1", { longestS: 3600, latestIngressS: backByS + 600 })],
      tasks: [
        task("one", "a", {
          crew: { named: ["ev1"] },
          duration: { likelyS: 1200 },
          windows: [window],
          worth: 1,
        }),
        task("two", "a", { crew: { named: ["ev2"] }, worth: 0 }),
        // Keeps the egress at 0.
        task("first", "a", {
          crew: { named: ["ev2"] },
          duration: { likelyS: 60 },
          windows: [{ startS: 900, endS: 960 }],
          must: true,
          worth: 0,
        }),
      ],
      rules: { startGridS: 60, work: { longestS: 2700, restS: 600 } },
    });
    expect(exactly(plan)).toEqual({ worth, proved: true });
  });
});

describe("a pause", () => {
  it.each([
    [600, 3],
    [660, 1],
  ])("goes on in a task in which nobody works: a rest of %i s, %i tasks", (restS, tasks) => {
    // Each task has one moment to begin at: after the first, from 600 to 1200, 300 s of waiting and 300 s of looking about are a pause of 600 s.
    // In a row without it: 3000 s, 1800 are allowed; of any two with the hatch at both ends at least 2100 s (look, three).
    const only = (startS: number, lastsS: number) => ({
      duration: { likelyS: lastsS },
      windows: [{ startS, endS: startS + lastsS }],
      worth: 1,
    });
    const plan = tinyPlan({
      evas: [eva("eva-1", { crew: ["ev1"] })],
      tasks: [
        task("one", "lander", only(600, 600)),
        task("look", "lander", { ...only(1500, 300), effort: "rest" }),
        task("three", "lander", only(1800, 600)),
      ],
      rules: { startGridS: 60, work: { longestS: 1800, restS } },
    });
    expect(exactly(plan)).toEqual({ worth: tasks, proved: true });
  });
});

describe("the boxes of starts of an order", () => {
  it("hold the starts of every day that keeps all rules", () => {
    const answers = { holds: 0, never: 0, unknown: 0 };
    let bound = 0;
    for (let k = 0; k < 60; k += 1) {
      const plan = randomPlan(7000 + k, {
        tasks: 4 + (k % 9),
        crew: 1 + (k % 3),
        evas: 1 + (k % 2),
        places: 2 + (k % 5),
        features: 0.3 + (k % 3) / 3,
      });
      const run = packRun(plan, { seed: 1, iterations: 60, clock: () => 0 });
      while (run.step(1)) continue;
      const problem = compile(plan);
      const loose = new Day(relaxed(problem));
      const { placings } = read(problem, run.best());
      if (
        !insertAll(
          loose,
          placings.toSorted((a, b) => a.startS - b.startS),
        ) ||
        placings.length === 0
      )
        continue;
      const choiceOf = new Int32Array(problem.activities).fill(-1);
      for (const { activity, choice, startS } of placings) {
        choiceOf[activity] = choice;
        // Nothing may begin later than it did, so that what is left of the box is what was packed.
        if (k % 2 === 0) loose.board.floorS[activity] = startS;
      }
      expect(loose.settle(), plan.title).toBe(true);
      if (Number.isFinite(problem.limits.workS) || Number.isFinite(problem.limits.apartM)) bound += 1;
      const going = new Boxes(problem, loose.problem).run(loose.board, choiceOf, 300);
      let turn = going.next();
      while (turn.done !== true) turn = going.next();
      answers[turn.value] += 1;
    }
    expect(answers.never).toBe(0);
    expect(answers.holds).toBeGreaterThan(35);
    expect(bound).toBeGreaterThan(20);
  });
});
