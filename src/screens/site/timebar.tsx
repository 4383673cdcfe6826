import { useCallback, useRef } from "react";
import type { SiteCourse, SiteLeg } from "../../answers/index.ts";
import { afootAt } from "../../editor/map/index.ts";
import { timeScale } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import { crewName, evaName, placeName, touchdownMs, utcDay } from "../../words/index.ts";
import { useAround, useDesk, useLook } from "../context.ts";
import { type Brush, cut, setFont } from "../parts/canvas/brush.ts";
import { Canvas } from "../parts/canvas/canvas.tsx";
import { useSite, useSiteLook } from "./around.ts";
import type { SiteCommands } from "./commands.ts";
import { crewStyle } from "./crewstyle.ts";
import { ALL_EVAS } from "./sitelook.ts";

const ROW_PX = 16;
/** A name is never cut shorter than this: it stands over the first work then. */
const LEAST_NAME_PX = 28;
const MINUTE_S = 60;

/** The minute: a slider under the day of each crew member, buttons for small steps, and which EVA's ways are shown. */
export function TimeBar(props: {
  readonly plan: Plan;
  readonly courses: readonly SiteCourse[];
  readonly minuteS: number;
  readonly widthPx: number;
  readonly time: (atS: number) => string;
  readonly commands: SiteCommands;
}) {
  const { plan, courses, minuteS, widthPx, time, commands } = props;
  const { desk, look } = useAround();
  const { siteLook } = useSite();
  const shownEva = useSiteLook((state) => state.eva);
  const selection = useDesk((state) => state.selection);
  const clock = useLook((state) => state.clock);
  const strip = useRef<HTMLDivElement>(null);
  const lengthS = plan.stay.lengthS;
  const heightPx = ROW_PX * Math.max(1, plan.crew.length) + 2;
  const set = (atS: number): void => {
    const whole = Math.min(lengthS, Math.max(0, Math.round(atS / MINUTE_S) * MINUTE_S));
    look.setState({ cursorS: whole, minuteS: whole });
  };
  const paint = useCallback(
    (brush: Brush) => {
      const scale = timeScale({ startS: 0, endS: lengthS }, brush.widthPx);
      paintStrip(brush, plan, courses, selection, (atS) => scale.x(atS), minuteS);
    },
    [plan, courses, selection, lengthS, minuteS],
  );
  const under = (event: React.PointerEvent): { atS: number; leg: SiteLeg | null } => {
    const box = strip.current!.getBoundingClientRect();
    const atS = ((event.clientX - box.left) / box.width) * lengthS;
    const member = plan.crew[Math.floor((event.clientY - box.top) / ROW_PX)];
    const own = courses.filter((one) => one.crew === member?.id);
    return {
      atS,
      leg: own.map((one) => afootAt(one.legs, atS)?.leg).find((leg) => leg !== undefined) ?? null,
    };
  };
  const touchdown = touchdownMs(plan);
  const where = plan.crew.map((member) => `${member.name} ${whereWords(plan, courses, member.id, minuteS)}`);
  const outs = [...new Set(courses.map((one) => one.eva))];

  return (
    <section className="site-time" aria-label="Minute">
      <div className="site-time-row">
        <div className="pair" role="group" aria-label="Move the minute">
          {[-10, -1, 1, 10].map((by) => (
            <button
              key={by}
              type="button"
              aria-label={`${Math.abs(by)} min ${by < 0 ? "earlier" : "later"}`}
              onClick={() => commands.minutes(by)}
            >
              {by < 0 ? "−" : "+"}
              {Math.abs(by)}
            </button>
          ))}
        </div>
        <p className="site-minute">
          <b>{time(minuteS)}</b>{" "}
          {clock === "utc" && touchdown !== null ? `UTC, ${utcDay(touchdown, minuteS)}` : "MET"}
        </p>
        <p className="site-where" aria-live="off">
          {where.join("; ")}
        </p>
        <div className="pair" role="group" aria-label="Ways of">
          {outs.map((eva) => (
            <button
              key={eva}
              type="button"
              title={evaName(plan, eva)}
              aria-pressed={shownEva === eva}
              onClick={() => {
                siteLook.setState({ eva: shownEva === eva ? null : eva });
                const spans = courses.filter((one) => one.eva === eva).map(({ legs }) => legs);
                const startS = Math.min(...spans.map((legs) => legs[0]?.startS ?? Infinity));
                const endS = Math.max(...spans.map((legs) => legs.at(-1)?.endS ?? -Infinity));
                if (shownEva !== eva && Number.isFinite(startS) && (minuteS < startS || minuteS > endS))
                  set(startS);
              }}
            >
              {evaName(plan, eva)}
            </button>
          ))}
          <button
            type="button"
            aria-pressed={shownEva === ALL_EVAS}
            onClick={() => siteLook.setState({ eva: shownEva === ALL_EVAS ? null : ALL_EVAS })}
          >
            All EVAs
          </button>
        </div>
      </div>
      <div
        ref={strip}
        className="site-strip"
        style={{ height: heightPx }}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          const { atS, leg } = under(event);
          set(atS);
          if (leg?.task) desk.select([leg.task]);
        }}
        onPointerMove={(event) => {
          if (event.buttons === 1) set(under(event).atS);
        }}
      >
        <Canvas widthPx={widthPx} heightPx={heightPx} paint={paint} />
      </div>
      <input
        type="range"
        aria-label="Minute of the stay"
        aria-valuetext={`${time(minuteS)}; ${where.join("; ")}`}
        min={0}
        max={lengthS}
        step={MINUTE_S}
        value={minuteS}
        onChange={(event) => set(Number(event.target.value))}
      />
    </section>
  );
}

