import { useMemo, useRef } from "react";
import { metTicks, timeScale, type TimeScale } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { Rehearsed, ProjectedPlacement } from "../../session/index.ts";
import { briefly, clock, numberedTask, taskNumber } from "../../words/index.ts";
import { useWidth } from "../width.ts";
import { useRehearsed } from "./context.ts";
import { stripText } from "./striptext.ts";
import { stripWindow } from "./stripwindow.ts";

const AXIS_PX = 24;
const PLANNED_PX = 9;
const ROW_PX = 30;
const LANE_PX = PLANNED_PX + ROW_PX + 12;
const NAME_PX = 64;
/** Half of what the time at a tick takes: nearer to the end it would be cut. */
const TICK_PX = 20;
/** Letters of a name that it has room for. */
const NAME_LETTERS = 6;

/**
 * The day as planned over the day as it goes, one lane a crew member: thin above what was planned, below it what is done (solid), under
 * way (framed) and to come (hatched), with the clock as a line. It shows the EVA under way, or else the next one, with those that are out at the same time.
 */
export function Strips() {
  const day = useRehearsed();
  const box = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(box);
  const { plan, standing } = day;
  const window = useMemo(() => stripWindow(day), [day]);
  const scale = useMemo(() => timeScale(window, Math.max(1, widthPx - NAME_PX)), [window, widthPx]);
  const heightPx = AXIS_PX + plan.crew.length * LANE_PX;
  const nowPx = NAME_PX + scale.x(standing.nowS);
  return (
    <div className="rehearsal-strips">
      {/* Measured without the room about it: drawn wider, the end of the day would be cut. */}
      <div ref={box} />
      <svg
        width={widthPx}
        height={heightPx}
        role="img"
        aria-label="Planned above, rehearsed below, for each crew member"
      >
        <Hatching />
        {metTicks(scale, 70).map((tick) => (
          <g key={tick.atS} transform={`translate(${NAME_PX + scale.x(tick.atS)} 0)`}>
            <line y1={AXIS_PX - 6} y2={heightPx} className="strip-tick" />
            {scale.x(tick.atS) < scale.widthPx - TICK_PX && (
              <text y={AXIS_PX - 9} textAnchor="middle">
                {tick.label}
              </text>
            )}
          </g>
        ))}
        {plan.crew.map((member, i) => (
          <Lane
            key={member.id}
            day={day}
            member={member.id}
            name={member.name}
            scale={scale}
            top={AXIS_PX + i * LANE_PX}
          />
        ))}
        {nowPx >= NAME_PX && nowPx <= widthPx && (
          <g transform={`translate(${nowPx} 0)`}>
            <line y1={AXIS_PX - 6} y2={heightPx} className="strip-now" />
          </g>
        )}
      </svg>
      <p className="note rehearsal-signs">
        Thin above: planned. Below: <b className="rehearsal-sign done" /> done,{" "}
        <b className="rehearsal-sign doing" /> under way, <b className="rehearsal-sign ahead" /> to come.
        Line: now, {clock(standing.nowS)}.
      </p>
    </div>
  );
}

function Lane(props: {
  readonly day: Rehearsed;
  readonly member: string;
  readonly name: string;
  readonly scale: TimeScale;
  readonly top: number;
}) {
  const { day, member, name, scale, top } = props;
  const { plan, standing } = day;
  const planned = plan.schedule.placements.filter((placement) => placement.crew.includes(member));
  const own = standing.placements.filter((placement) => placement.crew.includes(member));
  const lengthS = (id: string): number => plan.tasks.find((task) => task.id === id)?.duration.likelyS ?? 0;
  return (
    <g transform={`translate(0 ${top})`}>
      <text x={4} y={PLANNED_PX + ROW_PX / 2 + 9} className="strip-name">
        {briefly(name, NAME_LETTERS)}
      </text>
      <line
        x1={NAME_PX}
        x2={NAME_PX + scale.widthPx}
        y1={LANE_PX - 1}
        y2={LANE_PX - 1}
        className="strip-rule"
      />
      {planned.map((placement) => (
        <Bar
          key={placement.task}
          className="strip-planned"
          scale={scale}
          startS={placement.startS}
          endS={placement.startS + lengthS(placement.task)}
          y={2}
          heightPx={PLANNED_PX}
        />
      ))}
      {own.map((placement) => (
        <Went key={placement.task} plan={plan} placement={placement} scale={scale} nowS={standing.nowS} />
      ))}
    </g>
  );
}

const STATE_CLASS = { done: "strip-done", "under way": "strip-doing", "to come": "strip-ahead" } as const;

function Went(props: {
  readonly plan: Plan;
  readonly placement: ProjectedPlacement;
  readonly scale: TimeScale;
  readonly nowS: number;
}) {
  const { plan, placement, scale, nowS } = props;
  const task = plan.tasks.find((one) => one.id === placement.task);
  if (!task) return null;
  const x = clipped(scale, placement.startS);
  const widthPx = clipped(scale, placement.endS) - x;
  if (widthPx <= 0) return null;
  const written = stripText(
    [numberedTask(plan, task.id), taskNumber(plan, task.id)],
    x,
    widthPx,
    scale.x(nowS),
  );
  return (
    <g>
      <Bar
        className={STATE_CLASS[placement.state]}
        scale={scale}
        startS={placement.startS}
        endS={placement.endS}
        y={PLANNED_PX + 5}
        heightPx={ROW_PX}
      >
        <title>{`${numberedTask(plan, task.id)}, ${placement.state}, ${clock(placement.startS)} to ${clock(placement.endS)}`}</title>
      </Bar>
      {written && (
        <text
          x={NAME_PX + written.x}
          y={PLANNED_PX + ROW_PX / 2 + 9}
          className="strip-text"
          aria-hidden="true"
        >
          {written.text}
        </text>
      )}
    </g>
  );
}

function Bar(props: {
  readonly className: string;
  readonly scale: TimeScale;
  readonly startS: number;
  readonly endS: number;
  readonly y: number;
  readonly heightPx: number;
  readonly children?: React.ReactNode;
}) {
  const x = clipped(props.scale, props.startS);
  const widthPx = clipped(props.scale, props.endS) - x;
  if (widthPx <= 0) return null;
  return (
    <rect
      className={props.className}
      x={NAME_PX + x}
      y={props.y}
      width={Math.max(2, widthPx - 1)}
      height={props.heightPx}
    >
      {props.children}
    </rect>
  );
}

function clipped(scale: TimeScale, atS: number): number {
  return Math.min(scale.widthPx, Math.max(0, scale.x(atS)));
}

function Hatching() {
  return (
    <defs>
      <pattern id="strip-ahead" width="6" height="6" patternUnits="userSpaceOnUse">
        <path d="M-1 7 L7 -1 M-1 1 L1 -1 M5 7 L7 5" className="strip-hatch" />
      </pattern>
    </defs>
  );
}
