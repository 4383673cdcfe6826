import { type Amounts, drawPerSecond, metabolicW, reserves, stocks, walkingW } from "../physics/index.ts";
import type { CrewMember, Eva, Plan, Suit, Task } from "../plan/index.ts";
import {
  gaitsOf,
  heavensOf,
  type Home,
  homeOf,
  taskSky,
  type TaskSky,
  type Ways,
  waysOf,
} from "../terrain/index.ts";

/** A crew member in a suit: stocks, reserves and rates (S6, S7). */
export interface Walker {
  readonly member: CrewMember;
  readonly suit: Suit;
  readonly full: Amounts;
  readonly reserve: Amounts;
  /** Draw per second on the way back. */
  readonly walkback: Amounts;
  /** Longest walk-back that emergency oxygen allows, s; may be negative. */
  readonly emergencyS: number;
  readonly egressW: number;
  readonly waitW: number;
  taskW(task: Task): number;
  wayW(slopeRad: number): number;
  /** Draw per second at a metabolic rate. */
  draw(metabolicRateW: number): Amounts;
}

/** What depends on the plan only and is therefore worked out once for many schedules. */
export interface Prepared {
  readonly plan: Plan;
  readonly tasks: ReadonlyMap<string, Task>;
  readonly evas: ReadonlyMap<string, Eva>;
  readonly walkers: ReadonlyMap<string, Walker>;
  readonly ways: Ways;
  readonly home: Home;
  /** When the sky is as a task asks. */
  sky(task: Task): TaskSky;
}

/** Everything the judge needs to know of `plan` before it sees a schedule. */
export function prepare(plan: Plan): Prepared {
  const gaits = gaitsOf(plan);
  const ways = waysOf(plan.site, gaits.planned);
  const suits = new Map(plan.suits.map((suit) => [suit.id, suit]));
  const walkers = new Map<string, Walker>();
  for (const member of plan.crew) {
    const suit = suits.get(member.suit);
    if (suit) walkers.set(member.id, walkerOf(plan, member, suit));
  }
  return {
    plan,
    tasks: new Map(plan.tasks.map((task) => [task.id, task])),
    evas: new Map(plan.evas.map((eva) => [eva.id, eva])),
    walkers,
    ways,
    home: homeOf(plan.site, ways, gaits.back),
    sky: skyOf(plan),
  };
}

function walkerOf(plan: Plan, member: CrewMember, suit: Suit): Walker {
  const { walking, walkback } = plan.rules;
  const factor = member.workRateFactor;
  const massKg = member.bodyMassKg + suit.massKg;
  const full = stocks(suit);
  const drawAt = new Map<number, Amounts>();
  const draw = (rateW: number): Amounts => {
    let known = drawAt.get(rateW);
    if (!known) drawAt.set(rateW, (known = drawPerSecond(suit, rateW)));
    return known;
  };
  return {
    member,
    suit,
    full,
    reserve: reserves(full, suit.reserve),
    walkback: draw(walkback.metabolicW * factor),
    emergencyS: suit.emergencyOxygenS - walkback.emergencyReserveS,
    egressW: metabolicW("egress-ingress", factor),
    waitW: metabolicW("rest", factor),
    taskW: (task) => metabolicW(task.effort, factor),
    wayW: (slopeRad) =>
      walkingW(walking.metabolicW, factor, massKg, plan.body.gravityMs2, walking.speedMs, slopeRad),
    draw,
  };
}

function skyOf(plan: Plan): Prepared["sky"] {
  const heavens = heavensOf(plan);
  const ground = { ...plan.stay, places: plan.site.places };
  const known = new Map<Task, TaskSky>();
  return (task) => {
    let sky = known.get(task);
    if (!sky) known.set(task, (sky = taskSky(heavens, ground, task)));
    return sky;
  };
}
