import type { Gauges, GoIf, HomeIf } from "../answers/index.ts";
import type { Amounts, Consumable } from "../physics/index.ts";
import type { Eva, Plan } from "../plan/index.ts";
import { hasPeak } from "./reach.ts";
import { prepare } from "./prepared.ts";
import { AT_ONCE, type Departures } from "./departures.ts";
import type { Step } from "./steps.ts";
import type { CrewOuting } from "./crewouting.ts";
import { walkthroughOf } from "./walkthrough.ts";

/**
 * HOME IF (RULES.md, G1): for everybody outside and each task, way and the lander, the least that each gauge may show there. Every
 * moment of an outing lies in one of them or, in the airlock work, at the lander.
 */
export function homeIfs(plan: Plan): HomeIf[] {
  return walkthroughOf(prepare(plan), plan.schedule).outs.flatMap(({ eva, crewOutings }) =>
    crewOutings.flatMap((crewOuting) => homeIfsOf(eva, crewOuting)),
  );
}

/**
 * GO IF (RULES.md, G2): for everybody who goes out, the least that each gauge may show at egress. Of the day as it is played: who is out
 * from an earlier moment or until a later one draws more.
 */
export function goIfs(plan: Plan, departures: Departures = AT_ONCE): GoIf[] {
  return walkthroughOf(prepare(plan), plan.schedule, departures).outs.flatMap(({ crewOutings }) =>
    crewOutings.map((crewOuting): GoIf => {
      const { full, reserve } = crewOuting.walker;
      const last = crewOuting.left.at(-1) ?? crewOuting.suitLoad.atEgress;
      const need = (one: Consumable): number => crewOuting.suitLoad.atEgress[one] - last[one] + reserve[one];
      return { eva: crewOuting.outing.eva, crew: crewOuting.outing.crew, leastPct: gauges(full, need) };
    }),
  );
}

function homeIfsOf(eva: Eva, crewOuting: CrewOuting): HomeIf[] {
  const { crew } = crewOuting.outing;
  const atLander = from(eva, crewOuting, [{ seconds: 0, slopeRad: 0 }]);
  return [
    ...crewOuting.steps.flatMap((step, k): HomeIf[] => {
      const { kind, task } = step.stretch;
      if (kind !== "task" && kind !== "traverse") return [];
      const next = crewOuting.steps.slice(k).find((one) => one.stretch.task !== null);
      return [
        {
          eva: eva.id,
          crew,
          at: kind === "task" ? "task" : "way",
          task: task ?? next?.stretch.task ?? null,
          ...from(eva, crewOuting, walkbacksOf(step)),
        },
      ];
    }),
    { eva: eva.id, crew, at: "lander", task: null, ...atLander },
  ];
}

/** A walk-back and the slope angle that it counts with; less than 0 s where there is none. */
interface WalkBack {
  readonly seconds: number;
  readonly slopeRad: number;
}

/** The walk-backs that the judge tests on a step (W9). */
function walkbacksOf(step: Step): WalkBack[] {
  return [
    { seconds: step.homeFromS, slopeRad: step.slopeFromRad },
    { seconds: step.homeToS, slopeRad: step.slopeToRad },
    ...(hasPeak(step) || step.peakS < 0 ? [{ seconds: step.peakS, slopeRad: step.slopePeakRad }] : []),
  ];
}

function from(
  eva: Eva,
  crewOuting: CrewOuting,
  walkbacks: readonly WalkBack[],
): Pick<HomeIf, "walkbackS" | "leastPct"> {
  if (walkbacks.some(({ seconds }) => seconds < 0)) return { walkbackS: null, leastPct: null };
  const { walker, suitLoad } = crewOuting;
  const airlock = suitLoad.draw("working", walker.egressW);
  const need = (one: Consumable): number =>
    walker.reserve[one] +
    Math.max(...walkbacks.map(({ seconds, slopeRad }) => suitLoad.walkback(slopeRad)[one] * seconds)) +
    airlock[one] * eva.ingressWorkS;
  return {
    walkbackS: Math.max(...walkbacks.map(({ seconds }) => seconds)),
    leastPct: gauges(walker.full, need),
  };
}

/** Shares of a full stock in whole %, rounded up: whole numbers far below 2^53, whose quotient never falls onto the whole below. */
function gauges(full: Amounts, need: (of: Consumable) => number): Gauges {
  const share = (of: Consumable): number | null =>
    full[of] > 0 ? Math.ceil((100 * need(of)) / full[of]) : null;
  return { oxygen: share("oxygen"), co2: share("co2"), water: share("water"), battery: share("battery") };
}
