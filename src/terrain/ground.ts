import type { Effort } from "./footing.ts";
import type { HeightGrid } from "./grid.ts";
import type { Point, Shape } from "./shapes.ts";

/** What ways are worked out from: the site's places, keep-outs and given legs, and how somebody walks. */

export interface SiteInput {
  readonly places: readonly (Point & { readonly id: string; readonly kind: string; readonly upM: number })[];
  readonly keepOuts: readonly {
    readonly kind: string;
    readonly shape: Shape;
    readonly afterTask?: string | undefined;
  }[];
  readonly legs: readonly {
    readonly from: string;
    readonly to: string;
    readonly distanceM: number;
    readonly durationS: number;
    readonly bothWays: boolean;
    readonly walkbackPeakM?: number | undefined;
  }[];
}

export interface Gait {
  /** Speed on the level, m/s. */
  readonly speedMs: number;
  /**
   * The level speed that the planner's leg times belong to, m/s: they are scaled from it and held to length and slope. Without
   * it they belong to this gait and are taken as they are.
   */
  readonly legsAtMs?: number | undefined;
  /** Way walked over straight line, at least 1. */
  readonly detour: number;
  /** Steeper lines than this are closed, degrees; slopes are rise over straight line. */
  readonly greatestSlopeDeg: number;
  /** The ground as a height grid; without it ways are straight lines. */
  readonly relief?: Relief | undefined;
}

/** A height grid and how it is walked; the greatest slope of the gait holds upwards. */
export interface Relief {
  readonly grid: HeightGrid;
  /** Way walked over the line on the grid, at least 1. */
  readonly detour: number;
  readonly downDeg: number;
  readonly acrossDeg: number;
  /** Spare energy at this load; null spares time. */
  readonly effort: Effort | null;
}
