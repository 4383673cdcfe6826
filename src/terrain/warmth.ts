import type { Instant } from "../kernel/index.ts";
import { suitEnvironmentHeatW, type WornSuit } from "../physics/index.ts";
import type { Heavens } from "./heavens.ts";

/** When somebody may be out. */
export interface OutingBounds {
  readonly earliestEgressS: Instant;
  readonly latestIngressS: Instant;
}

/** Heat from the surroundings that is reckoned with in `suit` whenever it may be out on `eva`, W (S7). */
export function environmentHeatOnEvaW(heavens: Heavens, suit: WornSuit, eva: OutingBounds): number {
  const sun =
    suit.heatFrom === "sun"
      ? heavens.sunRange({ startS: eva.earliestEgressS, endS: eva.latestIngressS })
      : null;
  return suitEnvironmentHeatW(suit, sun);
}
