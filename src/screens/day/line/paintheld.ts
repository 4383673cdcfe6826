import { type Lane, REMOTE, type StartBand, type TimeScale } from "../../../editor/index.ts";
import { type Brush, setFont, textPx } from "./brush.ts";
import { shows, type Standing } from "./geometry.ts";

/**
 * Fit bands: on every lane the stretches where the held task may start with all others where they are, drawn strong
 * along the top and as a wash over the lane for as long as the task would then last.
 */
export function paintFitBands(
  brush: Brush,
  standing: Standing,
  scale: TimeScale,
  bands: readonly StartBand[],
  task: string,
): void {
  const { ctx, palette } = brush;
  const lengthS = standing.tasks.get(task)?.duration.likelyS ?? 0;
  for (const lane of standing.lanes) {
    const fits = bands.flatMap((band) => (onLane(band, lane) ? band.fixed : []));
    const spans = fits.filter((fit) => shows(scale, { startS: fit.startS, endS: fit.endS + lengthS }));
    ctx.globalAlpha = 0.45;
    ctx.fillStyle = palette["fit-wash"];
    for (const fit of spans) {
      const x = scale.x(fit.startS);
      ctx.fillRect(x, lane.topPx + 1, scale.x(fit.endS - 1 + lengthS) - x, lane.heightPx - 2);
    }
    ctx.globalAlpha = 1;
    for (const fit of spans) {
      const x = scale.x(fit.startS);
      const width = Math.max(4, scale.x(fit.endS) - x);
      ctx.fillStyle = palette.fit;
      ctx.fillRect(x, lane.topPx + 1, width, 6);
      ctx.fillRect(x, lane.topPx + 1, 2, 14);
      ctx.fillRect(x + width - 2, lane.topPx + 1, 2, 14);
      setFont(ctx, 12, 620);
      const text = "fits from here";
      if (width > textPx(ctx, text) + 10) {
        ctx.textAlign = "left";
        ctx.textBaseline = "middle";
        ctx.fillText(text, x + 6, lane.topPx + 15);
      }
    }
    if (fits.length === 0 && bands.length > 0 && lane.crew !== null) nowhere(brush, lane);
  }
}

function onLane(band: StartBand, lane: Lane): boolean {
  return lane.key === REMOTE ? band.crew.length === 0 : band.crew.includes(lane.key);
}

function nowhere(brush: Brush, lane: Lane): void {
  const { ctx, palette } = brush;
  setFont(ctx, 12, 620);
  const text = "fits nowhere on this lane as the day stands";
  const wide = textPx(ctx, text) + 12;
  ctx.fillStyle = palette.raised;
  ctx.fillRect(4, lane.topPx + 3, wide, 18);
  ctx.fillStyle = palette["ink-soft"];
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  ctx.fillText(text, 10, lane.topPx + 12.5);
}
