import "./line.css";
import { memo, useLayoutEffect, useRef } from "react";
import { lastStripPx, Margins } from "../../margins/margins.tsx";
import { useDay } from "../context.ts";
import { Cursor } from "../cursor.tsx";
import { LanesGutter, RulerGutter, StayGutter } from "../gutter.tsx";
import { DayLine } from "./dayline.tsx";
import { Overview } from "./overview.tsx";
import { Plumb } from "./ghosts.tsx";
import { usePanning } from "./panning.ts";
import { Ruler } from "./ruler.tsx";
import { type LineOnPage, useTheLine } from "./theline.ts";

/** Everything under one time axis: ruler, lanes, margins, and the whole stay. It fills the box that it is given. */
export const Board = memo(function Board({ onPage }: { readonly onPage: LineOnPage }) {
  const { windows } = useDay();
  const line = useTheLine(onPage);
  const { layout, scale, sizes, margins } = line;
  const { widthPx } = scale;
  const headStage = useRef<HTMLDivElement>(null);
  const headPanning = usePanning(headStage, scale, windows);
  // What stands beside the line may lie over the last strip and the stay: as high as both, so that it cuts no strip.
  const footPx = lastStripPx(margins, sizes) + sizes.stayPx;
  useLayoutEffect(() => {
    line.board.current?.closest<HTMLElement>(".day")?.style.setProperty("--foot", `${footPx}px`);
  }, [line.board, footPx]);

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
          <Ruler layout={layout} scale={scale} heightPx={sizes.rulerPx} />
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
