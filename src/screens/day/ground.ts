import { laneAt, REMOTE, timeScale, type TimeScale } from "../../editor/index.ts";
import type { Standing } from "./line/geometry.ts";

/** The day line as a gesture meets it: what stands there, at which scale, and where on the page. */
export interface Ground {
  readonly standing: Standing;
  readonly scale: TimeScale;
  /** Left and top of the lanes on the page, CSS pixels. */
  readonly left: number;
  readonly top: number;
}

/** The ground measured now; null before the line is on the page. */
export type GroundSource = () => Ground | null;

/** The ground from what stands there and the element that shows it. */
export function groundOf(stage: HTMLElement | null, standing: Standing, scale: TimeScale): Ground | null {
  if (!stage) return null;
  const { left, top } = stage.getBoundingClientRect();
  return { standing, scale, left, top };
}

/** The same ground looked at through another window, for a window that moves while something is held. */
export function seenThrough(ground: Ground, window: TimeScale["window"]): Ground {
  return { ...ground, scale: timeScale(window, ground.scale.widthPx) };
}

/** Time and lane under a point of the page; the bench where `overBench`. */
export function under(
  ground: Ground,
  point: { readonly x: number; readonly y: number },
  overBench: boolean,
): { readonly atS: number; readonly lane: string | null } {
  const atS = ground.scale.at(point.x - ground.left);
  if (overBench) return { atS, lane: null };
  const lane = laneAt(ground.standing.lanes, point.y - ground.top);
  return { atS, lane: lane?.key ?? REMOTE };
}
