import type { Plan, Schedule } from "../plan/index.ts";
import type { Point } from "../terrain/index.ts";
import { prepare } from "./prepared.ts";
import { movesOf, where } from "./separation.ts";
import { walkthroughOf } from "./walkthrough.ts";

/** Where somebody is, and how far a walk inside the task at work may lead off it, m. */
export interface Standpoint extends Point {
  readonly roamM: number;
  readonly task: string | null;
}

/** Where `crew` on `eva` is at a moment, as crew-separation has it: more than one point where one stretch ends and another begins. */
export function pointsAt(
  plan: Plan,
  schedule: Schedule,
  eva: string,
  crew: string,
  atS: number,
): readonly Standpoint[] {
  const prepared = prepare(plan);
  const crewOutings = walkthroughOf(prepared, schedule).outs.flatMap((out) => out.crewOutings);
  const crewOuting = crewOutings.find(({ outing }) => outing.eva === eva && outing.crew === crew);
  const moves = crewOuting ? movesOf(prepared, crewOuting) : [];
  return moves
    .filter(({ startS, endS }) => startS <= atS && atS <= endS)
    .map((move) => ({ ...where(move, atS), roamM: move.roamM, task: move.task }));
}
