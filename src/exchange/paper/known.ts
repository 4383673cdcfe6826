import type { GoIf, HomeIf, PrintedDay, Verdict } from "../../answers/index.ts";
import { sunOver, type WayHome, waysHome } from "../../check/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { Sun } from "./dial.ts";
import { goIfsGiven, homeIfsGiven } from "./givenstocks.ts";
import { playedAsPrinted } from "./leaving/asprinted.ts";
import { type Late, lateAnswers, type LateTables } from "./late.ts";

/** All that the pages of a plan are filled from, each worked out once. */
export interface Known {
  readonly plan: Plan;
  /** Of the plan's own schedule. */
  readonly verdict: Verdict;
  readonly day: PrintedDay;
  /** Of the same schedule with everybody leaving as late as printed. */
  readonly played: Verdict;
  /** HOME IF of somebody in a task, on the way to one, or at the lander. */
  homeIf(at: HomeIf["at"], eva: string, crew: string, task: string | null): HomeIf | null;
  goIf(eva: string, crew: string): GoIf | null;
  wayHome(place: string): WayHome;
  /** The walk-back from a place, s; without end where there is none. */
  homeS(place: string): number;
  sunAt(atS: number): Sun | null;
  late(eva: string, task: string, endS: number): Late;
}

export function knownOf(
  plan: Plan,
  verdict: Verdict,
  day: PrintedDay,
  lateTable: LateTables | undefined,
): Known {
  const homes = homeIfsGiven(plan);
  const goes = goIfsGiven(plan, day);
  const wayHome = waysHome(plan);
  return {
    plan,
    verdict,
    day,
    played: playedAsPrinted(plan, day),
    homeIf: (at, eva, crew, task) =>
      homes.find((one) => one.at === at && one.eva === eva && one.crew === crew && one.task === task) ?? null,
    goIf: (eva, crew) => goes.find((one) => one.eva === eva && one.crew === crew) ?? null,
    wayHome,
    homeS: (place) => wayHome(place).seconds ?? Infinity,
    sunAt: sunOver(plan),
    late: lateAnswers(plan, verdict, lateTable),
  };
}
