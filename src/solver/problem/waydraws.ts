import { KINDS } from "./problem.ts";
import type { LegTable } from "./ground.ts";
import type { SuitRates } from "./suitrates.ts";

/** What the ways of a site draw from a suit, and the walk-backs from them. */
export interface WayDraws {
  /** Over standing still, by entry of the ways, flat times kinds. */
  readonly leg: Float64Array;
  /** The greatest a second on any way, by kind. */
  readonly greatest: Float64Array;
  /** Walk-backs from places, and from the worst points of the ways in `peaks`, flat times kinds. */
  readonly home: Float64Array;
  readonly peak: Float64Array;
  /** Heat on each way, whole J a second. */
  readonly heatJ: Float64Array;
}

/** Worked out once for suits that stay the same (see `suitRatesOn`): an edit that leaves the ground alone finds them there. */
const known = new WeakMap<SuitRates, { readonly peakS: Int32Array; readonly draws: WayDraws }>();

/** The draws of `suit` on the ways of `ground`. */
export function wayDrawsOf(suit: SuitRates, ground: LegTable): WayDraws {
  const before = known.get(suit);
  if (before?.peakS === ground.peakS) return before.draws;
  const peaks = peaksOf(ground);
  const draws = {
    ...walkDraws(suit, ground),
    home: walkbackDraws(suit, ground.homeS, ground.homeSlopeRad),
    peak: walkbackDraws(
      suit,
      peaks.map((cell) => ground.peakS[cell]!),
      peaks.map((cell) => ground.peakSlopeRad[cell]!),
    ),
  };
  known.set(suit, { peakS: ground.peakS, draws });
  return draws;
}

/** Ways of one slope and pace are alike: one of them is worked out for all. */
function walkDraws(
  suit: SuitRates,
  { ways, standsFor }: LegTable,
): Pick<WayDraws, "leg" | "greatest" | "heatJ"> {
  const { over, heatJ, greatest } = wayRates(suit, standsFor);
  const leg = new Float64Array(standsFor.length * KINDS);
  for (let cell = 0; cell < standsFor.length; cell += 1) {
    const like = standsFor[cell]!;
    const seconds = ways.durationS[cell]!;
    heatJ[cell] = heatJ[like]!;
    if (seconds <= 0) continue;
    for (let kind = 0; kind < KINDS; kind += 1)
      leg[cell * KINDS + kind] = over[like * KINDS + kind]! * seconds;
  }
  return { leg, greatest, heatJ };
}

/** What is drawn a second over standing still, and heat, of the ways that others are like; and the greatest draws. */
function wayRates(
  suit: SuitRates,
  standsFor: Int32Array,
): { over: Float64Array; heatJ: Float64Array; greatest: Float64Array } {
  const over = new Float64Array(standsFor.length * KINDS);
  const heatJ = new Float64Array(standsFor.length);
  const greatest = new Float64Array(KINDS);
  for (let cell = 0; cell < standsFor.length; cell += 1) {
    if (standsFor[cell] !== cell) continue;
    const walk = suit.way(cell);
    heatJ[cell] = walk.heatJ;
    for (let kind = 0; kind < KINDS; kind += 1) {
      const drawn = walk.draws[kind]!;
      greatest[kind] = Math.max(greatest[kind]!, drawn);
      over[cell * KINDS + kind] = drawn - suit.rest.draws[kind]!;
    }
  }
  return { over, heatJ, greatest };
}

/** All that walk-backs of so many seconds on their slopes draw, flat times kinds. */
export function walkbackDraws(
  suit: SuitRates,
  seconds: ArrayLike<number>,
  slopeRad: ArrayLike<number>,
): Float64Array {
  const drawn = new Float64Array(seconds.length * KINDS);
  for (let i = 0; i < seconds.length; i += 1) {
    const { draws } = suit.back(slopeRad[i]!);
    for (let kind = 0; kind < KINDS; kind += 1)
      drawn[i * KINDS + kind] = draws[kind]! * Math.max(0, seconds[i]!);
  }
  return drawn;
}

/** By walk-backs: a plan asks for those of its ground again and again. */
const peaksKnown = new WeakMap<Int32Array, readonly number[]>();

/** The entries of the ways whose worst walk-back is longer than from both ends. */
export function peaksOf({ ways, homeS, peakS }: LegTable): readonly number[] {
  let list = peaksKnown.get(peakS);
  if (!list) {
    const { size } = ways;
    list = Array.from(peakS.keys()).filter(
      (cell) => peakS[cell]! > Math.max(homeS[Math.floor(cell / size)]!, homeS[cell % size]!),
    );
    peaksKnown.set(peakS, list);
  }
  return list;
}
