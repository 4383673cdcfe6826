import { memo, useCallback, useMemo } from "react";
import { timeScale } from "../../../editor/index.ts";
import { clock } from "../../../words/index.ts";
import { useView } from "../../context.ts";
import { wholeMinute } from "../../wholeminute.ts";
import { useDay } from "../context.ts";
import { evaSpan, limitsOf } from "../windowing.ts";
import { type Brush, setFont, textPx } from "../../parts/canvas/brush.ts";
import { Canvas } from "../../parts/canvas/canvas.tsx";
import type { DayLayout } from "./geometry.ts";
import { taskStates } from "./paintfindings.ts";
import { useStill } from "./still.ts";
import { useWindowDrag } from "./windowdrag.ts";

interface Strip {
  readonly layout: DayLayout;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The whole stay in one strip, with the window that is shown above: it is dragged, its ends too. */
export function Overview(props: Strip) {
  return <StillOverview {...props} layout={useStill(props.layout)} />;
}

const StillOverview = memo(function StillOverview({ layout, widthPx, heightPx }: Strip) {
  const { plan, verdict } = layout;
  const { windows } = useDay();
  const window = useView((state) => state.window);
  const limits = useMemo(() => limitsOf(plan), [plan]);
  const scale = useMemo(() => timeScale(limits, widthPx), [limits, widthPx]);
  const paint = useCallback((brush: Brush) => paintStay(brush, layout, scale), [layout, scale]);
  /** A click goes to the EVA that it was on, else to that time. */
  const clicked = (atS: number): void => {
    const on = plan.evas.findIndex((_, i) => {
      const span = evaSpan(plan, verdict, i);
      return span !== null && span.startS <= atS && atS <= span.endS;
    });
    if (on >= 0) windows.eva(on);
    else windows.panBy(atS - (window.startS + window.endS) / 2);
  };
  const drag = useWindowDrag({ scale, limits, window, windows, clicked });
  const left = scale.x(window.startS);
  return (
    <div
      className="overview"
      role="scrollbar"
      aria-label="Shown part of the stay"
      aria-orientation="horizontal"
      aria-controls="lanes"
      aria-valuemin={Math.round(limits.startS)}
      aria-valuemax={Math.round(limits.endS)}
      aria-valuenow={Math.round(window.startS)}
      aria-valuetext={`${clock(wholeMinute(window.startS))} to ${clock(wholeMinute(window.endS))}`}
      tabIndex={0}
      style={{ width: widthPx, height: heightPx }}
      onPointerDown={drag.press}
      onPointerMove={drag.move}
      onPointerUp={drag.release}
      onPointerCancel={drag.lose}
      onKeyDown={(event) => {
        if (event.key === "ArrowLeft" || event.key === "ArrowRight") {
          windows.panShare(event.key === "ArrowLeft" ? -0.15 : 0.15);
          event.preventDefault();
          event.stopPropagation();
        }
      }}
    >
      <Canvas widthPx={widthPx} heightPx={heightPx} paint={paint} />
      <div className="overview-window" style={{ left, width: Math.max(6, scale.x(window.endS) - left) }} />
    </div>
  );
});

function paintStay(brush: Brush, layout: DayLayout, scale: ReturnType<typeof timeScale>): void {
  const { ctx, palette } = brush;
  const { plan, lanes, verdict } = layout;
  const states = taskStates(verdict);
  ctx.fillStyle = palette.sunk;
  ctx.fillRect(0, 0, brush.widthPx, brush.heightPx);
  for (const block of plan.stay.blocks) {
    ctx.fillStyle = block.kind === "sleep" ? palette.night : palette.meal;
    ctx.fillRect(scale.x(block.startS), 0, scale.x(block.endS) - scale.x(block.startS), brush.heightPx);
    ctx.fillStyle = brush.hatch(block.kind === "sleep" ? "night" : "meal");
    ctx.fillRect(scale.x(block.startS), 0, scale.x(block.endS) - scale.x(block.startS), brush.heightPx);
  }
  const row = (brush.heightPx - 6) / Math.max(1, lanes.length);
  for (const outing of verdict.outings) {
    const i = lanes.findIndex((lane) => lane.key === outing.crew);
    const x = scale.x(outing.span.startS);
    ctx.fillStyle = palette.outing;
    ctx.fillRect(x, 3 + i * row, scale.x(outing.span.endS) - x, row - 1);
  }
  for (const block of layout.blocks) {
    const i = lanes.findIndex((lane) => lane.key === block.lane);
    const x = scale.x(block.startS);
    const state = states.get(block.task);
    const must = layout.tasks.get(block.task)?.must ?? false;
    ctx.fillStyle = state ? palette[state] : must ? palette.ink : palette["line-strong"];
    ctx.fillRect(x, 3 + i * row + 0.5, Math.max(1.5, scale.x(block.endS) - x - 0.5), row - 2);
  }
  paintEvaFrames(brush, layout, scale);
}

/** A frame about each EVA with its name where that has room. */
function paintEvaFrames(
  brush: Brush,
  { plan, verdict }: DayLayout,
  scale: ReturnType<typeof timeScale>,
): void {
  const { ctx, palette, heightPx } = brush;
  setFont(ctx, 12.5, 650);
  ctx.textAlign = "right";
  ctx.textBaseline = "middle";
  const taken: { readonly x0: number; readonly x1: number }[] = [];
  for (const [i, eva] of plan.evas.entries()) {
    const span = evaSpan(plan, verdict, i);
    if (!span) continue;
    const left = scale.x(span.startS);
    const right = scale.x(span.endS);
    ctx.strokeStyle = palette["line-strong"];
    ctx.lineWidth = 1;
    ctx.strokeRect(left - 2.5, 1.5, right - left + 5, heightPx - 3);
    const wide = textPx(ctx, eva.name) + 6;
    // EVAs at the same time are named at either end.
    const x0 = [right - wide, left].find((x) => taken.every((one) => x + wide <= one.x0 || x >= one.x1));
    if (wide > right - left || x0 === undefined) continue;
    taken.push({ x0, x1: x0 + wide });
    ctx.fillStyle = palette.paper;
    ctx.fillRect(x0, heightPx / 2 - 8, wide, 16);
    ctx.fillStyle = palette.ink;
    ctx.fillText(eva.name, x0 + wide - 3, heightPx / 2 + 0.5);
  }
}
