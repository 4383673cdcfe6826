import { walkingMs } from "../physics/index.ts";
import { heightAt } from "./grid.ts";
import type { Gait, SiteInput } from "./ground.ts";

/**
 * Legs that the planner gave: how long the walk back on one takes, and how steep it counts.
 *
 * The planner's time belongs to the planned pace, on the way out and on the way home; on the walk-back it is scaled by the two
 * level speeds, and the leg is never quicker than its length at the walk-back speed on its slope. What lies between its ends
 * is the planner's to know: only the line between them can be checked.
 */

type GivenLeg = SiteInput["legs"][number];

/** The straight line from one place to another. */
export interface Line {
  /** On the level, m. */
  readonly levelM: number;
  /** Up positive, m; 0 where a height is not known. */
  readonly riseM: number;
}

/** The straight line between two places by index: by the ground's heights where there is one, else by the places' own. */
export function lineBetween(ground: SiteInput, gait: Gait, from: number, to: number): Line {
  const a = ground.places[from]!;
  const b = ground.places[to]!;
  const grid = gait.relief?.grid;
  const riseM = grid ? heightAt(grid, b.eastM, b.northM) - heightAt(grid, a.eastM, a.northM) : b.upM - a.upM;
  return {
    levelM: Math.hypot(a.eastM - b.eastM, a.northM - b.northM),
    riseM: Number.isNaN(riseM) ? 0 : riseM,
  };
}

/** Length of a line with its rise, m. */
export function lineM({ levelM, riseM }: Line): number {
  return Math.hypot(levelM, riseM);
}

/** Nothing is reckoned steeper than this; the greatest slope that a plan may allow. */
const STEEPEST_RAD = Math.PI / 4;

/**
 * Slope angle that a leg of `distanceM` over `line` counts with, radians, up positive: that of the line, whatever the leg goes
 * round, so that a longer leg is never a quicker one. Where the line is steeper than the gait allows and the leg is long enough
 * to go no steeper than that, it does.
 */
export function legSlopeRad({ levelM, riseM }: Line, distanceM: number, gait: Gait): number {
  const angle = levelM === 0 && riseM === 0 ? 0 : Math.atan2(riseM, levelM);
  const allowedDeg = riseM < 0 ? (gait.relief?.downDeg ?? gait.greatestSlopeDeg) : gait.greatestSlopeDeg;
  const allowed = (allowedDeg * Math.PI) / 180;
  const bound = distanceM * Math.sin(allowed) >= Math.abs(riseM) ? allowed : STEEPEST_RAD;
  return Math.sign(angle) * Math.min(Math.abs(angle), bound);
}

/**
 * Seconds on `leg` at the walk-back gait, whole, rounded up: the worse of its own time scaled from the speed it was given for
 * (`legsAtMs`), and its length, or that of the line if that is longer, at the speed of its slope.
 */
export function legBackSeconds(leg: GivenLeg, line: Line, gait: Gait): number {
  const own = (leg.durationS * (gait.legsAtMs ?? gait.speedMs)) / gait.speedMs;
  const slope = Math.tan(legSlopeRad(line, leg.distanceM, gait));
  const walked = Math.max(leg.distanceM, lineM(line)) / walkingMs(gait.speedMs, slope);
  return Math.ceil(Math.max(own, walked) - 1e-6);
}
