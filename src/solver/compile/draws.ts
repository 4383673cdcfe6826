import { CONSUMABLES, drawPerSecond, metabolicW, walkingW } from "../../physics/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type Draws, KINDS } from "../problem.ts";
import type { Ground } from "./ground.ts";

/**
 * What everything draws over standing still (S6, S7), and which consumables can run short at all: one whose greatest
 * rate over the longest possible outing stays within what is available never binds and is left out.
 */
export function drawsOf(plan: Plan, ground: Ground, longestOutS: number): Draws {
  const { walking, walkback, reserve } = plan.rules;
  const { ways, walkers } = ground;
  const size = ways.size;
  const members = walkers.length;
  const tasks = plan.tasks.length;
  const draws = {
    available: new Float64Array(members * KINDS),
    restRate: new Float64Array(members * KINDS),
    hatchRate: new Float64Array(members * KINDS),
    walkbackRate: new Float64Array(members * KINDS),
    task: new Float64Array(tasks * members * KINDS),
    kindBinds: new Uint8Array(KINDS),
    walkbackBinds: new Uint8Array(KINDS),
  };
  const held = reserve.level === "breach" || walkback.level === "breach";
  const walkbackLongestS = ground.homeS.reduce((most, seconds) => Math.max(most, seconds), 0);
  const slopes = [...new Set(ways.slopeRad)];
  const leg: Float64Array[] = [];

  walkers.forEach(({ member, suit, available }, m) => {
    const factor = member.workRateFactor;
    const massKg = member.bodyMassKg + suit.massKg;
    const rate = (watts: number): readonly number[] => {
      const drawn = drawPerSecond(suit, watts);
      return CONSUMABLES.map((kind) => drawn[kind]);
    };
    const rest = rate(metabolicW("rest", factor));
    const hatch = rate(metabolicW("egress-ingress", factor));
    const back = rate(walkback.metabolicW * factor);
    const walk = new Map(
      slopes.map((slope) => [
        slope,
        rate(walkingW(walking.metabolicW, factor, massKg, plan.body.gravityMs2, walking.speedMs, slope)),
      ]),
    );
    const work = plan.tasks.map((task) => rate(metabolicW(task.effort, factor)));
    for (let kind = 0; kind < KINDS; kind += 1) {
      const at = m * KINDS + kind;
      draws.available[at] = available[kind]!;
      draws.restRate[at] = rest[kind]!;
      draws.hatchRate[at] = hatch[kind]! - rest[kind]!;
      draws.walkbackRate[at] = back[kind]!;
      let greatest = Math.max(rest[kind]!, hatch[kind]!);
      for (const one of walk.values()) greatest = Math.max(greatest, one[kind]!);
      for (const one of work) greatest = Math.max(greatest, one[kind]!);
      if (held && greatest * longestOutS > available[kind]!) draws.kindBinds[kind] = 1;
      if (
        walkback.level === "breach" &&
        greatest * longestOutS + back[kind]! * walkbackLongestS > available[kind]!
      )
        draws.walkbackBinds[kind] = 1;
    }
    plan.tasks.forEach((task, a) => {
      for (let kind = 0; kind < KINDS; kind += 1) {
        draws.task[(a * members + m) * KINDS + kind] =
          (work[a]![kind]! - rest[kind]!) * task.duration.likelyS;
      }
    });
    const legs = new Float64Array(size * size * KINDS);
    for (let cell = 0; cell < size * size; cell += 1) {
      const seconds = ways.durationS[cell]!;
      if (seconds <= 0) continue;
      const drawn = walk.get(ways.slopeRad[cell]!)!;
      for (let kind = 0; kind < KINDS; kind += 1)
        legs[cell * KINDS + kind] = (drawn[kind]! - rest[kind]!) * seconds;
    }
    leg.push(legs);
  });
  // The walk-back is tested against what the board keeps of draws, and at the lander it is the reserve itself.
  draws.walkbackBinds.forEach((one, kind) => {
    if (one === 1) draws.kindBinds[kind] = 1;
  });
  return { ...draws, leg, binds: draws.kindBinds.includes(1) };
}
