import type { Lane } from "./lanes.ts";
import type { Block } from "./relief.ts";
import type { TimeScale } from "./scale.ts";

/** How a lane turns walk-back time into height. */
export interface LaneRelief {
  /** Thickness of a block, pixels. */
  readonly thickPx: number;
  /** Free space above the highest and below the lowest block, pixels. */
  readonly headPx: number;
  readonly footPx: number;
  /** Walk-back at the top, seconds. */
  readonly topS: number;
}

/** A slab on screen: upright sides, its top edge from `topLeft` to `topRight`, everywhere `thick` high. Pixels. */
export interface Slab {
  readonly left: number;
  readonly right: number;
  readonly topLeft: number;
  readonly topRight: number;
  readonly thick: number;
}

/** Blocks on screen are never narrower than this, so that a short task can be seen and hit. Pixels. */
export const LEAST_PX = 5;

/** Height on screen of a walk-back of `homeS` in `lane`: the top edge of what stands there. */
export function reliefY(lane: Lane, relief: LaneRelief, homeS: number): number {
  const low = lane.topPx + lane.heightPx - relief.footPx - relief.thickPx;
  const high = lane.topPx + relief.headPx;
  const share = Math.min(1, Math.max(0, homeS / relief.topS));
  return low - share * (low - high);
}

/** Where a block stands on screen in a crew lane. */
export function slabOf(
  part: Pick<Block, "startS" | "endS" | "homeStartS" | "homeEndS">,
  lane: Lane,
  relief: LaneRelief,
  scale: TimeScale,
): Slab {
  const left = scale.x(part.startS);
  return {
    left,
    right: Math.max(left + LEAST_PX, scale.x(part.endS)),
    topLeft: reliefY(lane, relief, part.homeStartS),
    topRight: reliefY(lane, relief, part.homeEndS),
    thick: relief.thickPx,
  };
}

/** Where a remote task stands on screen: in the row of its lane. */
export function rowSlabOf(block: Block, lane: Lane, rowPx: number, padPx: number, scale: TimeScale): Slab {
  const left = scale.x(block.startS);
  const top = lane.topPx + padPx + block.row * rowPx;
  return {
    left,
    right: Math.max(left + LEAST_PX, scale.x(block.endS)),
    topLeft: top,
    topRight: top,
    thick: rowPx - 2,
  };
}

/** Distance in pixels from a point to a slab; 0 inside. Slanted edges count as their height at `x`. */
export function distanceTo(slab: Slab, x: number, y: number): number {
  const aside = Math.max(0, slab.left - x, x - slab.right);
  const width = slab.right - slab.left;
  const share = width > 0 ? Math.min(1, Math.max(0, (x - slab.left) / width)) : 0;
  const top = slab.topLeft + share * (slab.topRight - slab.topLeft);
  const off = Math.max(0, top - y, y - (top + slab.thick));
  return Math.hypot(aside, off);
}

/**
 * The last of `items` (drawn last, so on top) that holds the point, else the nearest within `slackPx`; null when
 * there is none.
 */
export function hit<Item>(
  items: readonly Item[],
  slab: (item: Item) => Slab,
  x: number,
  y: number,
  slackPx: number,
): Item | null {
  let best: Item | null = null;
  let bestPx = slackPx;
  for (const item of items) {
    const away = distanceTo(slab(item), x, y);
    if (away <= bestPx) {
      best = item;
      bestPx = away;
    }
  }
  return best;
}
