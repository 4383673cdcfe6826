import type { Finding, Verdict } from "../../../answers/index.ts";
import { type Lane, REMOTE, type TimeScale } from "../../../editor/index.ts";
import { remembered } from "../../../kernel/index.ts";
import type { Brush } from "../../parts/canvas/brush.ts";
import type { DayLayout } from "./geometry.ts";
import { shows } from "./geometry.ts";
import { stateMark } from "./paintblocks.ts";

/** The worst that is found about each task: breach before tight. */
export const taskStates = remembered((verdict: Verdict): ReadonlyMap<string, "breach" | "tight"> => {
  const states = new Map<string, "breach" | "tight">();
  for (const finding of verdict.findings) {
    if (finding.level === "open") continue;
    for (const subject of finding.subjects) {
      if (subject.kind !== "task") continue;
      if (finding.level === "breach" || !states.has(subject.id)) states.set(subject.id, finding.level);
    }
  }
  return states;
});

/** The lanes a finding is about: its crew members', else those of its tasks, else of its EVAs. Worked out once a verdict. */
export function findingLanes(layout: DayLayout, finding: Finding): readonly string[] {
  return lanesOf(layout.verdict)(finding, layout);
}

const lanesOf = remembered<Verdict, [], (finding: Finding, layout: DayLayout) => readonly string[]>(() =>
  remembered((finding: Finding, layout: DayLayout) => lanesAbout(layout, finding)),
);

function lanesAbout({ plan, schedule }: DayLayout, finding: Finding): readonly string[] {
  const ids = (kind: string): readonly string[] =>
    finding.subjects.filter((subject) => subject.kind === kind).map((subject) => subject.id);
  const crew = ids("crew");
  if (crew.length > 0) return crew;
  const tasks = ids("task");
  if (tasks.length > 0) {
    const placements = schedule.placements.filter((placement) => tasks.includes(placement.task));
    return [
      ...new Set(
        placements.flatMap((placement) => (placement.crew.length === 0 ? [REMOTE] : placement.crew)),
      ),
    ];
  }
  const evas = ids("eva");
  if (evas.length > 0) {
    return [...new Set(plan.evas.filter((eva) => evas.includes(eva.id)).flatMap((eva) => eva.crew))];
  }
  return plan.crew.map((member) => member.id);
}

/** How far from the edge of the lane a finding's bar runs, and the middle of its mark stands, pixels. */
const BAR_PX = 4;
/** A breach runs stronger than what is tight. */
const THICK_PX = { breach: 2.5, tight: 1.5 } as const;
export const MARK_PX = 8;

/** Findings where they happen: a bar along the far edge of the lane for as long as it holds, with its mark at the begin. */
export function paintFindings(
  brush: Brush,
  layout: DayLayout,
  scale: TimeScale,
  chosen: Finding | null,
): void {
  const { ctx, palette } = brush;
  const inOrder = layout.verdict.findings.toSorted((a, b) =>
    a.level === b.level ? 0 : a.level === "breach" ? 1 : -1,
  );
  for (const finding of inOrder) {
    const { span, level } = finding;
    if (!span || level === "open" || !shows(scale, span)) continue;
    for (const key of findingLanes(layout, finding)) {
      const lane = layout.lanes.find((one) => one.key === key);
      if (!lane) continue;
      const up = lane.sense === "up" && lane.key !== REMOTE;
      const inset = (px: number): number => (up ? lane.topPx + px : lane.topPx + lane.heightPx - px);
      const x = scale.x(span.startS);
      const right = Math.max(x + 3, scale.x(span.endS));
      ctx.fillStyle = palette[level];
      ctx.fillRect(x, inset(BAR_PX) - THICK_PX[level] / 2, right - x, THICK_PX[level]);
      stateMark(brush, level, Math.max(MARK_PX, x), inset(MARK_PX));
      if (finding === chosen) paintFrame(brush, lane, x - 3, right + 3);
    }
  }
}

function paintFrame({ ctx, palette }: Brush, lane: Lane, leftPx: number, rightPx: number): void {
  ctx.strokeStyle = palette.accent;
  ctx.lineWidth = 3;
  ctx.beginPath();
  for (const [x, y] of findingFrame(lane, leftPx, rightPx)) ctx.lineTo(x, y);
  ctx.stroke();
}

/**
 * The corners of the frame about a stretch of a lane, in the order in which they are joined, pixels. It is open to the line home: names
 * of what two do together stand on that line, and an edge would go through them. Work by command has its frame all round.
 */
export function findingFrame(
  { key, sense, topPx, heightPx }: Pick<Lane, "key" | "sense" | "topPx" | "heightPx">,
  leftPx: number,
  rightPx: number,
): readonly (readonly [x: number, y: number])[] {
  const [top, bottom] = [topPx + 2, topPx + heightPx - 3];
  const isUp = sense === "up" && key !== REMOTE;
  const [home, far] = isUp ? [topPx + heightPx, top] : [topPx, bottom];
  if (key === REMOTE)
    return [
      [leftPx, top],
      [leftPx, bottom],
      [rightPx, bottom],
      [rightPx, top],
      [leftPx, top],
    ];
  return [
    [leftPx, home],
    [leftPx, far],
    [rightPx, far],
    [rightPx, home],
  ];
}
