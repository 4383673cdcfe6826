import { REMOTE, type TimeScale } from "../../../editor/index.ts";
import type { Chance, ChancesReport } from "../../../answers/index.ts";
import { chanceFigure, type Shortfall, taskShortfall, WISH_STATE } from "../../chancewords.ts";
import { type Brush, setFont, textPx } from "../../parts/canvas/brush.ts";
import { shows, type DayLayout } from "./geometry.ts";
import { formOf } from "./inside.ts";
import { type BlockForm, farEdge, PLATE_PX } from "./paintblocks.ts";

/** Of more selected tasks at once the ropes would cross one another and the names: then none is drawn. */
const MOST_ROPES = 3;

/** What the simulated days say of each block: a must-do task below the wish in words on it, and the slack of the few that are selected. */
export function paintChances(
  brush: Brush,
  day: DayLayout,
  scale: TimeScale,
  report: ChancesReport,
  selection: readonly string[],
): void {
  const roped = new Set(selection.length > MOST_ROPES ? [] : selection);
  const known = new Map(report.tasks.map((one) => [one.task, one]));
  for (const block of day.blocks) {
    const one = known.get(block.task);
    const lane = day.lanes.find(({ key }) => key === block.lane);
    const form = one && lane && shows(scale, block) ? formOf(day, scale, block, lane) : null;
    if (!one || !form || block.lane === REMOTE) continue;
    const shortfall = taskShortfall(one, report);
    // On one for two once, on the upper half.
    if (shortfall !== null && !(form.across && form.sense === "down"))
      paintBelow(brush, form, one.done, shortfall);
    // And there the rope, on the lower: across home stands the name.
    if (one.slackS !== null && roped.has(block.task) && !(form.across && form.sense === "up")) {
      brush.ctx.save();
      keepOffJoint(brush, day, scale);
      paintRope(brush, ropeY(form), form.slab.left, scale.x(block.startS + one.slackS));
      brush.ctx.restore();
    }
  }
}

/** Lets what is painted next go on behind blocks for two: across home stand their names. */
function keepOffJoint({ ctx, widthPx }: Brush, day: DayLayout, scale: TimeScale): void {
  ctx.beginPath();
  ctx.rect(0, 0, widthPx, ctx.canvas.height);
  for (const block of day.blocks) {
    const lane = day.lanes.find(({ key }) => key === block.lane);
    const form = lane && shows(scale, block) ? formOf(day, scale, block, lane) : null;
    if (!form?.across) continue;
    const { left, right, topLeft, topRight, bottomLeft, bottomRight } = form.slab;
    const top = Math.min(topLeft, topRight);
    ctx.rect(left, top, right - left, Math.max(bottomLeft, bottomRight) - top);
  }
  ctx.clip("evenodd");
}

/** Tasks on which a plate stands. */
export function platesOf(report: ChancesReport): readonly string[] {
  return report.tasks.filter((one) => taskShortfall(one, report) !== null).map(({ task }) => task);
}

/** The bar in the colour of its state at the left of a plate, pixels. */
const BAR_PX = 3;

/** On a plate along the far edge of the block: as many words as it has room for. */
export function paintBelow(
  brush: Brush,
  form: Pick<BlockForm, "slab" | "sense">,
  done: Chance,
  shortfall: Shortfall,
): void {
  const { ctx, palette } = brush;
  const { slab } = form;
  const state = WISH_STATE[shortfall] === "breach" ? "breach" : "tight";
  const figure = chanceFigure(done);
  const room = slab.right - slab.left - 6 - BAR_PX;
  setFont(ctx, 12, 640);
  const text = [
    `done on ${figure}, ${shortfall} the wish`,
    `${figure}, ${shortfall} wish`,
    `${shortfall} wish`,
    figure,
  ].find((one) => textPx(ctx, one) <= room);
  if (text === undefined) return;
  const far = farEdge(form);
  const edge = far.home > 0 ? Math.max(far.left, far.right) : Math.min(far.left, far.right);
  const y = far.home > 0 ? edge + PLATE_PX.from : edge - PLATE_PX.from - PLATE_PX.tall;
  ctx.fillStyle = palette[`${state}-wash`];
  ctx.fillRect(slab.left + 1, y, textPx(ctx, text) + 8, PLATE_PX.tall);
  ctx.fillStyle = palette[state];
  ctx.fillRect(slab.left + 1, y, BAR_PX, PLATE_PX.tall);
  ctx.fillStyle = palette.ink;
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  ctx.fillText(text, slab.left + BAR_PX + 3.5, y + PLATE_PX.tall / 2 + 0.5);
}

/** Height of a rope at its lowest. */
const HANG_PX = 12;

/** Where a rope is tied: on the home side of a block, of one for two below both. */
function ropeY({ slab, sense, across }: BlockForm): number {
  if (across) return Math.max(slab.bottomLeft, slab.bottomRight) + 4;
  return sense === "up" ? slab.bottomLeft + 2 : slab.topLeft - HANG_PX - 4;
}

/** From the start of a block to its latest one: a rope that hangs the lower the longer it is, with a stop at its end. */
export function paintRope(brush: Brush, y: number, fromPx: number, latestPx: number): void {
  const { ctx, palette } = brush;
  if (latestPx - fromPx < 2) return;
  ctx.strokeStyle = palette.accent;
  ctx.lineWidth = 2;
  ctx.beginPath();
  ctx.moveTo(fromPx, y);
  ctx.quadraticCurveTo(
    (fromPx + latestPx) / 2,
    y + Math.min(2 * HANG_PX, (latestPx - fromPx) / 4),
    latestPx,
    y,
  );
  ctx.stroke();
  ctx.beginPath();
  ctx.moveTo(latestPx, y - 6);
  ctx.lineTo(latestPx, y + 6);
  ctx.stroke();
}
