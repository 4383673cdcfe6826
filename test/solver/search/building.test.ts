import { describe, expect, it } from "vitest";
import { random } from "../../../src/kernel/index.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { Board } from "../../../src/solver/network/board.ts";
import { Day } from "../../../src/solver/network/day.ts";
import { scheduleOf } from "../../../src/solver/network/placing.ts";
import { Anneal } from "../../../src/solver/search/anneal.ts";
import { Building } from "../../../src/solver/search/building.ts";
import { Cooling } from "../../../src/solver/search/cooling.ts";
import { searchParameters } from "../../../src/solver/search/parameters.ts";
import { Recreate } from "../../../src/solver/search/recreate.ts";
import { judgeFor } from "../../../src/check/index.ts";
import { workingPlan } from "../../bench/inner.plan.ts";

const plan = workingPlan(7, 60);
const problem = compile(plan);

/** The day that `seed` builds, and in how many turns, where a run of `turns` goes on so long. */
function built(seed: number, turns: number): { recreate: Recreate; took: number } {
  const stream = random(seed);
  const recreate = new Recreate(new Day(problem), stream, true);
  const blank = new Board(problem);
  blank.copy(recreate.day.board);
  const building = new Building(recreate, stream, blank, 150);
  let took = 1;
  while (!building.turn(took / turns)) took += 1;
  return { recreate, took };
}

describe("a day built EVA by EVA", () => {
  it("breaks no rule, and the same seed builds the same", () => {
    for (const seed of [1, 2, 3]) {
      const { recreate } = built(seed, 1000);
      const schedule = scheduleOf(recreate.day.board);
      expect(judgeFor(plan)(schedule).score.breaches).toBe(0);
      expect(schedule.placements.length).toBeGreaterThan(20);
      expect(scheduleOf(built(seed, 1000).recreate.day.board)).toEqual(schedule);
    }
  });

  it("takes so many beginnings an EVA, and fewer where the run is short", () => {
    expect(built(1, 100_000).took).toBe(24 * problem.evas);
    expect(built(1, 100).took).toBe(20);
  });

  it("leaves the recreate as it was", () => {
    const { recreate } = built(1, 100);
    expect(recreate).toMatchObject({ around: -1, requiredWorth: 0 });
    expect(recreate.insertion.onlyEva).toBe(-1);
  });

  it("walks less for its work than one on which all goes where it costs least", () => {
    const walked = (board: Board): number => board.walkM / board.worth;
    const seeds = [1, 2, 3, 4, 5, 6];
    const sum = (of: (seed: number) => number): number => seeds.reduce((all, seed) => all + of(seed), 0);
    const byOrder = sum((seed) => {
      const recreate = new Recreate(new Day(problem), random(seed), true);
      recreate.fill();
      return walked(recreate.day.board);
    });
    expect(sum((seed) => walked(built(seed, 1000).recreate.day.board))).toBeLessThan(byOrder);
  });

  it("is where the search goes on from, with nothing lost of the day it began with", () => {
    const search = new Anneal(problem, 4, null);
    const { mustOut, worth } = search.bestValue;
    for (let k = 0; k < 200; k += 1) search.iterate(k / 500);
    expect(search.bestValue.mustOut).toBeLessThanOrEqual(mustOut);
    expect(search.bestValue.worth).toBeGreaterThan(worth);
    const turns = search.statistics().ruins.find(({ name }) => name === "built")!;
    expect(turns.best + turns.accepted + turns["turned away"]).toBe(24 * problem.evas);
  });
});

describe("a cooling too short for its activities", () => {
  const parameters = searchParameters();
  const beginning = (turns: number, keeps: boolean): number => {
    const cooling = new Cooling(parameters, 100);
    cooling.keeps = keeps;
    let at = 0;
    for (let k = 1; k / turns <= parameters.lengthKnown; k += 1) at = cooling.at(k / turns);
    // What is gone of it by the turn that tells its length.
    return (at - parameters.lengthKnown) / (1 - parameters.lengthKnown);
  };

  it("begins colder where there is a day to keep, by the root of what it lacks", () => {
    const heat = (at: number): number => (parameters.cold / parameters.hot) ** at;
    expect(beginning(150, false)).toBeCloseTo(0, 6);
    // 150 turns of 15,000 for 100 activities.
    expect(heat(beginning(150, true))).toBeCloseTo(2 * Math.sqrt(0.01), 3);
    expect(beginning(15_000, true)).toBeCloseTo(0, 3);
  });

  it("still ends cold", () => {
    const cooling = new Cooling(parameters, 100);
    cooling.keeps = true;
    let at = 0;
    for (let k = 1; k <= 500; k += 1) at = cooling.at(k / 500);
    expect(at).toBe(1);
  });
});
