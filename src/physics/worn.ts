import { environmentMostW } from "./environment.ts";
import { absorbentHeatW, heatLoadW } from "./heatbalance.ts";
import { co2KgPerJ } from "./respiration.ts";
import type { ElevationRange } from "./stretches.ts";
import type { SuitModel } from "./suit.ts";

/**
 * A suit as it is worn: what it draws depends on what its wearer does (fans, pumps and radio take more at work than
 * standing) and on the heat from the surroundings, which counts as on sunlit ground for as long as somebody may be out.
 * Range: as suit.ts; sun elevations as environment.ts. Not covered: relief in shadow and what a suit takes up or gives off
 * beside rocks and walls; what it draws before egress.
 */

/** What the wearer does, as far as the electrical load goes. */
export type Mode = "standing" | "walking" | "working";

/** A suit's numbers with those that depend on mode and surroundings. */
export interface WornSuit extends SuitModel {
  /** Electrical load while walking and while at work, W; without them that of standing. */
  readonly walkingW?: number | undefined;
  readonly workingW?: number | undefined;
  /** given: `environmentW` at any time. sun: from the sun's elevation. */
  readonly heatFrom: "given" | "sun";
  readonly insulationM2: number;
}

/** Electrical load of `suit` in `mode`, W. */
export function electricalW(suit: WornSuit, mode: Mode): number {
  if (mode === "walking") return suit.walkingW ?? suit.electricalW;
  if (mode === "working") return suit.workingW ?? suit.electricalW;
  return suit.electricalW;
}

/**
 * Heat from the surroundings that is reckoned with while the sun's elevation stays inside `sun`, whole W rounded up: the
 * greatest there is on sunlit ground; without `sun` (not known) the greatest at any elevation.
 */
export function suitEnvironmentHeatW(suit: WornSuit, sun: ElevationRange | null): number {
  if (suit.heatFrom === "given") return suit.environmentW;
  const { leastDeg, greatestDeg } = sun ?? { leastDeg: -90, greatestDeg: 90 };
  return Math.ceil(environmentMostW(leastDeg, greatestDeg, suit.insulationM2));
}

/** `suit` in `mode` with `environmentHeatW` of heat from the surroundings, as suit.ts draws for it. */
export function suitIn(suit: WornSuit, mode: Mode, environmentHeatW: number): SuitModel {
  return { ...suit, electricalW: electricalW(suit, mode), environmentW: environmentHeatW };
}

/** All heat that a suit has to be rid of at `metabolicW`, whole J/s rounded up. */
export function heatPerSecond(suit: SuitModel, metabolicW: number): number {
  const absorbentW = absorbentHeatW(metabolicW * co2KgPerJ(suit.respiratoryQuotient), suit.absorbentKjKg);
  const load = {
    metabolicW,
    electricalW: suit.electricalW,
    absorbentW,
    environmentW: suit.environmentW,
  };
  return Math.ceil(heatLoadW(load));
}
