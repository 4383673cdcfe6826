import { type RefObject, useLayoutEffect, useMemo, useRef, useState } from "react";
import { type TimeScale, timeScale } from "../../../editor/index.ts";
import { shownPlan, shownSchedule, shownVerdict, shownTasks } from "../../../session/index.ts";
import { useSession, useView } from "../../context.ts";
import { marginsPx } from "../../margins/margins.tsx";
import { remoteLanePx, type DayLayout, layoutOf } from "./geometry.ts";
import { leastLanePx, type LineSizes, lineSizes } from "./sizes.ts";

/** The day line as it is laid out in the room that it has: everything under one time axis. */
export interface TheLine {
  /** The box that the line fills. */
  readonly board: RefObject<HTMLElement | null>;
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  readonly sizes: LineSizes;
  /** A strip for each consumable of a suit, or one for all four. */
  readonly margins: "all" | "least";
}

/** The line as it lies on the page, for hands and keys at the moment they need it: whoever holds this is not drawn anew with every move. */
export interface LineOnPage {
  /** What the lanes are drawn in. */
  readonly stage: RefObject<HTMLDivElement | null>;
  /** What stands there and its scale; null before the line is laid out for the first time. */
  readonly latest: RefObject<{ readonly layout: DayLayout; readonly scale: TimeScale } | null>;
}

/** A line that is not laid out yet. */
export function useLineOnPage(): LineOnPage {
  const stage = useRef<HTMLDivElement>(null);
  const latest = useRef<LineOnPage["latest"]["current"]>(null);
  return useMemo(() => ({ stage, latest }), []);
}

/** Lines between the parts, pixels. */
const LINES_PX = 4;

/** Lays the shown day out in the box of `board`, and again whenever day, window or room change; `latest` follows. */
export function useTheLine({ latest }: LineOnPage): TheLine {
  const plan = useSession(shownPlan);
  const schedule = useSession(shownSchedule);
  const verdict = useSession(shownVerdict);
  const tasks = useSession(shownTasks);
  const window = useView((state) => state.window);
  const board = useRef<HTMLElement>(null);
  const size = useSize(board);
  const crew = plan.crew.length;
  const sizes = useMemo(() => lineSizes(size.width, size.height, crew), [size.width, size.height, crew]);
  const widthPx = Math.max(120, size.width - sizes.gutterPx);
  const settled = useSession((state) => state.plan.schedule);
  const margins = useView((state) => state.margins) ?? "least";
  const rest =
    size.height -
    sizes.rulerPx -
    sizes.stayPx -
    LINES_PX -
    marginsPx(plan, margins, sizes) -
    remoteLanePx(plan, settled);
  const crewPx = Math.max(leastLanePx(crew), Math.floor(rest / Math.max(1, crew)));
  const layout = useMemo(
    () => layoutOf(plan, schedule, verdict, tasks, crewPx),
    [plan, schedule, verdict, tasks, crewPx],
  );
  const scale = useMemo(() => timeScale(window, widthPx), [window, widthPx]);
  useLayoutEffect(() => {
    latest.current = { layout, scale };
  });
  return { board, layout, scale, sizes, margins };
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
