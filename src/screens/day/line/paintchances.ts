import { REMOTE, type Slab, type TimeScale } from "../../../editor/index.ts";
import type { Chance, ChancesReport } from "../../../answers/index.ts";
import { chanceFigure, type Shortfall, slackWords, taskShortfall, WISH_STATE } from "../../chancewords.ts";
import { type Brush, setFont, textPx } from "./brush.ts";
import { shows, slabFor, type Standing } from "./geometry.ts";

/** From here on lateness is near: a shorter slack is written strong. */
const NEAR_S = 300;

/** What the simulated days say of each block: a must-do task below the wish in words on it, and its slack above. */
export function paintChances(
  brush: Brush,
  day: Standing,
  scale: TimeScale,
  report: ChancesReport,
  selection: readonly string[],
): void {
  const known = new Map(report.tasks.map((one) => [one.task, one]));
  for (const block of day.blocks) {
    const one = known.get(block.task);
    if (!one || !shows(scale, block)) continue;
    const slab = slabFor(day, scale, block);
    if (!slab) continue;
    const shortfall = taskShortfall(one, report);
    if (shortfall !== null) paintBelow(brush, slab, one.done, shortfall);
    if (one.slackS === null || block.lane === REMOTE) continue;
    paintSlack(brush, slab, one.slackS);
    if (selection.includes(block.task)) paintRope(brush, slab, scale.x(block.startS + one.slackS));
  }
}

/** On a plate along the foot of the block: as many words as it has room for. */
export function paintBelow(brush: Brush, slab: Slab, done: Chance, shortfall: Shortfall): void {
  const { ctx, palette } = brush;
  const state = WISH_STATE[shortfall] === "breach" ? "breach" : "tight";
  const figure = chanceFigure(done);
  const room = slab.right - slab.left - 6;
  setFont(ctx, 12, 640);
  const text = [
    `done on ${figure}, ${shortfall} the wish`,
    `${figure}, ${shortfall} wish`,
    `${shortfall} wish`,
    figure,
  ].find((one) => textPx(ctx, one) <= room);
  if (text === undefined) return;
  const y = slab.bottomLeft - 15;
  ctx.fillStyle = palette[state];
  ctx.fillRect(slab.left + 1, y, textPx(ctx, text) + 6, 14);
  ctx.fillStyle = palette[`on-${state}`];
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  ctx.fillText(text, slab.left + 4, y + 7.5);
}

function paintSlack(brush: Brush, slab: Slab, slackS: number): void {
  const { ctx, palette } = brush;
  const words = slackWords(slackS);
  // Two beside each other stay apart.
  const room = slab.right - slab.left - 6;
  setFont(ctx, 12, slackS < NEAR_S ? 680 : 460);
  const text = [words, words.replace("slack ", "")].find((one) => textPx(ctx, one) <= room);
  if (text === undefined) return;
  const x = (slab.left + slab.right) / 2;
  const y = Math.min(slab.topLeft, slab.topRight) - 6;
  const wide = textPx(ctx, text);
  ctx.globalAlpha = 0.85;
  ctx.fillStyle = palette.outing;
  ctx.fillRect(x - wide / 2 - 1, y - 6, wide + 2, 12);
  ctx.globalAlpha = 1;
  ctx.fillStyle = slackS < NEAR_S ? palette.ink : palette["ink-soft"];
  ctx.textAlign = "center";
  ctx.textBaseline = "middle";
  ctx.fillText(text, x, y);
}

/** From the start of a block to its latest one: a rope that hangs the lower the longer it is, with a stop at its end. */
export function paintRope(brush: Brush, slab: Slab, latestPx: number): void {
  const { ctx, palette } = brush;
  const y = slab.bottomLeft + 2;
  const from = slab.left;
  if (latestPx - from < 2) return;
  ctx.strokeStyle = palette.accent;
  ctx.lineWidth = 2;
  ctx.beginPath();
  ctx.moveTo(from, y);
  ctx.quadraticCurveTo((from + latestPx) / 2, y + Math.min(14, (latestPx - from) / 4), latestPx, y);
  ctx.stroke();
  ctx.beginPath();
  ctx.moveTo(latestPx, y - 6);
  ctx.lineTo(latestPx, y + 6);
  ctx.stroke();
}
