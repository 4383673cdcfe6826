import {
  type Amounts,
  drawPerSecond,
  heatPerSecond,
  metabolicW,
  type Mode,
  purgeOf,
  reserves,
  stocks,
  suitIn,
  walkbackW,
  walkingW,
} from "../physics/index.ts";
import { remembered } from "../kernel/index.ts";
import {
  type CrewMember,
  type Eva,
  type Placement,
  type Plan,
  type Suit,
  suitOn,
  type Task,
  tasksById,
} from "../plan/index.ts";
import { type Placed, placedOf } from "./placed.ts";
import {
  carryingW,
  gaitsOf,
  type Heavens,
  heavensOf,
  type Home,
  homeOf,
  type Inside,
  type InsideHome,
  insideHome,
  insideOf,
  type LegFault,
  legFaults,
  environmentHeatOnEvaW,
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
  /** Greatest heat the cooling carries off, whole W, and the most a body may store, J. */
  readonly coolingW: number;
  readonly storageJ: number;
  /** Longest walk-back that emergency oxygen allows, s; may be negative. */
  readonly emergencyS: number;
  readonly egressW: number;
  readonly waitW: number;
  taskW(task: Task): number;
  /** On the way in an entry of the ways. */
  wayW(cell: number): number;
  /** The suit as it is worn on an EVA. */
  on(eva: Eva): SuitLoad;
}

/** A suit on one EVA, with the heat from the surroundings there (S7). */
export interface SuitLoad {
  /** Left at egress: the full stocks less the purge. */
  readonly atEgress: Amounts;
  /** Draw per second on a way back that counts with a slope angle. */
  walkback(slopeRad: number): Amounts;
  /** Draw per second at a metabolic rate. */
  draw(mode: Mode, metabolicRateW: number): Amounts;
  /** Heat at a metabolic rate, whole J/s. */
  heat(mode: Mode, metabolicRateW: number): number;
}

/** What depends on the plan only and is therefore worked out once for many schedules. */
export interface Prepared {
  readonly plan: Plan;
  readonly tasks: ReadonlyMap<string, Task>;
  readonly evas: ReadonlyMap<string, Eva>;
  readonly crew: ReadonlyMap<string, CrewMember>;
  /** A placement of a task read: the same one for the same placement, in whichever schedule it stands. */
  placed(placement: Placement, task: Task): Placed;
  /** A crew member in the suit that they wear on an EVA; null for who or what is not in the plan. */
  walker(eva: Eva, member: string): Walker | null;
  readonly ways: Ways;
  readonly home: Home;
  /** Given legs that nobody can walk. */
  readonly legFaults: readonly LegFault[];
  /** What is walked inside a task, and the longest walk-back from there. */
  inside(task: Task): Inside;
  insideHome(inside: Inside): InsideHome;
  /** When the sky is as a task asks. */
  sky(task: Task): TaskSky;
  /** Where the sun stands; null where that is not known. */
  readonly sunAt: Heavens["sunAt"];
}

/** Everything the judge needs to know of `plan` before it sees a schedule; worked out once a plan. */
export const prepare: (plan: Plan) => Prepared = remembered((plan: Plan) => {
  const gaits = gaitsOf(plan);
  const ways = waysOf(plan.site, gaits.planned);
  const home = homeOf(plan.site, ways, gaits.back);
  const heavens = heavensOf(plan);
  const crew = new Map(plan.crew.map((member) => [member.id, member]));
  const evas = new Map(plan.evas.map((eva) => [eva.id, eva]));
  return {
    plan,
    tasks: tasksById(plan),
    evas,
    crew,
    placed: remembered((placement: Placement, task: Task) => placedOf({ ways, evas }, placement, task)),
    walker: clothed(plan, crew, (member, suit) => walkerOf(plan, ways, heavens, member, suit)),
    ways,
    home,
    legFaults: legFaults(plan.site, gaits.planned),
    inside: (task) => insideOf(ways, task, gaits.planned.speedMs),
    insideHome: (inside) => insideHome(home, inside, gaits.back.speedMs),
    sky: skyOf(plan, heavens),
    sunAt: heavens.sunAt,
  };
});

