import { storedAfterJ } from "../../../physics/index.ts";
import type { Board } from "../board.ts";
import type { Heat, Problem } from "../../problem/problem.ts";
import type { Propagation } from "../propagate.ts";
import { backS, mayStay } from "./outing.ts";
import type { RuleAnswer } from "./rests.ts";

/**
 * heat-storage. Follows one route and, where more heat would be stored than a body may hold, asks for a longer stand on
 * arrival somewhere before: at the last place where the crew member still holds heat that standing there lets go.
 */

/**
 * Tests route `r` whose egress is at `egressS`; may lay a stand and raise what follows (`propagation` has begun), or only
 * tests without one.
 */
export function keepCool(
  board: Board,
  propagation: Propagation | null,
  r: number,
  egressS: number,
): RuleAnswer {
  const { problem, next, nodeOf, earliest } = board;
  const { lengthS, endsAt, beginsAt, places, heat } = problem;
  if (!heat) return "holds";
  const legs = problem.legS[r]!;
  const allBackS = backS(board, problem.evaOfRoute[r]!);
  const tail = board.tail + r;
  const airlockS = lengthS[nodeOf[board.head + r]!]!;
  const body = new BodyHeat(heat, r);
  body.works(heat.airlockW[r]!, airlockS);
  if (body.overJ > 0) return "fails";
  let atS = egressS + airlockS;
  let place = problem.lander;
  for (let s = next[board.head + r]!; ; s = next[s]!) {
    const node = nodeOf[s]!;
    const startS = s === tail ? allBackS : earliest[node]!;
    const cell = place * places + beginsAt[node]!;
    const arrivedS = atS + legs[cell]!;
    body.walks(heat.legW[r]![cell]!, arrivedS - atS);
    const waitS = startS - arrivedS;
    body.stands(waitS, mayStay(board, s, waitS) ? s : -1, arrivedS);
    body.works(wattsOf(problem, heat, r, node), lengthS[node]!);
    if (body.overJ > 0) return standLonger(board, propagation, body);
    if (s === tail) return "holds";
    atS = startS + lengthS[node]!;
    place = endsAt[node]!;
  }
}

/** What the crew member of route `r` gives off in an activity, or in the airlock work at an end of the EVA. */
function wattsOf({ activities, routes }: Problem, heat: Heat, r: number, node: number): number {
  return node < activities ? heat.taskW[node * routes + r]! : heat.airlockW[r]!;
}

/** Heat stored in a body along a route, and the last stand on arrival after which some was left. */
class BodyHeat {
  /** The slot on arrival at whose activity that stand is; -1 where there is none. */
  slot = -1;
  arrivedS = 0;
  waitS = 0;
  leftJ = 0;
  private storedJ = 0;
  private readonly mostJ: number;
  private readonly coolingW: number;
  private readonly restW: number;

  constructor(heat: Heat, r: number) {
    this.mostJ = heat.mostJ[r]!;
    this.coolingW = heat.coolingW[r]!;
    this.restW = heat.restW[r]!;
  }

  /** What is stored beyond what may be. */
  get overJ(): number {
    return this.storedJ - this.mostJ;
  }

  /** What standing lets go of, W. */
  get lossW(): number {
    return this.coolingW - this.restW;
  }

  walks(watts: number, seconds: number): void {
    this.storedJ = storedAfterJ(this.storedJ, watts, this.coolingW, seconds);
  }

  /** Works as long as the body is not too hot to go on. */
  works(watts: number, seconds: number): void {
    if (this.overJ > 0) return;
    this.walks(watts, seconds);
    if (this.storedJ <= 0) this.slot = -1;
  }

  /** Stands for some time on arrival at the activity in `slot`, -1 where nobody can be asked to stand longer. */
  stands(seconds: number, slot: number, arrivedS: number): void {
    this.works(this.restW, seconds);
    if (slot < 0 || this.storedJ <= 0 || this.overJ > 0) return;
    this.slot = slot;
    this.arrivedS = arrivedS;
    this.waitS = seconds;
    this.leftJ = this.storedJ;
  }
}

/** Asks for the last stand to be longer by what lets go of the heat that is too much. */
function standLonger(board: Board, propagation: Propagation | null, body: BodyHeat): RuleAnswer {
  const { slot, lossW } = body;
  if (!propagation || slot < 0 || lossW <= 0) return "fails";
  const standS = body.waitS + Math.ceil(Math.min(body.overJ, body.leftJ) / lossW);
  if (standS <= board.restS[slot]!) return "fails";
  propagation.rest(slot, standS);
  return propagation.raise(board.nodeOf[slot]!, body.arrivedS + standS) ? "changed" : "fails";
}
