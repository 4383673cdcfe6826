import type { FitBand } from "../../../answers/index.ts";
import { type Lane, REMOTE, type TimeScale } from "../../../editor/index.ts";
import { clock } from "../../../words/index.ts";
import { type Brush, facePx, font, setFace, setFont, textPx } from "../../parts/canvas/brush.ts";
import { shows, type Standing } from "./geometry.ts";

/**
 * Fit bands through the whole half of a lane, behind the ribbon: filled where the held task may start with all others where they
 * are, slanted where they may slide, each for as long as the task would then last; at the far edge the first and the last start.
 */
export function paintFitBands(
  brush: Brush,
  standing: Standing,
  scale: TimeScale,
  bands: readonly FitBand[],
  task: string,
): void {
  const { ctx, palette } = brush;
  const lengthS = standing.tasks.get(task)?.duration.likelyS ?? 0;
  for (const lane of standing.lanes) {
    const own = bands.filter((band) => onLane(band, lane));
    const seen = (fits: FitBand["fixed"]): FitBand["fixed"] =>
      fits.filter((fit) => shows(scale, { startS: fit.startS, endS: fit.endS + lengthS }));
    const fill = (fits: FitBand["fixed"], style: CanvasPattern | string): void => {
      ctx.fillStyle = style;
      for (const fit of fits) {
        const x = scale.x(fit.startS);
        ctx.fillRect(x, lane.topPx + 1, Math.max(2, scale.x(fit.endS - 1 + lengthS) - x), lane.heightPx - 2);
      }
    };
    fill(seen(own.flatMap((band) => band.sliding)), brush.hatch("slide"));
    const fixed = seen(own.flatMap((band) => band.fixed));
    ctx.globalAlpha = 0.6;
    fill(fixed, palette["fit-wash"]);
    ctx.globalAlpha = 1;
    let free = 0;
    for (const fit of fixed.toSorted((a, b) => a.startS - b.startS))
      free = flagStarts(brush, lane, fit, scale, free);
    if (own.every((band) => band.fixed.length === 0) && bands.length > 0 && lane.crew !== null)
      nowhere(brush, lane);
  }
}

/** First and last start of one stretch, in whole minutes inside it; the flags from `free` on, the answer is where they end. */
function flagStarts(
  brush: Brush,
  lane: Lane,
  fit: FitBand["fixed"][number],
  scale: TimeScale,
  free: number,
): number {
  const { ctx, palette } = brush;
  const x0 = scale.x(fit.startS);
  const x1 = scale.x(fit.endS - 1);
  ctx.fillStyle = palette.fit;
  for (const x of [x0, x1]) ctx.fillRect(x - 1, lane.topPx + 1, 2, lane.heightPx - 2);
  const y =
    lane.sense === "up" && lane.crew !== null ? lane.topPx + FLAG_PX : lane.topPx + lane.heightPx - FLAG_PX;
  let end = free;
  const flag = (text: string, left: number): void => {
    const wide = facePx(ctx, FLAG_FACE, text) + 8;
    const from = text.startsWith("first") ? left - wide : left;
    if (from < end || lane.heightPx < 3 * FLAG_PX) return;
    ctx.fillStyle = palette.accent;
    ctx.fillRect(from, y - 9, wide, 17);
    ctx.fillStyle = palette["on-accent"];
    setFace(ctx, FLAG_FACE);
    ctx.textAlign = "left";
    ctx.textBaseline = "middle";
    ctx.fillText(text, from + 4, y);
    end = from + wide + 2;
  };
  flag(`first start ${clock(fit.startS, "up")}`, x0 + 1);
  flag(`last start ${clock(fit.endS - 1, "down")}`, Math.max(x1 - 1, end - 2));
  return end;
}

/** The flags stand so far from the edge of the lane, beside the findings there. Pixels. */
const FLAG_PX = 26;
const FLAG_FACE = font(12.5, 650);

function onLane(band: FitBand, lane: Lane): boolean {
  return lane.key === REMOTE ? band.crew.length === 0 : band.crew.includes(lane.key);
}

function nowhere(brush: Brush, lane: Lane): void {
  const { ctx, palette } = brush;
  setFont(ctx, 12, 620);
  const text = "fits nowhere on this lane as the day stands";
  const wide = textPx(ctx, text) + 12;
  ctx.fillStyle = palette.raised;
  const y = lane.sense === "up" ? lane.topPx + FLAG_PX : lane.topPx + lane.heightPx - FLAG_PX;
  ctx.fillRect(4, y - 9, wide, 18);
  ctx.fillStyle = palette["ink-soft"];
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  ctx.fillText(text, 10, y + 0.5);
}
