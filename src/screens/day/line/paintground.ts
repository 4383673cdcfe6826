import { homeY, type Lane, outerY, REMOTE, type TimeScale } from "../../../editor/index.ts";
import type { Plan, Task } from "../../../plan/index.ts";
import { lasting } from "../../../words/index.ts";
import { type Brush, cut, facePx, setFace, setFont, textPx } from "../../parts/canvas/brush.ts";
import { inBy, shows, type DayLayout } from "./geometry.ts";
import { WINDOW_FACE, WINDOW_WORDS_PX, windowsShown } from "./windowwords.ts";

/** What lies behind the work: lanes, heights, EVA limits, sleep and meals. */
export function paintLaneGrounds(brush: Brush, layout: DayLayout, scale: TimeScale): void {
  const { ctx, palette } = brush;
  for (const lane of layout.lanes) {
    ctx.fillStyle = palette.paper;
    ctx.fillRect(0, lane.topPx, brush.widthPx, lane.heightPx);
  }
  paintEvaLimits(brush, layout, scale);
  paintStayBlocks(brush, layout, scale);
  for (const lane of layout.lanes) {
    if (lane.key !== REMOTE) paintHeights(brush, layout, lane, scale);
    // Between bands; inside one the line home lies between.
    const bottom = lane.topPx + lane.heightPx;
    ctx.fillStyle = palette["line-strong"];
    if (lane.mate === null || homeY(lane) !== bottom) ctx.fillRect(0, bottom - 1, brush.widthPx, 1);
  }
}

/** Where an EVA may be, on the lanes of its crew; where it must be over as the limit that it is. */
function paintEvaLimits(brush: Brush, layout: DayLayout, scale: TimeScale): void {
  const { ctx, palette } = brush;
  for (const eva of layout.plan.evas) {
    const span = { startS: eva.earliestEgressS, endS: eva.latestIngressS };
    if (!shows(scale, span)) continue;
    const x = scale.x(span.startS);
    const outing = layout.verdict.outings.find((one) => one.eva === eva.id);
    const width = scale.x(outing ? inBy(eva, outing.span) : span.endS) - x;
    for (const lane of layout.lanes) {
      if (lane.crew === null || !eva.crew.includes(lane.crew)) continue;
      ctx.fillStyle = palette.outing;
      ctx.fillRect(x, lane.topPx, width, lane.heightPx);
      ctx.fillStyle = palette["line-strong"];
      ctx.fillRect(x - 0.5, lane.topPx, 1, lane.heightPx);
      if (outing) ctx.fillStyle = palette.ceiling;
      ctx.fillRect(x + width - 0.75, lane.topPx, 1.5, lane.heightPx);
    }
  }
}

/** `Sleep, 7:00`. */
export function stayWords({ name, startS, endS }: StayBlock): string {
  return `${name}, ${lasting(endS - startS, "down")}`;
}

type StayBlock = Plan["stay"]["blocks"][number];

function paintStayBlocks(brush: Brush, layout: DayLayout, scale: TimeScale): void {
  for (const block of layout.plan.stay.blocks) {
    if (!shows(scale, block)) continue;
    for (const { crew, topPx, heightPx } of layout.lanes) {
      if (crew === null || (block.crew.length > 0 && !block.crew.includes(crew))) continue;
      paintStayBlock(brush, block, { topPx, heightPx, x: scale.x(block.startS), right: scale.x(block.endS) });
    }
  }
}

/** Sleep or a meal on one lane, with its name in the middle of what is in sight of it. */
function paintStayBlock(
  brush: Brush,
  block: StayBlock,
  {
    topPx,
    heightPx,
    x,
    right,
  }: Pick<Lane, "topPx" | "heightPx"> & { readonly x: number; readonly right: number },
): void {
  const { ctx, palette } = brush;
  const dark = block.kind === "sleep";
  const ground = dark ? palette.night : palette.meal;
  ctx.fillStyle = ground;
  ctx.fillRect(x, topPx, right - x, heightPx);
  ctx.fillStyle = brush.hatch(dark ? "night" : "meal");
  ctx.fillRect(x, topPx, right - x, heightPx);
  const from = Math.max(x, 0);
  const to = Math.min(right, brush.widthPx);
  setFont(ctx, 13, 560);
  const text = cut(ctx, stayWords(block), to - from - 8);
  if (text.length < Math.min(8, block.name.length)) return;
  const [middleX, middleY, wide] = [(from + to) / 2, topPx + heightPx / 2, textPx(ctx, text)];
  ctx.fillStyle = ground;
  ctx.fillRect(middleX - wide / 2 - 4, middleY - 10, wide + 8, 20);
  ctx.fillStyle = palette.ink;
  ctx.textAlign = "center";
  ctx.textBaseline = "middle";
  ctx.fillText(text, middleX, middleY);
}

/** Hairlines at every ten minutes of walk home. */
function paintHeights(brush: Brush, layout: DayLayout, lane: Lane, scale: TimeScale): void {
  const { ctx } = brush;
  // A tile of one dot: dashes are drawn dot by dot.
  ctx.fillStyle = brush.hatch("heights");
  const stepS = layout.relief.topS > 3600 ? 1800 : 600;
  for (let homeS = stepS; homeS < layout.relief.topS; homeS += stepS) {
    const y = Math.round(outerY(lane, layout.relief, homeS));
    ctx.translate(0, y);
    ctx.fillRect(0, 0, scale.widthPx, 1);
    ctx.translate(0, -y);
  }
}

/** Where the selected task or the one in hand may be: its own windows, or relay passes when it needs one. */
export function paintWindows(brush: Brush, plan: Plan, task: Task, lanesPx: number, scale: TimeScale): void {
  const { ctx, palette } = brush;
  for (const { left, right, text, widePx } of windowsShown(plan, task, scale, (words) =>
    facePx(ctx, WINDOW_FACE, words),
  )) {
    ctx.save();
    ctx.strokeStyle = palette.accent;
    ctx.lineWidth = 1.5;
    ctx.setLineDash([7, 4]);
    ctx.strokeRect(left, 1, right - left, lanesPx - 2);
    ctx.setLineDash([]);
    if (widePx > 0) {
      setFace(ctx, WINDOW_FACE);
      ctx.fillStyle = palette.accent;
      ctx.fillRect(left, 0, widePx, WINDOW_WORDS_PX);
      ctx.fillStyle = palette["on-accent"];
      ctx.textBaseline = "middle";
      ctx.textAlign = "left";
      ctx.fillText(text, left + 4, WINDOW_WORDS_PX / 2 + 0.5);
    }
    ctx.restore();
  }
}
