import type { Lane } from "./lanes.ts";
import type { Block } from "./relief.ts";
import type { TimeScale } from "./scale.ts";

/** How a lane turns walk-back time into height. */
export interface LaneRelief {
  /** Thickness of a block, pixels. */
  readonly thickPx: number;
  /** Free space beyond what stands farthest from home, pixels. */
  readonly skyPx: number;
  /** Walk-back of what stands farthest, seconds. */
  readonly topS: number;
}

/** A slab on screen: upright sides, its upper and its lower edge straight from left to right. Pixels. */
export interface Slab {
  readonly left: number;
  readonly right: number;
  readonly topLeft: number;
  readonly topRight: number;
  readonly bottomLeft: number;
  readonly bottomRight: number;
}

/** Blocks on screen are never narrower than this, so that a short task can be seen and hit. Pixels. */
const LEAST_PX = 5;

/** The line home of a lane, pixels from the top. */
export function homeY(lane: Lane): number {
  return lane.sense === "up" ? lane.topPx + lane.heightPx : lane.topPx;
}

/** How far from the line home the near edge of the ribbon runs at a walk-back of `homeS`, pixels. */
export function awayPx(lane: Lane, relief: LaneRelief, homeS: number): number {
  const most = Math.max(0, lane.heightPx - relief.thickPx - relief.skyPx);
  return Math.min(1, Math.max(0, homeS / relief.topS)) * most;
}

/** What lies `px` beyond the line home of a lane, in pixels from the top. */
export function beyondHome(lane: Lane, px: number): number {
  return lane.sense === "up" ? homeY(lane) - px : homeY(lane) + px;
}

/** Height on screen of the ribbon's near edge at a walk-back of `homeS`. */
export function innerY(lane: Lane, relief: LaneRelief, homeS: number): number {
  return beyondHome(lane, awayPx(lane, relief, homeS));
}

/** The same of its far edge: where heights are read. */
export function outerY(lane: Lane, relief: LaneRelief, homeS: number): number {
  return beyondHome(lane, awayPx(lane, relief, homeS) + relief.thickPx);
}

/** Where a block stands on screen in a crew lane; `across` lets it reach to the line home, for what two do together. */
export function slabOf(
  part: Pick<Block, "startS" | "endS" | "homeStartS" | "homeEndS">,
  lane: Lane,
  relief: LaneRelief,
  scale: TimeScale,
  across = false,
): Slab {
  const left = scale.x(part.startS);
  const right = Math.max(left + LEAST_PX, scale.x(part.endS));
  const inner = (homeS: number): number => (across ? homeY(lane) : innerY(lane, relief, homeS));
  const [atStart, atEnd] = [part.homeStartS, part.homeEndS];
  const near = { left: inner(atStart), right: inner(atEnd) };
  const far = { left: outerY(lane, relief, atStart), right: outerY(lane, relief, atEnd) };
  const [top, bottom] = lane.sense === "up" ? [far, near] : [near, far];
  return {
    left,
    right,
    topLeft: top.left,
    topRight: top.right,
    bottomLeft: bottom.left,
    bottomRight: bottom.right,
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
    bottomLeft: top + rowPx - 2,
    bottomRight: top + rowPx - 2,
  };
}

/** Distance in pixels from a point to a slab; 0 inside. Slanted edges count as their height at `x`. */
function distanceTo(slab: Slab, x: number, y: number): number {
  const aside = Math.max(0, slab.left - x, x - slab.right);
  const width = slab.right - slab.left;
  const share = width > 0 ? Math.min(1, Math.max(0, (x - slab.left) / width)) : 0;
  const top = slab.topLeft + share * (slab.topRight - slab.topLeft);
  const bottom = slab.bottomLeft + share * (slab.bottomRight - slab.bottomLeft);
  const off = Math.max(0, top - y, y - bottom);
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