/** Crew members in the suits that they wear on an EVA, each made once. */
function clothed(
  plan: Plan,
  crew: Prepared["crew"],
  make: (member: CrewMember, suit: Suit) => Walker,
): Prepared["walker"] {
  const known = new Map<string, Walker>();
  return (eva, id) => {
    const member = crew.get(id);
    const suit = suitOn(plan, eva, id);
    if (!member || !suit) return null;
    const key = `${id} ${suit.id}`;
    let one = known.get(key);
    if (!one) known.set(key, (one = make(member, suit)));
    return one;
  };
}

function walkerOf(plan: Plan, ways: Ways, heavens: Heavens, member: CrewMember, suit: Suit): Walker {
  const { walking, walkback, heat } = plan.rules;
  const factor = member.workRateFactor;
  const who = { factor, massKg: member.bodyMassKg + suit.massKg };
  const { gravityMs2 } = plan.body;
  const backW = (slopeRad: number): number =>
    walkbackW(walkback.metabolicW, walking, who, gravityMs2, walkback.speedMs, slopeRad);
  const full = stocks(suit);
  const suitLoad = new Map<Eva, SuitLoad>();
  return {
    member,
    suit,
    full,
    reserve: reserves(full, suit.reserve),
    coolingW: Math.floor(suit.coolingW ?? Infinity),
    storageJ: Math.floor(heat.mostKjKg * 1000 * member.bodyMassKg),
    emergencyS: suit.emergencyOxygenS - walkback.emergencyReserveS,
    egressW: metabolicW("egress-ingress", factor),
    waitW: metabolicW("rest", factor),
    taskW: (task) =>
      metabolicW(task.effort, factor) + carryingW(ways, task, who.massKg, gravityMs2, walking.speedMs),
    wayW: (cell) => walkingW(walking, who, gravityMs2, ways.paceMs[cell]!, ways.slopeRad[cell]!),
    on: (eva) => {
      let known = suitLoad.get(eva);
      if (!known) {
        known = wornIn(suit, full, environmentHeatOnEvaW(heavens, suit, eva), backW);
        suitLoad.set(eva, known);
      }
      return known;
    },
  };
}

/** `suit`, holding `full`, with `environmentHeatW` of heat from the surroundings. */
function wornIn(
  suit: Suit,
  full: Amounts,
  environmentHeatW: number,
  backW: (slopeRad: number) => number,
): SuitLoad {
  const known = new Map<Mode, Map<number, { readonly draw: Amounts; readonly heat: number }>>();
  const at = (mode: Mode, rateW: number): { readonly draw: Amounts; readonly heat: number } => {
    let ofMode = known.get(mode);
    if (!ofMode) known.set(mode, (ofMode = new Map()));
    let one = ofMode.get(rateW);
    if (!one) {
      const now = suitIn(suit, mode, environmentHeatW);
      ofMode.set(rateW, (one = { draw: drawPerSecond(now, rateW), heat: heatPerSecond(now, rateW) }));
    }
    return one;
  };
  return {
    atEgress: { ...full, oxygen: full.oxygen - purgeOf(suit) },
    walkback: (slopeRad) => at("walking", backW(slopeRad)).draw,
    draw: (mode, rateW) => at(mode, rateW).draw,
    heat: (mode, rateW) => at(mode, rateW).heat,
  };
}

function skyOf(plan: Plan, heavens: Heavens): Prepared["sky"] {
  const ground = { ...plan.stay, places: plan.site.places };
  const known = new Map<Task, TaskSky>();
  return (task) => {
    let sky = known.get(task);
    if (!sky) known.set(task, (sky = taskSky(heavens, ground, task)));
    return sky;
  };
}
