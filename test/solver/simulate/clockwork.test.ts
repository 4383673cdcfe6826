import { describe, expect, it } from "vitest";
import type { CrewRules } from "../../../src/answers/index.ts";
import { duration, random } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { greedy } from "../../../src/solver/index.ts";
import { CARRIES_ON, acting } from "../../../src/solver/simulate/crew.ts";
import { Days, sampleFor } from "../../../src/solver/simulate/days.ts";
import { Player } from "../../../src/solver/simulate/player.ts";
import { scriptOf } from "../../../src/solver/simulate/script.ts";
import { randomPlan } from "../../properties/randomPlan.ts";
import { clockwork, type Fate } from "./clockwork.ts";

/** By the player's states: MISSED, DONE, OVERRAN, IN_VAIN, BROKEN_OFF, SPOILT. */
const FATES: readonly Fate[] = ["missed", "done", "overran", "in vain", "broken off", "spoilt"];
const DAYS = 3;

/** `plan` with every task up to three times as long, a pace that spreads, and something rare in every second task and every tool. */
function spread(plan: Plan, seed: number): Plan {
  const stream = random(seed);
  const apart = random(seed ^ 0x919);
  return {
    ...plan,
    crew: plan.crew.map((member) => ({ ...member, workRateSpread: 0.15 })),
    tasks: plan.tasks
      .map((one) => {
        const { likelyS } = one.duration;
        const lowS = duration(Math.floor(likelyS * stream.between(0.4, 1)));
        return {
          ...one,
          duration: { likelyS, lowS, highS: duration(Math.floor(likelyS * stream.between(1, 3))) },
          ...(stream.next() < 0.5
            ? { mishap: { what: "jams", chance: 0.3, extraS: duration(300), spoils: stream.next() < 0.5 } }
            : {}),
        };
      })
      .map((one, _, all) => {
        // Of what may be lost half can be made good, at its own end or at that of any task with crew.
        if (one.mishap?.spoils !== true || apart.next() < 0.4) return one;
        const hosts = all.filter(({ crew }) => crew.count > 0);
        const after =
          apart.next() < 0.5 && one.crew.count > 0 ? one.id : hosts[apart.below(hosts.length)]!.id;
        const likelyS = duration(apart.below(1500));
        const remedy = {
          name: "by hand",
          after,
          duration: { likelyS, highS: duration(2 * likelyS) },
          steps: [],
        };
        return { ...one, mishap: { ...one.mishap, remedy } };
      }),
    equipment: plan.equipment.map((one) => ({
      ...one,
      mishap: {
        what: "sticks",
        chance: 0.2,
        extraS: duration(stream.below(900)),
        spoils: stream.next() < 0.3,
      },
    })),
  };
}

const CREWS: readonly (readonly [string, CrewRules])[] = [
  ["carries on", CARRIES_ON],
  ["acts", acting(0)],
  ["acts with caution", acting(0.5)],
];

describe("a day played second by second", () => {
  it.each(CREWS)("is the day that the player plays: a crew that %s", (_, crew) => {
    let plans = 0;
    const seen = new Set<string>();
    for (let seed = 1; plans < 20; seed += 1) {
      const plan = spread(
        randomPlan(seed, {
          tasks: 8 + (seed % 5),
          crew: 2 + (seed % 2),
          evas: 1 + (seed % 2),
          places: 4,
          features: seed % 3 === 0 ? 1 : 0.6,
        }),
        seed,
      );
      const schedule = greedy(plan);
      if (schedule.placements.length < 4) continue;
      plans += 1;
      const script = scriptOf(plan, schedule);
      const days = new Days(script.problem, "triangular", DAYS, seed);
      const player = new Player(script, crew);
      player.take();
      const draws = sampleFor(script.problem);
      const beginS = Math.min(...script.order.map((a) => script.planS[a]!)) - 10_000;
      for (let day = 0; day < DAYS; day += 1) {
        days.deal(day, script.order, script.laneOf, draws);
        player.play(draws);
        const told = clockwork(script, crew, draws);
        for (const a of script.order) {
          const where = `seed ${seed}, day ${day}, ${plan.tasks[a]!.id}`;
          const fate = FATES[player.state[a]!]!;
          seen.add(fate);
          expect(fate, where).toBe(told.fate[a]);
          if (fate !== "missed") expect(player.startS[a], where).toBe(told.startS[a]);
          expect(Math.max(beginS, player.endS[a]!), where).toBe(Math.max(beginS, told.endS[a]!));
        }
        for (let e = 0; e < script.problem.evas; e += 1)
          if (script.flown[e] === 1)
            expect(player.closeS[e], `seed ${seed}, day ${day}, eva ${e}`).toBe(told.closeS[e]);
        for (let r = 0; r < script.problem.routes; r += 1)
          if (script.flown[script.problem.evaOfRoute[r]!] === 1)
            expect([...player.suits.spare.slice(r * 4, r * 4 + 4)], `seed ${seed}, day ${day}`).toEqual(
              told.spare[r],
            );
      }
    }
    expect([...seen]).toEqual(
      expect.arrayContaining(["done", "missed", "spoilt", crew.breaksOff ? "broken off" : "in vain"]),
    );
  });
});
