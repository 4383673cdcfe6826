import { REMOTE, type TimeScale } from "../../dayline/index.ts";
import type { Finding, Verdict } from "../../store/index.ts";
import type { Brush } from "./brush.ts";
import type { Standing } from "./geometry.ts";
import { shows } from "./geometry.ts";
import { stateMark } from "./paintblocks.ts";

/** The worst that is found about each task: breach before tight. */
export function taskStates(verdict: Verdict): ReadonlyMap<string, "breach" | "tight"> {
  const states = new Map<string, "breach" | "tight">();
  for (const finding of verdict.findings) {
    if (finding.level === "open") continue;
    for (const subject of finding.subjects) {
      if (subject.kind !== "task") continue;
      if (finding.level === "breach" || !states.has(subject.id)) states.set(subject.id, finding.level);
    }
  }
  return states;
}

/** The lanes a finding is about: its crew members', else those of its tasks, else of its EVAs. */
export function findingLanes(standing: Standing, finding: Finding): readonly string[] {
  const ids = (kind: string): readonly string[] =>
    finding.subjects.filter((subject) => subject.kind === kind).map((subject) => subject.id);
  const crew = ids("crew");
  if (crew.length > 0) return crew;
  const tasks = new Set(ids("task"));
  if (tasks.size > 0) {
    const lanes = standing.blocks.filter((block) => tasks.has(block.task)).map((block) => block.lane);
    return [...new Set(lanes)];
  }
  const evas = ids("eva");
  if (evas.length > 0) {
    return [...new Set(standing.plan.evas.filter((eva) => evas.includes(eva.id)).flatMap((eva) => eva.crew))];
  }
  return standing.lanes.filter((lane) => lane.key !== REMOTE).map((lane) => lane.key);
}

/** Findings where they happen: a bar along the foot of the lane for as long as it holds, with its mark at the begin. */
export function paintFindings(
  brush: Brush,
  standing: Standing,
  scale: TimeScale,
  chosen: Finding | null,
): void {
  const { ctx, palette } = brush;
  const inOrder = standing.verdict.findings.toSorted((a, b) =>
    a.level === b.level ? 0 : a.level === "breach" ? 1 : -1,
  );
  for (const finding of inOrder) {
    const { span, level } = finding;
    if (!span || level === "open" || !shows(scale, span)) continue;
    for (const key of findingLanes(standing, finding)) {
      const lane = standing.lanes.find((one) => one.key === key);
      if (!lane) continue;
      const y = lane.topPx + lane.heightPx - 8;
      const x = scale.x(span.startS);
      const right = Math.max(x + 3, scale.x(span.endS));
      ctx.fillStyle = palette[level];
      ctx.fillRect(x, y - 1.5, right - x, 3);
      stateMark(brush, level, Math.max(8, x), y);
      if (finding === chosen) {
        ctx.strokeStyle = palette.accent;
        ctx.lineWidth = 3;
        ctx.strokeRect(x - 3, lane.topPx + 2, right - x + 6, lane.heightPx - 5);
      }
    }
  }
}
