import "./line.css";
import { memo, useCallback, useMemo, useRef } from "react";
import { shownPlan } from "../../../session/index.ts";
import { useApp, useSession } from "../../context.ts";
import { Margins } from "../../margins/margins.tsx";
import { useDay } from "../context.ts";
import { Cursor } from "../cursor.tsx";
import { useDial } from "../../dial.ts";
import { LanesGutter, RulerGutter, StayGutter } from "../gutter.tsx";
import type { Brush } from "../../parts/canvas/brush.ts";
import { Canvas } from "../../parts/canvas/canvas.tsx";
import { DayLine } from "./dayline.tsx";
import { Overview } from "./overview.tsx";
import { paintRuler } from "./paintruler.ts";
import { Plumb } from "./held.tsx";
import { usePanning } from "./panning.ts";
import { type LineOnPage, useTheLine } from "./theline.ts";

/** Everything under one time axis: ruler, lanes, margins, and the whole stay. It fills the box that it is given. */
export const Board = memo(function Board({ onPage }: { readonly onPage: LineOnPage }) {
  const { sunDeg } = useApp();
  const { windows } = useDay();
  const plan = useSession(shownPlan);
  const dial = useDial();
  const line = useTheLine(onPage);
  const { layout, scale, sizes, margins } = line;
  const { widthPx } = scale;
  const headStage = useRef<HTMLDivElement>(null);
  const headPanning = usePanning(headStage, scale, windows);

  const sun = useMemo(() => remembered((atS) => sunDeg(plan, atS)), [plan, sunDeg]);
  const paintHead = useCallback(
    (brush: Brush) => paintRuler(brush, { plan, dial, sunDeg: sun }, scale),
    [plan, dial, scale, sun],
  );
  return (
    <section
      ref={line.board}
      className="board"
      aria-label="Day line"
      data-line
      style={{ "--gutter": `${sizes.gutterPx}px`, "--time": `${widthPx}px` } as object}
    >
      <div className="board-head">
        <RulerGutter heightPx={sizes.rulerPx} />
        <div
          ref={headStage}
          className="head-stage"
          style={{ height: sizes.rulerPx }}
          onPointerDown={(event) => {
            if (event.button === 0) headPanning.press(event.nativeEvent);
          }}
        >
          <Canvas widthPx={widthPx} heightPx={sizes.rulerPx} paint={paintHead} />
        </div>
      </div>
      <div className="lanes" id="lanes">
        <LanesGutter layout={layout} />
        <DayLine layout={layout} scale={scale} onPage={onPage} />
      </div>
      <Margins scale={scale} which={margins} sizes={sizes} />
      <div className="board-foot">
        <StayGutter heightPx={sizes.stayPx} margins={margins} />
        <Overview layout={layout} widthPx={widthPx} heightPx={sizes.stayPx} />
      </div>
      <Cursor scale={scale} gutterPx={sizes.gutterPx} />
      <Plumb layout={layout} scale={scale} gutterPx={sizes.gutterPx} />
    </section>
  );
});

/** Elevations by instant, each worked out once: every frame of a moving window asks for the same ones. */
function remembered(sunDeg: (atS: number) => number | null): (atS: number) => number | null {
  const known = new Map<number, number | null>();
  return (atS) => {
    let degrees = known.get(atS);
    if (degrees === undefined) {
      degrees = sunDeg(atS);
      known.set(atS, degrees);
    }
    return degrees;
  };
}
