import { useCallback } from "react";
import type { ChancesReport } from "../../../answers/index.ts";
import type { TimeScale } from "../../../editor/index.ts";
import { useView } from "../../context.ts";
import type { Brush } from "../../parts/canvas/brush.ts";
import { Canvas } from "../../parts/canvas/canvas.tsx";
import { within } from "../../parts/canvas/changed.ts";
import type { DayLayout } from "./geometry.ts";
import { paintNames } from "./names/paintnames.ts";
import type { Named } from "./names/usenames.ts";
import { paintChances } from "./paintchances.ts";
import { paintWindows } from "./paintground.ts";

const NOBODY: readonly string[] = [];

/** So much of what lies beside the window is painted too: a pan brings it into sight. A share of the window. */
const BEYOND = 0.25;

/**
 * What is written over the blocks: names in the free sky, what the simulated days say, and where the one selected task or the one in hand may
 * be. All of it in one canvas, which a pan only pushes along: it is painted anew where the window stands again.
 */
export function OverLayer(props: {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  /** Where the window stands, or stood before it moved. */
  readonly restScale: TimeScale;
  readonly named: Named | null;
  /** Keys of names that words of the hand lie on. */
  readonly covered: ReadonlySet<string>;
  readonly report: ChancesReport | null;
  readonly selection: readonly string[];
  /** The one task that is selected or in hand. */
  readonly only: string | null;
}) {
  const { layout, scale, restScale, named, covered, report, selection, only } = props;
  const inHand = useView((view) => view.inHand?.tasks ?? NOBODY);
  const painted = isPanned(restScale, scale) ? restScale : scale;
  const beyondPx = Math.round(painted.widthPx * BEYOND);
  const { plan, lanesPx, tasks } = layout;
  const task = only === null ? undefined : tasks.get(only);
  const day = report === null ? null : layout;
  const paint = useCallback(
    (brush: Brush) => {
      brush.ctx.translate(beyondPx, 0);
      const wide = within(painted, { fromPx: 0, toPx: painted.widthPx }, beyondPx);
      if (named) paintNames(brush, named, painted, { inHand, covered });
      if (day && report) paintChances(brush, day, wide, report, selection);
      if (task) paintWindows(brush, plan, task, lanesPx, wide);
    },
    [beyondPx, painted, named, covered, inHand, day, report, selection, plan, task, lanesPx],
  );
  return (
    <Canvas
      className="moving"
      widthPx={painted.widthPx + 2 * beyondPx}
      heightPx={lanesPx}
      pushedPx={Math.round(scale.x(painted.window.startS)) - beyondPx}
      paint={paint}
    />
  );
}

/** True when one scale shows the same as the other, only earlier or later. */
function isPanned(a: TimeScale, b: TimeScale): boolean {
  const lengthS = (scale: TimeScale): number => scale.window.endS - scale.window.startS;
  return a.widthPx === b.widthPx && Math.abs(lengthS(a) - lengthS(b)) < 1e-6 * lengthS(a);
}
