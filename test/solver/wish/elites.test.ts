import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { instant, random } from "../../../src/kernel/index.ts";
import type { Schedule } from "../../../src/plan/index.ts";
import { Day } from "../../../src/solver/network/day.ts";
import { loadSchedule } from "../../../src/solver/network/placing.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { acting } from "../../../src/solver/simulate/crew.ts";
import { Days } from "../../../src/solver/simulate/days.ts";
import { stageOf } from "../../../src/solver/simulate/stage.ts";
import { wishFor } from "../../../src/solver/simulate/value.ts";
import type { Course } from "../../../src/solver/wish/course.ts";
import { Elites } from "../../../src/solver/wish/elites.ts";
import { surer } from "../../../src/solver/wish/surer.ts";
import { DayTrial, type Sampled } from "../../../src/solver/wish/trial.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";

const IDS = ["near", "far", "near-too", "beyond"];
const plan = tinyPlan({
  evas: [eva("eva-1", { crew: ["ev1"] })],
  tasks: [
    task("near", "a", { worth: 5 }),
    task("far", "b", { worth: 5 }),
    task("near-too", "a", { worth: 5 }),
    task("beyond", "b", { worth: 5 }),
  ],
});
const problem = compile(plan);
const wish = wishFor(problem, 0.99, 0.9);

/** One task after the other, as soon as that can be. */
function inOrder(ids: readonly string[]): { readonly day: Day; readonly schedule: Schedule } {
  const day = new Day(problem);
  const placements = ids
    .map((id, k) => at(id, 2000 + 2000 * k))
    .map((one) => ({ ...one, startS: instant(one.startS) }));
  expect(loadSchedule(day, { placements })).toBe(0);
  return { day, schedule: { placements } };
}

const sampled = (worth: number): Sampled => ({ worth, home: 1, must: 1, caution: 0, heats: [] });

describe("the best of a pack for the wish", () => {
  const zigzag = inOrder(IDS).day.board;
  const straight = inOrder(["near", "near-too", "far", "beyond"]).day.board;
  const three = inOrder(["near", "far", "beyond"]).day.board;

  it("has beside it other orders of its tasks that do as much on the common days, and nothing else", () => {
    const elites = new Elites(wish);
    elites.note(zigzag, sampled(20));
    expect(elites.alike).toEqual([]);
    const other = sampled(20);
    elites.note(straight, other);
    elites.note(straight, other);
    elites.note(three, sampled(19.99));
    elites.note(straight, sampled(19.9));
    expect(elites.alike.map((one) => one.sampled)).toEqual([other]);
  });

  it("keeps one that has the chances, where others that do more and lack them fill the list", () => {
    const lacking = (worth: number): Sampled => ({ ...sampled(worth), must: 0.5 });
    const elites = new Elites(wish);
    elites.note(three, sampled(10));
    elites.note(straight, sampled(9));
    expect(elites.meeting!.sampled.worth).toBe(10);
    // What is short of 0.9 by 0.4 costs 100 x 0.3 x 5 x 0.4 = 60.
    elites.note(zigzag, lacking(100));
    expect(elites.best!.value).toBe(40);
    expect(elites.meeting!.sampled).toEqual(sampled(10));
    elites.note(zigzag, sampled(11));
    expect(elites.meeting!.value).toBe(11);
  });

  it("loses those beside it to a better one, and has no more than six of them", () => {
    const elites = new Elites(wish);
    elites.note(zigzag, sampled(19));
    for (let k = 0; k < 20; k += 1) elites.note(straight, sampled(19));
    expect(elites.alike).toHaveLength(6);
    elites.note(straight, sampled(20));
    expect(elites.best!.value).toBe(20);
    expect(elites.alike).toEqual([]);
  });
});

/** A run that has only `elites`; done after so many iterations. */
function courseOf(elites: Elites, iterations: number): Course & { readonly played: () => number } {
  let done = 0;
  let played = 0;
  return {
    problem,
    crew: acting(0),
    from: null,
    elites: [elites],
    note: (board, one) => {
      played += 1;
      elites.note(board, one);
    },
    trial: new DayTrial(stageOf(problem), acting(0), new Days(problem, "pert", 20, 1), () => 0),
    random: random(1),
    guests: [],
    share: () => done / iterations,
    tick: (more) => {
      done += more;
    },
    played: () => played,
  };
}

/** Noted as it comes out on the days of a course. */
function begun(course: Course, ids: readonly string[]): void {
  const { trial } = course;
  expect(trial.lay(inOrder(ids).day.board)).toBe(true);
  course.note(trial.day.board, trial.play(wish, null, 0, 0)!);
}

function made(course: Course): void {
  const steps = surer(course, 1);
  while (!steps.next().done);
}

describe("a best day that does all that it plans", () => {
  it("is made surer: the same tasks with less walking stand beside it", () => {
    const elites = new Elites(wish);
    const course = courseOf(elites, 400);
    begun(course, IDS);
    const before = check(plan, elites.best!.schedule).score;
    made(course);
    const scores = [elites.best!, ...elites.alike].map(({ schedule }) => check(plan, schedule).score);
    for (const { breaches, worth } of scores) expect([breaches, worth]).toEqual([0, 20]);
    // Lander, a, b, lander is 1200 m; a, b, a, b would be 1800 m.
    expect(before.walkM).toBe(1800);
    expect(Math.min(...scores.map(({ walkM }) => walkM))).toBe(1200);
  });

  it("is left to chains where it does less than it plans", () => {
    const elites = new Elites(wish);
    const course = courseOf(elites, 400);
    elites.note(inOrder(IDS).day.board, sampled(19));
    made(course);
    expect(course.played()).toBe(0);
    expect(elites.list).toHaveLength(1);
  });
});
