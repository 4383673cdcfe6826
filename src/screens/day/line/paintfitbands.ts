import type { FitBand } from "../../../answers/index.ts";
import { type Lane, REMOTE, type TimeScale } from "../../../editor/index.ts";
import type { Brush } from "../../parts/canvas/brush.ts";
import { shows, type DayLayout } from "./geometry.ts";

/**
 * Fit bands through the whole half of a lane, behind the ribbon: filled where the task in hand may start with all others where they
 * are, slanted where they may slide, each for as long as the task would then last. Their times stand over the lane that it is held over.
 */
export function paintFitBands(
  brush: Brush,
  layout: DayLayout,
  scale: TimeScale,
  bands: readonly FitBand[],
  task: string,
): void {
  const { ctx, palette } = brush;
  const lengthS = layout.tasks.get(task)?.duration.likelyS ?? 0;
  for (const lane of layout.lanes) {
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
    ctx.fillStyle = palette.fit;
    for (const { startS, endS } of fixed)
      for (const x of [scale.x(startS), scale.x(endS - 1)])
        ctx.fillRect(x - 1, lane.topPx + 1, 2, lane.heightPx - 2);
  }
}

function onLane(band: FitBand, lane: Lane): boolean {
  return lane.key === REMOTE ? band.crew.length === 0 : band.crew.includes(lane.key);
}
