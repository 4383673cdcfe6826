import { type RefObject, useLayoutEffect, useMemo, useRef, useState } from "react";
import { type TimeScale, timeScale } from "../../../editor/index.ts";
import { shownPlan, shownSchedule, shownVerdict, tasksById } from "../../../session/index.ts";
import { useDesk, useLook } from "../../context.ts";
import { marginsPx } from "../../margins/margins.tsx";
import { remoteLanePx, type Standing, standingOf } from "./geometry.ts";
import { evaRows } from "./painthead.ts";
import { headPx, leastLanePx, OVERVIEW_PX } from "./sizes.ts";

/** The day line as it is laid out in the room that it has: everything under one time axis. */
export interface TheLine {
  /** The box that the line fills, and the part of it that the lanes are drawn in. */
  readonly board: RefObject<HTMLElement | null>;
  readonly stage: RefObject<HTMLDivElement | null>;
  readonly standing: Standing;
  readonly scale: TimeScale;
  readonly gutterPx: number;
  readonly figuresPx: number;
  readonly headPx: number;
  readonly margins: "all" | "least";
  /** What stands there and its scale, for gestures at the moment they need it. */
  readonly latest: { readonly current: { readonly standing: Standing; readonly scale: TimeScale } };
}

/** Lays the shown day out in the box of `board`, and again whenever day, window or room change. */
export function useTheLine(): TheLine {
  const plan = useDesk(shownPlan);
  const schedule = useDesk(shownSchedule);
  const verdict = useDesk(shownVerdict);
  const tasks = useDesk(tasksById);
  const window = useLook((state) => state.window);
  const board = useRef<HTMLElement>(null);
  const stage = useRef<HTMLDivElement>(null);
  const size = useSize(board);
  const gutterPx = size.width < 900 ? 124 : 132;
  const figuresPx = size.width < 900 ? 104 : 140;
  const widthPx = Math.max(120, size.width - gutterPx - figuresPx);
  const settled = useDesk((state) => state.plan.schedule);
  const wanted = useLook((state) => state.margins);
  const head = headPx(evaRows(plan, verdict).rows);
  const { crewPx, which } = useMemo(
    () => share(size.height - head, plan.crew.length, remoteLanePx(plan, settled), wanted),
    [size.height, head, plan, settled, wanted],
  );
  const standing = useMemo(
    () => standingOf(plan, schedule, verdict, tasks, crewPx),
    [plan, schedule, verdict, tasks, crewPx],
  );
  const scale = useMemo(() => timeScale(window, widthPx), [window, widthPx]);
  const latest = useRef({ standing, scale });
  useLayoutEffect(() => {
    latest.current = { standing, scale };
  });
  return { board, stage, standing, scale, gutterPx, figuresPx, headPx: head, margins: which, latest };
}

/** How the height is shared: what the margins do not need is the lanes'. */
function share(
  heightPx: number,
  crew: number,
  remotePx: number,
  wanted: "all" | "least" | null,
): { readonly crewPx: number; readonly which: "all" | "least" } {
  const room = heightPx - OVERVIEW_PX - remotePx - 6;
  const which = wanted ?? "least";
  const lanePx = Math.floor((room - marginsPx(crew, which)) / Math.max(1, crew));
  return { crewPx: Math.max(leastLanePx(crew), lanePx), which };
}

function useSize(ref: RefObject<HTMLElement | null>): {
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
