import {
  laneAt,
  NO_PLACE,
  type Point,
  REMOTE,
  type Target,
  timeScale,
  type TimeScale,
} from "../../editor/index.ts";
import type { DayLayout } from "./line/geometry.ts";
import { EDGE_PX } from "./line/sizes.ts";

/** The day line as a gesture meets it: what stands there, at which scale, and where on the page. */
export interface HitSurface {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  /** Left and top of the lanes on the page, CSS pixels. */
  readonly left: number;
  readonly top: number;
}

/** The ground measured now; null before the line is on the page. */
export type GroundSource = () => HitSurface | null;

/** The ground from what stands there and the element that shows it. */
export function groundOf(
  stage: HTMLElement | null,
  laid: Pick<HitSurface, "layout" | "scale"> | null,
): HitSurface | null {
  if (!stage || !laid) return null;
  const { left, top } = stage.getBoundingClientRect();
  return { ...laid, left, top };
}

/** The same ground looked at through another window, for a window that moves while something is in hand. */
export function seenThrough(ground: HitSurface, window: TimeScale["window"]): HitSurface {
  return { ...ground, scale: timeScale(window, ground.scale.widthPx) };
}

/** Time and lane under a point of the page; the bench where `overBench`. */
export function under(
  ground: HitSurface,
  point: Point,
  overBench: boolean,
): { readonly atS: number; readonly lane: string | null } {
  const atS = ground.scale.at(point.x - ground.left);
  if (overBench) return { atS, lane: null };
  const lane = laneAt(ground.layout.lanes, point.y - ground.top);
  return { atS, lane: lane?.key ?? REMOTE };
}

/** Most that counts as being out at an edge, pixels. */
const MOST_OUT_PX = 60;

/** How far a point is out at an edge of the line: negative at the left, positive at the right, 0 between, over the bench and over the map. */
export function beyondEdge(ground: HitSurface | null, point: Point): number {
  if (!ground) return 0;
  const within = point.x - ground.left;
  const width = ground.scale.widthPx;
  const out = within < EDGE_PX ? within - EDGE_PX : Math.max(0, within - width + EDGE_PX);
  return out === 0 || isOverBench(point) || placeUnder(point)
    ? 0
    : Math.max(-MOST_OUT_PX, Math.min(MOST_OUT_PX, out));
}

/** What of the map beside the lanes is under a point of the page: a place, no place, or no map (null). */
export function placeUnder({ x, y }: Point): Extract<Target, { at: "place" }> | null {
  const map = document.querySelector<HTMLElement>("[data-map-beside]");
  const box = map?.getBoundingClientRect();
  if (!map || !box || x < box.left || x > box.right || y < box.top || y > box.bottom) return null;
  const inside = (one: HTMLElement): boolean => {
    const { left, right, top, bottom } = one.getBoundingClientRect();
    return x >= left && x <= right && y >= top && y <= bottom;
  };
  const found = [...map.querySelectorAll<HTMLElement>("[data-place]")].find(inside);
  return { at: "place", place: found?.dataset["place"] ?? NO_PLACE };
}

/** True over the bench, or over what stands for it. Asked for its box and not for what is under the pointer: that is far quicker. */
export function isOverBench({ x, y }: Point): boolean {
  return [...document.querySelectorAll("[data-bench]")].some((one) => {
    const box = one.getBoundingClientRect();
    return box.width > 0 && x >= box.left && x <= box.right && y >= box.top && y <= box.bottom;
  });
}
