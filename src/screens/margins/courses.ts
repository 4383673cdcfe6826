import type { Course, TimeScale } from "../../editor/index.ts";
import type { Brush } from "../parts/canvas/brush.ts";

/** Height on the canvas of a value of the course. */
type Height = (value: number) => number;

/** The course closed to `base`, as the context's path. */
export function trace(
  ctx: CanvasRenderingContext2D,
  course: Course,
  scale: TimeScale,
  y: Height,
  base: number,
): void {
  const { points } = course;
  ctx.beginPath();
  ctx.moveTo(scale.x(points[0]!.atS), base);
  for (const point of points) ctx.lineTo(scale.x(point.atS), y(point.value));
  ctx.lineTo(scale.x(points.at(-1)!.atS), base);
  ctx.closePath();
}

/** The course as the context's path. */
export function line(ctx: CanvasRenderingContext2D, course: Course, scale: TimeScale, y: Height): void {
  ctx.beginPath();
  course.points.forEach((point, i) => {
    if (i === 0) ctx.moveTo(scale.x(point.atS), y(point.value));
    else ctx.lineTo(scale.x(point.atS), y(point.value));
  });
}

/** What there is, below the course down to `base`. */
export function fillUnder(brush: Brush, course: Course, scale: TimeScale, y: Height, base: number): void {
  trace(brush.ctx, course, scale, y, base);
  brush.ctx.fillStyle = brush.palette.stock;
  brush.ctx.fill();
}

/** The course itself, strong. */
export function strokeOver(brush: Brush, course: Course, scale: TimeScale, y: Height, widthPx: number): void {
  line(brush.ctx, course, scale, y);
  brush.ctx.strokeStyle = brush.palette.ink;
  brush.ctx.lineWidth = widthPx;
  brush.ctx.stroke();
}

/** The course as it was before the move: a broken line. */
export function dashOver(brush: Brush, course: Course, scale: TimeScale, y: Height): void {
  const { ctx, palette } = brush;
  ctx.save();
  ctx.setLineDash([3, 3]);
  ctx.strokeStyle = palette["ink-soft"];
  ctx.lineWidth = 1.2;
  line(ctx, course, scale, y);
  ctx.stroke();
  ctx.restore();
}

/** The reserve from `x0` to `x1`: its upper edge at `top` as a line, hatched below. */
export function paintReserve(brush: Brush, x0: number, x1: number, top: number, heightPx: number): void {
  const { ctx, palette } = brush;
  ctx.fillStyle = brush.hatch("reserve");
  ctx.fillRect(x0, top, x1 - x0, heightPx);
  ctx.fillStyle = palette.reserve;
  ctx.fillRect(x0, top - 0.75, x1 - x0, 1.5);
}
