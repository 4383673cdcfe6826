import { useMemo, useRef } from "react";
import { metTicks, timeScale } from "../../editor/index.ts";
import { type Placement, type Plan, type Schedule, tasksById } from "../../plan/index.ts";
import { crewName } from "../../words/index.ts";
import { tickLabel } from "../parts/ticklabel.ts";
import { useWidth } from "../width.ts";
import type { Compared } from "./days.ts";
import { differencesOf } from "./differences.ts";

const LANE_PX = 16;
const GAP_PX = 56;
const AXIS_PX = 18;
const NAMES_PX = 44;

/**
 * Two days on one axis, the day as it stands above and the variant below; a thread leads from where a task was to where
 * it is. Dropped tasks end in a cross, added ones begin in a ring. The list below says the same in words.
 */
export function Weave({ from, to }: { readonly from: Compared; readonly to: Compared }) {
  const ref = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(ref);
  return (
    <div ref={ref} className="variants-weave">
      {widthPx > 0 && <Picture from={from} to={to} widthPx={widthPx} />}
    </div>
  );
}

function Picture(props: { readonly from: Compared; readonly to: Compared; readonly widthPx: number }) {
  const { from, to, widthPx } = props;
  const { plan } = to;
  const scale = useMemo(
    () => timeScale(spanOf(from, to), Math.max(1, widthPx - NAMES_PX - 8)),
    [from, to, widthPx],
  );
  const x = (atS: number): number => NAMES_PX + scale.x(atS);
  const lanes = plan.crew.length;
  const topPx = AXIS_PX;
  const gapPx = topPx + lanes * LANE_PX;
  const lowPx = gapPx + GAP_PX;
  const heightPx = lowPx + lanes * LANE_PX + 2;
  const differences = differencesOf(plan, from.schedule, to.schedule);
  const differs = new Set(differences.map((one) => one.task));
  const middle = (of: Plan, task: string, placement: Placement | null): number | null =>
    placement === null
      ? null
      : x(placement.startS + (of.tasks.find((one) => one.id === task)?.duration.likelyS ?? 0) / 2);

  return (
    <svg width={widthPx} height={heightPx} aria-hidden="true">
      {metTicks(scale, 70).map((tick) => (
        <g key={tick.atS}>
          <line x1={x(tick.atS)} x2={x(tick.atS)} y1={AXIS_PX - 4} y2={heightPx} className="weave-tick" />
          <text {...tickLabel(x(tick.atS), widthPx)} y={AXIS_PX - 6}>
            {tick.label}
          </text>
        </g>
      ))}
      {[topPx, lowPx].flatMap((top) =>
        plan.crew.map((member, i) => (
          <text key={`${top} ${member.id}`} x={0} y={top + i * LANE_PX + 12}>
            {shortName(crewName(plan, member.id))}
          </text>
        )),
      )}
      <Blocks day={from} x={x} topPx={topPx} differs={differs} />
      <Blocks day={to} x={x} topPx={lowPx} differs={differs} />
      {differences.map(({ task, from: was, to: is }) => (
        <Thread
          key={task}
          fromX={middle(from.plan, task, was)}
          toX={middle(plan, task, is)}
          gapPx={gapPx}
          lowPx={lowPx}
        />
      ))}
    </svg>
  );
}

/** From where a task was to where it is, between the lanes above and those below; null where it is not there. */
function Thread(props: {
  readonly fromX: number | null;
  readonly toX: number | null;
  readonly gapPx: number;
  readonly lowPx: number;
}) {
  const { fromX, toX, gapPx, lowPx } = props;
  if (fromX !== null && toX !== null)
    return (
      <path
        className="variants-thread"
        d={`M${fromX} ${gapPx} V${gapPx + 8} L${toX} ${lowPx - 8} V${lowPx}`}
      />
    );
  const end = GAP_PX * 0.34;
  if (fromX !== null)
    return (
      <path
        className="variants-thread dropped"
        d={`M${fromX} ${gapPx} v${end} m-5 -5 l10 10 m0 -10 l-10 10`}
      />
    );
  return toX === null ? null : (
    <g className="variants-thread added">
      <path d={`M${toX} ${lowPx} v${-end}`} />
      <circle cx={toX} cy={lowPx - end - 5} r={5} />
    </g>
  );
}

/** As much of a name as stands beside a lane; the list below has it whole. */
function shortName(name: string): string {
  return name.length > 8 ? `${name.slice(0, 6)}…` : name;
}

function Blocks(props: {
  readonly day: { readonly plan: Plan; readonly schedule: Schedule };
  readonly x: (atS: number) => number;
  readonly topPx: number;
  readonly differs: ReadonlySet<string>;
}) {
  const { day, x, topPx, differs } = props;
  const { plan, schedule } = day;
  const tasks = tasksById(plan);
  return schedule.placements.flatMap((placement) => {
    const task = tasks.get(placement.task);
    if (!task) return [];
    const left = x(placement.startS);
    const width = Math.max(2, x(placement.startS + task.duration.likelyS) - left - 1);
    return placement.crew.map((member) => (
      <rect
        key={`${task.id} ${member}`}
        x={left}
        y={topPx + plan.crew.findIndex((one) => one.id === member) * LANE_PX + 1}
        width={width}
        height={LANE_PX - 3}
        className={differs.has(task.id) ? `weave-block ${task.kind} differs` : `weave-block ${task.kind}`}
      />
    ));
  });
}

/** From the first start to the last end of both days, with a little air. */
function spanOf(...days: readonly Compared[]): { readonly startS: number; readonly endS: number } {
  const starts = days.flatMap(({ schedule, verdict }) => [
    ...schedule.placements.map((one): number => one.startS),
    ...verdict.outings.map((one): number => one.span.startS),
  ]);
  const ends = days.map(({ verdict }) => verdict.score.finishS);
  const startS = starts.length === 0 ? 0 : Math.min(...starts);
  const endS = Math.max(...ends, startS + 3600);
  const air = (endS - startS) * 0.015;
  return { startS: startS - air, endS: endS + air };
}
