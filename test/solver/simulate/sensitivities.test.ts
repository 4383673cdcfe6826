import { describe, expect, it } from "vitest";
import type { Plan, Schedule } from "../../../src/plan/index.ts";
import { packRun } from "../../../src/solver/index.ts";
import { crewOf } from "../../../src/solver/simulate/crew.ts";
import { Days, sampleFor } from "../../../src/solver/simulate/days.ts";
import { oddsRun } from "../../../src/solver/simulate/index.ts";
import { Player } from "../../../src/solver/simulate/player.ts";
import { averageWords } from "../../../src/solver/simulate/run.ts";
import { scriptOf } from "../../../src/solver/simulate/script.ts";
import { Tally, worthOf } from "../../../src/solver/simulate/tally.ts";
import { randomPlan } from "../../properties/randomPlan.ts";
import { readyPlan } from "../../readyplan.ts";

const DAYS = 60;
const SHAPE = { tasks: 24, crew: 3, evas: 2, places: 6, features: 0.6 };

/** What taking `task` at its likely time gains, every day played from its beginning. */
function gained(plan: Plan, schedule: Schedule, task: string): { gain: number; worthGain: number } {
  const script = scriptOf(plan, schedule);
  const { problem, order, laneOf } = script;
  const player = new Player(script, crewOf(plan.odds));
  player.take();
  const tally = new Tally(player, DAYS);
  const days = new Days(problem, "pert", DAYS, 1);
  const draws = sampleFor(problem);
  const a = plan.tasks.findIndex(({ id }) => id === task);
  let held = 0;
  let worth = 0;
  for (let day = 0; day < DAYS; day += 1) {
    days.deal(day, order, laneOf, draws);
    player.play(draws);
    const before = { held: tally.isGoodDay(player), worth: worthOf(player) };
    draws.durationS[a] = problem.lengthS[a]!;
    player.play(draws);
    held += Number(tally.isGoodDay(player)) - Number(before.held);
    worth += worthOf(player) - before.worth;
  }
  return { gain: held / DAYS, worthGain: worth / DAYS };
}

/** A full day, with little room for what takes longer. */
function packed(plan: Plan): Schedule {
  const packing = packRun(plan, { seed: 1, iterations: 100, seconds: 600, clock: () => 0 });
  while (packing.step(50)) continue;
  return packing.best();
}

describe("a day gone back to", () => {
  it("goes on as it went before, whatever was played from there meanwhile", () => {
    for (const plan of [readyPlan("demo"), readyPlan("large"), randomPlan(5, SHAPE)]) {
      const script = scriptOf(plan, packed(plan));
      const { problem, order, laneOf } = script;
      const player = new Player(script, crewOf(plan.odds));
      player.take();
      const days = new Days(problem, "pert", DAYS, 2);
      const draws = sampleFor(problem);
      const [early, late] = [player.moment(), player.moment()];
      for (let day = 0; day < 20; day += 1) {
        const first = Math.floor((day * order.length) / 25);
        const second = Math.floor((first + order.length) / 2);
        days.deal(day, order, laneOf, draws);
        player.play(draws);
        const went = { state: player.state.slice(), worth: worthOf(player), closeS: player.closeS.slice() };
        player.begin();
        player.playOn(draws, 0, first);
        player.keep(early);
        player.playOn(draws, first, second);
        player.keep(late);
        player.playOn(draws, second, order.length);
        player.end(draws);
        for (const [moment, from] of [
          [late, second],
          [early, first],
        ] as const) {
          player.goBack(moment);
          player.playOn(draws, from, order.length);
          player.end(draws);
          expect({ state: player.state, worth: worthOf(player), closeS: player.closeS }).toEqual(went);
        }
      }
    }
  });
});

describe("what hurts the odds most", () => {
  it("is what every day comes to that is played from its beginning with the likely time", () => {
    const plans = [
      readyPlan("demo"),
      readyPlan("large"),
      ...[1, 2, 3, 4, 5, 6, 7, 8].map((seed) =>
        randomPlan(seed, { ...SHAPE, crew: 2 + (seed % 3), evas: 1 + (seed % 3) }),
      ),
    ];
    let told = 0;
    for (const plan of plans) {
      const schedule = packed(plan);
      const run = oddsRun(plan, schedule, { days: DAYS, seed: 1, shape: "pert", clock: () => 0 });
      while (run.step(Infinity));
      for (const { task, gain, worthGain } of run.report().sensitivities) {
        const exact = gained(plan, schedule, task);
        expect(gain).toBeCloseTo(exact.gain, 9);
        expect(worthGain).toBeCloseTo(exact.worthGain, 6);
        told += 1;
      }
    }
    expect(told).toBeGreaterThan(5);
  });
});

it("a gain of worth is said to a tenth, never better than it is, and as none where it is no tenth", () => {
  expect([1.66, 0.06, 0, -0.04].map(averageWords)).toEqual([
    ", worth on average +1.6",
    "",
    "",
    ", worth on average −0.1",
  ]);
});
