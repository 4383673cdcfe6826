import type { Block, Lane, TimeScale } from "../../../editor/index.ts";
import { clock, evaName, lasting, placeName, taskNumber } from "../../../words/index.ts";
import type { BlockText, Measure, Words } from "./blocktext.ts";
import { acrossOf, isJoint, slabFor, type DayLayout } from "./geometry.ts";
import { type BlockForm, wordsAcross, wordsOf } from "./paintblocks.ts";
import { taskStates } from "./paintfindings.ts";

/** The form of a block at a scale; null when its lane is not shown. */
export function formOf(layout: DayLayout, scale: TimeScale, block: Block, lane: Lane): BlockForm | null {
  const slab = slabFor(layout, scale, block);
  if (!slab) return null;
  const row = lane.crew === null;
  return {
    slab,
    sense: lane.sense,
    thickPx: row ? slab.bottomLeft - slab.topLeft : layout.relief.thickPx,
    across: isJoint(block, lane),
    row,
  };
}

/**
 * What is written in a block as far as it is in sight; of one for two ask for its upper half. `plate` keeps the room free that one
 * takes. Null when its lane is not shown.
 */
export function insideText(
  layout: DayLayout,
  scale: TimeScale,
  block: Block,
  plate: boolean,
  px: Measure,
): BlockText | null {
  const lane = layout.lanes.find((one) => one.key === block.lane);
  const form = lane ? formOf(layout, scale, block, lane) : null;
  if (!form) return null;
  const words = blockWords(layout, block);
  const marked = taskStates(layout.verdict).has(block.task);
  const both = form.across ? acrossOf(layout, scale, block) : null;
  return both
    ? wordsAcross(both, form.thickPx, words, { widthPx: scale.widthPx, plate, marked }, px)
    : wordsOf(form, words, { widthPx: scale.widthPx, plate, marked }, px);
}

/** Number, name, and what else is told of a block where there is room. */
export function blockWords(layout: DayLayout, block: Block): Words {
  const { plan } = layout;
  const task = layout.tasks.get(block.task);
  const homeS = Math.max(block.homeStartS, block.homeEndS);
  const place = block.eva === null ? evaName(plan, null) : placeName(plan, task?.place);
  return {
    number: taskNumber(plan, block.task),
    name: task?.name ?? block.task,
    facts: [
      `${place}, ${lasting(block.endS - block.startS, "up")}`,
      `${clock(block.startS)} to ${clock(block.endS)}`,
      ...(block.eva === null ? [] : [`home in ${lasting(homeS, "up")}`]),
    ],
  };
}
