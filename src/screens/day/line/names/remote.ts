import { REMOTE, type TimeScale } from "../../../../editor/index.ts";
import type { Measure } from "../blocktext.ts";
import { shows, slabFor, type DayLayout } from "../geometry.ts";
import { blockWords, insideText } from "../inside.ts";
import type { Wanting } from "./wanting.ts";
import { HALF_TEXT_PX, type PlacedName } from "./place.ts";

/** Free space beside a block or a name, pixels. */
const BESIDE_PX = 4;

interface Taken {
  readonly x0: number;
  readonly x1: number;
}

/**
 * Names of work by command that have no room in their blocks: at the right of them, else at the left, where the row is free; else
 * with their number at the left of all that stands there without a gap.
 */
export function remoteNames(
  layout: DayLayout,
  scale: TimeScale,
  px: Measure,
  textPx: (text: string) => number,
): readonly (PlacedName & Pick<Wanting, "task" | "text">)[] {
  const lane = layout.lanes.find((one) => one.key === REMOTE);
  if (!lane) return [];
  const blocks = layout.blocks.filter((block) => block.lane === REMOTE && shows(scale, block));
  const rows = new Map<number, Taken[]>();
  const inRow = (row: number): Taken[] => {
    const known = rows.get(row) ?? [];
    rows.set(row, known);
    return known;
  };
  for (const block of blocks) {
    const slab = slabFor(layout, scale, block);
    if (slab) inRow(block.row).push({ x0: slab.left, x1: slab.right });
  }
  return blocks
    .toSorted((a, b) => a.startS - b.startS)
    .flatMap((block) => {
      const slab = slabFor(layout, scale, block);
      const inside = insideText(layout, scale, block, false, px);
      if (!slab || !inside || inside.whole) return [];
      const taken = inRow(block.row);
      const { number, name } = blockWords(layout, block);
      const numbered = `${number} ${name}`;
      const near = inside.lines.length > 0 ? name : numbered;
      const place = [
        { text: near, x0: slab.right + BESIDE_PX },
        { text: near, x0: slab.left - BESIDE_PX - textPx(near) },
        { text: numbered, x0: gapBefore(taken, slab.left) - 2 * BESIDE_PX - textPx(numbered) },
      ]
        .map(({ text, x0 }) => ({ text, x0, x1: x0 + textPx(text) }))
        .find(
          ({ x0, x1 }) =>
            x0 >= 2 && x1 <= scale.widthPx - 2 && taken.every((one) => one.x0 >= x1 || one.x1 <= x0),
        );
      if (!place) return [];
      taken.push({ x0: place.x0 - BESIDE_PX, x1: place.x1 + BESIDE_PX });
      const out = lane.topPx + lane.heightPx - (slab.topLeft + slab.bottomLeft) / 2;
      const line = { out, hair: slab.left, foot: out - HALF_TEXT_PX };
      return [{ key: `${block.task} ${REMOTE}`, lane: REMOTE, task: block.task, ...place, ...line }];
    });
}

/** A gap is one in which a name could begin, pixels. */
const GAP_PX = 24;

/** The left end of all that stands without a gap before and at `x`. */
function gapBefore(taken: readonly Taken[], x: number): number {
  let left = x;
  for (const one of taken.toSorted((a, b) => b.x1 - a.x1))
    if (one.x0 < left && one.x1 > left - GAP_PX) left = one.x0;
  return left;
}
