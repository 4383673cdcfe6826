import { REMOTE, type TimeScale } from "../../../../editor/index.ts";
import type { Measure } from "../blocktext.ts";
import { isJoint, shows, slabFor, type DayLayout } from "../geometry.ts";
import { blockWords, insideText } from "../inside.ts";
import type { NameToPlace } from "./place.ts";

/** A name that asks for a place in the sky, with what is written there. */
export interface Wanting extends NameToPlace {
  readonly task: string;
  readonly text: string;
}

/** Must-do work keeps its name before any other. */
const MUST_WORTH = 10_000_000;

/** Names of blocks in sight that have no room for them. `plates` are the tasks with a plate, `textPx` measures a name in a row. */
export function wantingOf(
  layout: DayLayout,
  scale: TimeScale,
  plates: ReadonlySet<string>,
  px: Measure,
  textPx: (text: string) => number,
): readonly Wanting[] {
  return layout.blocks.flatMap((block): readonly Wanting[] => {
    const lane = layout.lanes.find((one) => one.key === block.lane);
    if (!lane || lane.key === REMOTE || !shows(scale, block)) return [];
    const joint = isJoint(block, lane);
    // One for two is named once, from either side.
    if (joint && lane.sense === "down") return [];
    const inside = insideText(layout, scale, block, plates.has(block.task), px);
    const slab = slabFor(layout, scale, block);
    if (!inside || inside.whole || !slab) return [];
    const seen = { from: Math.max(slab.left, 1), to: Math.min(slab.right, scale.widthPx - 1) };
    if (seen.to - seen.from < 2) return [];
    const { number, name } = blockWords(layout, block);
    const text = inside.lines.length > 0 ? name : `${number} ${name}`;
    const task = layout.tasks.get(block.task);
    const on = joint && lane.mate !== null ? [lane.key, lane.mate] : [lane.key];
    return [
      {
        key: `${block.task} ${block.lane}`,
        task: block.task,
        text,
        widthPx: textPx(text) + 3,
        worth: (task?.must ? MUST_WORTH : 0) + (task?.worth ?? 0),
        on: on.map((key) => ({ lane: key, ...seen })),
      },
    ];
  });
}
