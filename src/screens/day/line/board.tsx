import { useCallback, useMemo, useRef } from "react";
import { shownPlan, shownSchedule, shownVerdict } from "../../../session/index.ts";
import { useAround, useDesk } from "../../context.ts";
import { Margins } from "../../margins/margins.tsx";
import { useDay } from "../around.ts";
import { Corner } from "../corner.tsx";
import { Cursor } from "../cursor.tsx";
import { useDial } from "../dial.ts";
import { Gutter } from "../gutter.tsx";
import { Tally } from "../tally.tsx";
import type { Brush } from "./brush.ts";
import { Canvas } from "./canvas.tsx";
import { DayLine } from "./dayline.tsx";
import { EvaBars, EvaPicture } from "./evabars.tsx";
import { Overview } from "./overview.tsx";
import { evaRows, paintAxes, paintSky } from "./painthead.ts";
import { usePanning } from "./panning.ts";
import { AXIS_PX, SKY_PX } from "./sizes.ts";
import type { TheLine } from "./theline.ts";

/** Everything under one time axis: clocks and sky, lanes, margins, and the whole stay. It fills the box that it is given. */
export function Board({ line }: { readonly line: TheLine }) {
  const { look, sunDeg } = useAround();
  const { windows } = useDay();
  const plan = useDesk(shownPlan);
  const schedule = useDesk(shownSchedule);
  const verdict = useDesk(shownVerdict);
  const dial = useDial();
  const { standing, scale, gutterPx, figuresPx, headPx: head, margins: which } = line;
  const { widthPx } = scale;
  const headStage = useRef<HTMLDivElement>(null);
  const headPanning = usePanning(headStage, scale, windows);

  const sun = useMemo(() => remembered((atS) => sunDeg(plan, atS)), [plan, sunDeg]);
  // The clocks and the sky stay as they are while a task is in hand; only the EVAs change.
  const paintHead = useCallback(
    (brush: Brush) => {
      paintAxes(brush, dial, scale);
      paintSky(brush, plan, sun, scale, head - SKY_PX);
    },
    [plan, dial, scale, sun, head],
  );
  return (
    <section
      ref={line.board}
      className="board"
      aria-label="Day line"
      data-line
      style={
        { "--gutter": `${gutterPx}px`, "--figures": `${figuresPx}px`, "--time": `${widthPx}px` } as object
      }
    >
      <div className="board-head">
        <Gutter part="head" standing={standing} evaRows={evaRows(plan, verdict).rows} />
        <div
          ref={headStage}
          className="head-stage"
          style={{ height: head }}
          onPointerDown={(event) => {
            if (event.button === 0) headPanning.press(event.nativeEvent);
          }}
        >
          <Canvas widthPx={widthPx} heightPx={head} paint={paintHead} />
          <div style={{ top: AXIS_PX }}>
            <EvaPicture plan={plan} verdict={verdict} scale={scale} />
            <EvaBars plan={plan} schedule={schedule} verdict={verdict} scale={scale} />
          </div>
        </div>
        <Corner />
      </div>
      <div className="lanes" id="lanes">
        <Gutter part="lanes" standing={standing} />
        <DayLine standing={standing} scale={scale} stage={line.stage} />
        <Tally standing={standing} />
      </div>
      <Margins scale={scale} which={which} />
      <div className="board-foot">
        <Gutter part="foot" standing={standing} />
        <Overview standing={standing} widthPx={widthPx} />
        <button
          type="button"
          className="quiet margin-switch"
          title={
            which === "all" ? "One strip for the four consumables of a suit" : "A strip for each consumable"
          }
          onClick={() => look.setState({ margins: which === "all" ? "least" : "all" })}
        >
          {which === "all" ? "Least only" : "All margins"}
        </button>
      </div>
      <Cursor scale={scale} gutterPx={gutterPx} />
    </section>
  );
}

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
