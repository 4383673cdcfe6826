import { type ReactNode, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import { timeScale } from "../../editor/index.ts";
import { shownPlan, shownSchedule, shownVerdict, tasksById } from "../../session/index.ts";
import { Bench } from "../bench/bench.tsx";
import { useAround, useDesk, useLook } from "../context.ts";
import { Findings } from "../findings/findings.tsx";
import type { Brush } from "./line/brush.ts";
import { Canvas } from "./line/canvas.tsx";
import { DayLine } from "./line/dayline.tsx";
import { EvaBars, EvaPicture } from "./line/evabars.tsx";
import { remoteLanePx, standingOf } from "./line/geometry.ts";
import { Overview } from "./line/overview.tsx";
import { evaRows, paintAxes, paintSky } from "./line/painthead.ts";
import { usePanning } from "./line/panning.ts";
import {
  AXIS_PX,
  CREW_LANE_GOOD_PX,
  CREW_LANE_MOST_PX,
  headPx,
  leastLanePx,
  OVERVIEW_PX,
  SKY_PX,
} from "./line/sizes.ts";
import { Margins, marginsPx } from "../margins/margins.tsx";
import { type Day, DayContext } from "./around.ts";
import { MoveCost } from "./cost.tsx";
import { Cursor } from "./cursor.tsx";
import { dayKeys } from "./daykeys.ts";
import { useDial } from "./dial.ts";
import { Dock } from "./dock.tsx";
import { Gutter } from "./gutter.tsx";
import { groundOf } from "./ground.ts";
import { HandBar } from "./handbar.tsx";
import { dayGesture } from "./gesture.ts";
import { lineWork } from "./linework.ts";
import { PinnedBox } from "./pinned.tsx";
import { splitWork } from "./splitwork.ts";
import { Tally } from "./tally.tsx";
import { windowing } from "./windowing.ts";

/** The day: lanes, margins under the same axis, and below them bench, findings and the chosen task. */
export function DayView(props: { readonly details: ReactNode }) {
  const { desk, look, sunDeg, walkS } = useAround();
  const plan = useDesk(shownPlan);
  const schedule = useDesk(shownSchedule);
  const verdict = useDesk(shownVerdict);
  const tasks = useDesk(tasksById);
  const window = useLook((state) => state.window);
  const dial = useDial();

  const board = useRef<HTMLElement>(null);
  const stage = useRef<HTMLDivElement>(null);
  const size = useSize(board);
  const gutterPx = size.width < 900 ? 124 : 132;
  const figuresPx = size.width < 900 ? 104 : 140;
  const widthPx = Math.max(120, size.width - gutterPx - figuresPx);
  const settled = useDesk((state) => state.plan.schedule);
  const wanted = useLook((state) => state.margins);
  const rows = evaRows(plan, verdict).rows;
  const head = headPx(rows);
  const { crewPx, which } = useMemo(
    () => share(size.height - head, plan.crew.length, remoteLanePx(plan, settled), wanted),
    [size.height, head, plan, settled, wanted],
  );

  const standing = useMemo(
    () => standingOf(plan, schedule, verdict, tasks, crewPx),
    [plan, schedule, verdict, tasks, crewPx],
  );
  const scale = useMemo(() => timeScale(window, widthPx), [window, widthPx]);

  // What gestures read at the moment they need it.
  const latest = useRef({ standing, scale });
  useLayoutEffect(() => {
    latest.current = { standing, scale };
  });
  const windows = useMemo(
    () =>
      windowing(
        look,
        () => desk.state.getState().plan,
        () => desk.state.getState().verdict,
        () => latest.current.scale.widthPx,
      ),
    [desk, look],
  );
  const gesture = useMemo(() => {
    const ground = () => groundOf(stage.current, latest.current.standing, latest.current.scale);
    return dayGesture({ desk, look, ground, windows, walkS });
  }, [desk, look, windows, walkS]);
  useEffect(() => gesture.listen(), [gesture]);
  const evas = useDesk((state) => state.plan.evas);
  useEffect(
    () => desk.commands.add(lineWork(desk, look, gesture, windows)),
    // The commands name the plan's EVAs.
    [desk, look, gesture, windows, evas],
  );
  useEffect(() => desk.commands.add(splitWork(desk, look)), [desk, look]);
  useEffect(
    () => dayKeys(desk, look, gesture, windows, () => latest.current.standing),
    [desk, look, gesture, windows],
  );
  const day = useMemo<Day>(() => ({ gesture, windows }), [gesture, windows]);
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
    <DayContext value={day}>
      <div className="day">
        <HandBar />
        <section
          ref={board}
          className="board"
          aria-label="Day line"
          data-line
          style={
            { "--gutter": `${gutterPx}px`, "--figures": `${figuresPx}px`, "--time": `${widthPx}px` } as object
          }
        >
          <div className="board-head">
            <Gutter part="head" standing={standing} evaRows={rows} />
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
            <span />
          </div>
          <div className="lanes" id="lanes">
            <Gutter part="lanes" standing={standing} />
            <DayLine standing={standing} scale={scale} stage={stage} />
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
                which === "all"
                  ? "One strip for the four consumables of a suit"
                  : "A strip for each consumable"
              }
              onClick={() => look.setState({ margins: which === "all" ? "least" : "all" })}
            >
              {which === "all" ? "Least only" : "All margins"}
            </button>
          </div>
          <Cursor scale={scale} gutterPx={gutterPx} />
        </section>
        <Dock>
          <Bench />
          <Findings />
          {props.details}
        </Dock>
        <MoveCost />
        <PinnedBox />
      </div>
    </DayContext>
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

/** How the height is shared: lanes as tall as they read well, margins apart where there is room for all of them. */
function share(
  heightPx: number,
  crew: number,
  remotePx: number,
  wanted: "all" | "least" | null,
): { readonly crewPx: number; readonly which: "all" | "least" } {
  const room = heightPx - OVERVIEW_PX - remotePx - 6;
  const lane = (which: "all" | "least"): number =>
    Math.floor((room - marginsPx(crew, which)) / Math.max(1, crew));
  const which = wanted ?? (lane("all") >= CREW_LANE_GOOD_PX ? "all" : "least");
  return { crewPx: Math.max(leastLanePx(crew), Math.min(CREW_LANE_MOST_PX, lane(which))), which };
}

function useSize(ref: React.RefObject<HTMLElement | null>): {
  readonly width: number;
  readonly height: number;
} {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const measure = (): void => setSize({ width: element.clientWidth, height: element.clientHeight });
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, [ref]);
  return size;
}
