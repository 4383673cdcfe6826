import type { SiteCourse, SiteLeg } from "../../answers/index.ts";
import { type Plan, type Task, tasksById } from "../../plan/index.ts";
import { crewName } from "../../words/index.ts";
import { type Brush, cut, setFont } from "../parts/canvas/brush.ts";
import { crewStyle } from "./crewstyle.ts";

/** The strip under the map: a row for each crew member, with what he does and where he walks. */

/** Height of a crew member's row, CSS pixels. */
export const ROW_PX = 16;
/** A name is never cut shorter than this: it stands over the first work then. */
const LEAST_NAME_PX = 28;

/** What the strip is drawn from. */
export interface Strip {
  readonly plan: Plan;
  readonly courses: readonly SiteCourse[];
  readonly selection: readonly string[];
  readonly minuteS: number;
  /** Where a moment lies, pixels. */
  readonly x: (atS: number) => number;
}

export function paintStrip(brush: Brush, strip: Strip): void {
  const { plan, courses, minuteS, x } = strip;
  const { ctx, palette, heightPx, widthPx } = brush;
  const tasks = tasksById(plan);
  for (const { crew, legs } of courses) {
    const top = plan.crew.findIndex((one) => one.id === crew) * ROW_PX + 1;
    for (const leg of legs) {
      const task = leg.task === null ? undefined : tasks.get(leg.task);
      if (task) paintWork(brush, strip, leg, task, top);
      else paintWay(brush, strip, leg, crew, top);
    }
  }
  paintNames(brush, strip);
  ctx.fillStyle = palette.ink;
  ctx.fillRect(Math.min(widthPx - 2, x(minuteS)) - 0.75, 0, 1.5, heightPx);
}

/** Work as a block of its kind. */
function paintWork(brush: Brush, { selection, x }: Strip, leg: SiteLeg, task: Task, top: number): void {
  const { ctx, palette, hatch } = brush;
  const left = x(leg.startS);
  const width = Math.max(1, x(leg.endS) - left);
  ctx.fillStyle = palette[task.kind];
  ctx.fillRect(left, top, width, ROW_PX - 3);
  ctx.fillStyle = hatch(task.kind);
  ctx.fillRect(left, top, width, ROW_PX - 3);
  const chosen = selection.includes(task.id);
  ctx.strokeStyle = chosen ? palette.accent : palette["line-strong"];
  ctx.lineWidth = chosen ? 3 : 1;
  ctx.strokeRect(left + 0.5, top + 0.5, width - 1, ROW_PX - 4);
}

/** A walk as a line in the crew member's colour; egress, ingress and waits as a thin bar. */
function paintWay(brush: Brush, { plan, x }: Strip, leg: SiteLeg, crew: string, top: number): void {
  const { ctx, palette } = brush;
  const left = x(leg.startS);
  const width = Math.max(1, x(leg.endS) - left);
  if (leg.kind === "traverse") {
    ctx.fillStyle = palette[crewStyle(plan, crew).colour];
    ctx.fillRect(left, top + ROW_PX / 2 - 3, width, 3);
  } else {
    ctx.fillStyle = palette["line-strong"];
    ctx.fillRect(left, top + 4, width, ROW_PX - 11);
  }
}

/** Each crew member's name in the room before his first work. */
function paintNames({ ctx, palette, widthPx }: Brush, { plan, courses, x }: Strip): void {
  setFont(ctx, 11, 640);
  ctx.textBaseline = "middle";
  ctx.textAlign = "left";
  plan.crew.forEach((member, row) => {
    const first = courses.find(({ crew }) => crew === member.id)?.legs[0];
    const roomPx = Math.max(LEAST_NAME_PX, first ? x(first.startS) - 6 : widthPx);
    ctx.fillStyle = palette.ink;
    ctx.fillText(cut(ctx, crewName(plan, member.id), roomPx), 2, row * ROW_PX + ROW_PX / 2);
  });
}
