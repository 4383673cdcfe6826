import type { Lane } from "./lanes.ts";
import type { Block } from "./relief.ts";

/** Where the keyboard's focus goes from block to block: along a lane in time, across lanes to what is nearest. */
export type Direction = "earlier" | "later" | "above" | "below" | "first" | "last";

/** Order of reading: lane by lane, in time. */
export function readingOrder(blocks: readonly Block[], lanes: readonly Lane[]): readonly Block[] {
  const place = new Map(lanes.map((lane, i) => [lane.key, i]));
  return blocks.toSorted(
    (a, b) =>
      (place.get(a.lane) ?? 0) - (place.get(b.lane) ?? 0) ||
      a.startS - b.startS ||
      a.row - b.row ||
      (a.task < b.task ? -1 : 1),
  );
}

/** The block that focus moves to from `from`; null when there is none that way. */
export function blockBeside(
  blocks: readonly Block[],
  lanes: readonly Lane[],
  from: Pick<Block, "task" | "lane">,
  way: Direction,
): Block | null {
  const inOrder = readingOrder(blocks, lanes);
  const at = inOrder.findIndex((one) => one.task === from.task && one.lane === from.lane);
  const here = inOrder[at];
  if (!here) return inOrder[0] ?? null;
  const sameLane = inOrder.filter((one) => one.lane === here.lane);
  const along = sameLane.indexOf(here);
  switch (way) {
    case "earlier":
      return sameLane[along - 1] ?? null;
    case "later":
      return sameLane[along + 1] ?? null;
    case "first":
      return sameLane[0] ?? null;
    case "last":
      return sameLane.at(-1) ?? null;
    case "above":
    case "below": {
      const order = lanes.map((lane) => lane.key);
      const step = way === "above" ? -1 : 1;
      for (let i = order.indexOf(here.lane) + step; i >= 0 && i < order.length; i += step) {
        const near = nearestIn(inOrder, order[i]!, (here.startS + here.endS) / 2);
        if (near) return near;
      }
      return null;
    }
  }
}

function nearestIn(blocks: readonly Block[], lane: string, atS: number): Block | null {
  let best: Block | null = null;
  let least = Infinity;
  for (const block of blocks) {
    if (block.lane !== lane) continue;
    const away = Math.max(0, block.startS - atS, atS - block.endS);
    if (away < least) {
      best = block;
      least = away;
    }
  }
  return best;
}
