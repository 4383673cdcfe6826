import type { ReachTrack } from "../../../answers/index.ts";
import { type Between, type Lane, reliefY, slabOf, type TimeScale } from "../../../editor/index.ts";
import { lasting } from "../../../words/index.ts";
import { type Brush, setFont, textPx, traceSlab } from "./brush.ts";
import { shows, type Standing } from "./geometry.ts";

/** The ground a crew member walks over: below the ribbon of work, as high as the walk home is long. */
export function paintGround(
  brush: Brush,
  standing: Standing,
  lane: Lane,
  track: ReachTrack,
  scale: TimeScale,
): void {
  const { ctx, palette } = brush;
  const { relief } = standing;
  const first = track.points[0];
  const last = track.points.at(-1);
  if (!first || !last) return;
  const bottom = lane.topPx + lane.heightPx - relief.footPx;
  ctx.beginPath();
  ctx.moveTo(scale.x(first.atS), bottom);
  for (const point of track.points) {
    ctx.lineTo(scale.x(point.atS), reliefY(lane, relief, point.value) + relief.thickPx);
  }
  ctx.lineTo(scale.x(last.atS), bottom);
  ctx.closePath();
  ctx.fillStyle = palette.sunk;
  ctx.fill();
}

/** The longest walk home that the suit still carries: a ceiling over the ribbon, hatched above. */
export function paintCeiling(
  brush: Brush,
  standing: Standing,
  lane: Lane,
  track: ReachTrack,
  scale: TimeScale,
): void {
  const { ctx, palette } = brush;
  const points = track.allowed.map((point) => ({
    x: scale.x(point.atS),
    y: reliefY(lane, standing.relief, point.value),
  }));
  const first = points[0];
  const last = points.at(-1);
  if (!first || !last) return;
  ctx.save();
  ctx.beginPath();
  ctx.moveTo(first.x, lane.topPx + 1);
  for (const point of points) ctx.lineTo(point.x, point.y);
  ctx.lineTo(last.x, lane.topPx + 1);
  ctx.closePath();
  ctx.globalAlpha = 0.4;
  ctx.fillStyle = brush.hatch("ceiling");
  ctx.fill();
  ctx.globalAlpha = 1;
  ctx.beginPath();
  points.forEach((point, i) => (i === 0 ? ctx.moveTo(point.x, point.y) : ctx.lineTo(point.x, point.y)));
  ctx.strokeStyle = palette.ceiling;
  ctx.lineWidth = 1.6;
  ctx.stroke();
  ctx.restore();
}

/** Ways, waits and the work at both ends of an outing. */
export function paintBetween(brush: Brush, standing: Standing, between: Between, scale: TimeScale): void {
  if (!shows(scale, between)) return;
  const lane = standing.lanes.find((one) => one.key === between.lane);
  if (!lane) return;
  const { ctx, palette } = brush;
  const slab = slabOf(between, lane, standing.relief, scale);
  const right = scale.x(between.endS);
  const exact = { ...slab, right };
  const width = right - slab.left;
  const lengthS = between.endS - between.startS;
  ctx.save();
  if (between.kind === "wait") {
    // Nothing is done: only the foot of the ribbon goes on.
    const y = slab.topLeft + slab.thick;
    ctx.beginPath();
    ctx.moveTo(slab.left, y - 1);
    ctx.lineTo(right, y - 1);
    ctx.lineWidth = 2;
    ctx.setLineDash([2, 4]);
    ctx.strokeStyle = palette["line-strong"];
    ctx.stroke();
    const { rest } = between;
    // A rest ends where the wait ends; what comes before it is free.
    const freePx = rest ? scale.x(rest.startS) - slab.left : width;
    const freeS = rest ? rest.startS - between.startS : lengthS;
    if (freeS > 0)
      label(brush, freePx, `wait ${lasting(freeS, "up")}`, slab.left + freePx / 2, y - 11, false);
    if (rest) paintRest(brush, { left: slab.left + freePx, right: scale.x(rest.endS), y }, rest);
  } else {
    traceSlab(ctx, exact);
    ctx.fillStyle = between.kind === "traverse" ? palette.outing : palette.raised;
    ctx.fill();
    if (between.kind === "traverse") {
      ctx.fillStyle = brush.hatch("traverse");
      ctx.fill();
    }
    traceSlab(ctx, exact, -0.5);
    ctx.lineWidth = 1;
    ctx.strokeStyle = between.kind === "traverse" ? palette.traverse : palette.ink;
    ctx.stroke();
    const y = (slab.topLeft + slab.topRight) / 2 + slab.thick / 2;
    const minutes = Math.ceil(lengthS / 60);
    const word =
      between.kind === "traverse" ? `${minutes}\u202fmin` : between.kind === "egress" ? "Egress" : "Ingress";
    const short = between.kind === "traverse" ? String(minutes) : between.kind === "egress" ? "Out" : "In";
    const fits = fitting(brush, [word, short], width - 6);
    if (fits !== null) label(brush, width, fits, (slab.left + right) / 2, y, between.kind === "traverse");
  }
  ctx.restore();
}

/** A rest that the work limit relies on: brackets round its last moment and its first, named where there is room. */
export function paintRest(
  brush: Brush,
  { left, right, y }: { readonly left: number; readonly right: number; readonly y: number },
  { startS, endS }: { readonly startS: number; readonly endS: number },
): void {
  const { ctx, palette } = brush;
  const foot = Math.min(4, (right - left) / 3);
  ctx.setLineDash([]);
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 1.6;
  for (const [x, inwards] of [
    [left + 1.5, foot],
    [right - 1.5, -foot],
  ] as const) {
    ctx.beginPath();
    ctx.moveTo(x + inwards, y - 19);
    ctx.lineTo(x, y - 19);
    ctx.lineTo(x, y - 1);
    ctx.lineTo(x + inwards, y - 1);
    ctx.stroke();
  }
  const fits = fitting(brush, [`rest ${lasting(endS - startS, "up")}`, "rest"], right - left - 8);
  if (fits !== null) label(brush, right - left, fits, (left + right) / 2, y - 10, false);
}

function fitting(brush: Brush, texts: readonly string[], roomPx: number): string | null {
  setFont(brush.ctx, 12, 560);
  return texts.find((text) => textPx(brush.ctx, text) <= roomPx) ?? null;
}

function label(brush: Brush, roomPx: number, text: string, x: number, y: number, plate: boolean): void {
  const { ctx, palette } = brush;
  setFont(ctx, 12, 560);
  const wide = textPx(ctx, text);
  if (wide > roomPx - 4) return;
  ctx.textAlign = "center";
  ctx.textBaseline = "middle";
  if (plate) {
    ctx.fillStyle = palette.outing;
    ctx.fillRect(x - wide / 2 - 2, y - 8, wide + 4, 16);
  }
  ctx.fillStyle = plate ? palette.ink : palette["ink-soft"];
  ctx.fillText(text, x, y);
}