/** `at Pebble Row, Core`, `on the way to Pebble Row`, `inside`. */
function whereWords(plan: Plan, courses: readonly SiteCourse[], crew: string, atS: number): string {
  for (const course of courses) {
    if (course.crew !== crew) continue;
    const at = afootAt(course.legs, atS);
    if (!at) continue;
    const { leg } = at;
    if (leg.kind === "traverse") return `on the way to ${placeName(plan, leg.toPlace)}`;
    const task = plan.tasks.find((one) => one.id === leg.task)?.name;
    if (leg.fromPlace !== leg.toPlace)
      return `${task ?? "walking"}, ${placeName(plan, leg.fromPlace)} to ${placeName(plan, leg.toPlace)}`;
    const doing = task ?? { egress: "egress", ingress: "ingress", wait: "waiting", task: "" }[leg.kind];
    return `at ${placeName(plan, leg.fromPlace)}, ${doing}`;
  }
  return "inside";
}

function paintStrip(
  { ctx, palette, heightPx, widthPx, hatch }: Brush,
  plan: Plan,
  courses: readonly SiteCourse[],
  selection: readonly string[],
  x: (atS: number) => number,
  minuteS: number,
): void {
  const kinds = new Map(plan.tasks.map((task) => [task.id, task.kind]));
  for (const { crew, legs } of courses) {
    const row = plan.crew.findIndex((one) => one.id === crew);
    const top = row * ROW_PX + 1;
    for (const leg of legs) {
      const left = x(leg.startS);
      const width = Math.max(1, x(leg.endS) - left);
      const kind = leg.task === null ? undefined : kinds.get(leg.task);
      if (kind) {
        ctx.fillStyle = palette[kind];
        ctx.fillRect(left, top, width, ROW_PX - 3);
        ctx.fillStyle = hatch(kind);
        ctx.fillRect(left, top, width, ROW_PX - 3);
        const chosen = selection.includes(leg.task!);
        ctx.strokeStyle = chosen ? palette.accent : palette["line-strong"];
        ctx.lineWidth = chosen ? 3 : 1;
        ctx.strokeRect(left + 0.5, top + 0.5, width - 1, ROW_PX - 4);
      } else if (leg.kind === "traverse") {
        ctx.fillStyle = palette[crewStyle(plan, crew).colour];
        ctx.fillRect(left, top + ROW_PX / 2 - 3, width, 3);
      } else {
        ctx.fillStyle = palette["line-strong"];
        ctx.fillRect(left, top + 4, width, ROW_PX - 11);
      }
    }
  }
  setFont(ctx, 11, 640);
  ctx.textBaseline = "middle";
  ctx.textAlign = "left";
  plan.crew.forEach((member, row) => {
    const first = courses.find(({ crew }) => crew === member.id)?.legs[0];
    const roomPx = Math.max(LEAST_NAME_PX, first ? x(first.startS) - 6 : widthPx);
    ctx.fillStyle = palette.ink;
    ctx.fillText(cut(ctx, crewName(plan, member.id), roomPx), 2, row * ROW_PX + ROW_PX / 2);
  });
  ctx.fillStyle = palette.ink;
  ctx.fillRect(Math.min(widthPx - 2, x(minuteS)) - 0.75, 0, 1.5, heightPx);
}
