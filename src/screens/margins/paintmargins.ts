import type { MarginTrack } from "../../answers/index.ts";
import { type Course, type TimeScale, valueNear } from "../../editor/index.ts";
import { lasting, percent } from "../../words/index.ts";
import { type Brush, setFont, textPx } from "../day/line/brush.ts";
import { shows } from "../day/line/geometry.ts";
import { LEAST_STRIP_PX, STRIP_PX } from "../day/line/sizes.ts";
import { CONSUMABLE_WORDS } from "../words.ts";
import { dashOver, fillUnder, line, paintReserve, strokeOver, trace } from "./courses.ts";
import type { MarginRow } from "./rows.ts";

/** Where a row stands in the canvas. */
export interface RowPlace {
  readonly row: MarginRow;
  readonly top: number;
}

/** Every margin as a shape over time; `before` draws the plan as it was before the move, as a dashed line. */
export function paintMargins(
  brush: Brush,
  places: readonly RowPlace[],
  before: readonly MarginRow[] | null,
  scale: TimeScale,
): void {
  const { ctx, palette } = brush;
  const earlier = new Map(before?.map((row) => [row.key, row]));
  for (const { row, top } of places) {
    ctx.fillStyle = palette.line;
    ctx.fillRect(0, top + rowPx(row) - 0.5, brush.widthPx, 1);
    switch (row.kind) {
      case "least":
        for (const tracks of row.outings) paintLeast(brush, tracks, top, scale);
        break;
      case "stock":
        for (const track of row.tracks) {
          const full = track.stock;
          paintLevel(brush, track, top, scale, {
            top: full,
            floor: track.reserve,
            label: percent(track.margin, "down"),
          });
        }
        break;
      case "spare":
        for (const course of row.tracks) {
          const least = Math.min(...course.points.map((point) => point.value));
          paintLevel(brush, course, top, scale, { top: row.topS, floor: 0, label: lasting(least, "down") });
        }
        break;
      case "apart":
      case "load":
        for (const course of row.tracks) paintUnder(brush, course, top, scale, row.limit);
        break;
    }
    const was = earlier.get(row.key);
    if (was) paintBefore(brush, was, top, scale);
  }
}

/** Height of a row. */
export function rowPx(row: MarginRow): number {
  return row.kind === "least" ? LEAST_STRIP_PX : STRIP_PX;
}

/**
 * The four consumables of one outing above their reserves, each a line from full to reserve; filled below the least
 * of them, which is what the suit really has. The floor is the reserve itself.
 */
function paintLeast(brush: Brush, tracks: readonly MarginTrack[], top: number, scale: TimeScale): void {
  const first = tracks[0]?.points[0];
  const last = tracks[0]?.points.at(-1);
  if (!first || !last || !shows(scale, { startS: first.atS, endS: last.atS + 3600 })) return;
  const { ctx, palette } = brush;
  const base = top + LEAST_STRIP_PX - 3;
  const tall = LEAST_STRIP_PX - 8;
  const x0 = scale.x(first.atS);
  const x1 = scale.x(last.atS);
  const usable = (track: MarginTrack, value: number): number =>
    (value - track.reserve) / Math.max(1e-9, track.stock - track.reserve);
  const y = (share: number): number => base - Math.min(1, Math.max(0, share)) * tall;
  const times = [
    ...new Set(tracks.flatMap((track) => track.points.map((point): number => point.atS))),
  ].toSorted((a, b) => a - b);
  const least = times.map((atS) => ({
    atS,
    value: Math.min(...tracks.map((track) => usable(track, valueNear(track, atS, 0)))),
  }));
  ctx.fillStyle = palette.sunk;
  ctx.fillRect(x0, base - tall, x1 - x0, tall);
  fillUnder(brush, { points: least }, scale, y, base);
  for (const track of tracks) {
    const course = track.points.map((point) => ({ atS: point.atS, value: usable(track, point.value) }));
    line(ctx, { points: course }, scale, y);
    ctx.strokeStyle = palette["line-strong"];
    ctx.lineWidth = 1;
    ctx.stroke();
  }
  strokeOver(brush, { points: least }, scale, y, 2);
  // The floor: below it lies the reserve.
  paintReserve(brush, x0, x1, base, 3);
  paintMissing(brush, { points: least }, top, scale, 0, base);
  const worst = tracks.reduce((a, b) => (b.margin < a.margin ? b : a));
  setFont(ctx, 12, 560);
  const name = CONSUMABLE_WORDS[worst.consumable];
  const wide = textPx(ctx, name);
  if (x1 - x0 > wide * 2 && x1 - wide - 6 > 0) {
    const at = Math.min(x1, brush.widthPx) - wide - 6;
    ctx.fillStyle = palette.ink;
    ctx.textAlign = "left";
    ctx.textBaseline = "middle";
    ctx.fillText(name, at, top + 11);
  }
  endLabel(brush, percent(worst.margin, "down"), x1, top + (LEAST_STRIP_PX - STRIP_PX) / 2);
}

const INNER_PX = STRIP_PX - 5;

interface Level {
  /** The value at the top of the strip. */
  readonly top: number;
  /** Below this it is broken; the stretch below is hatched. */
  readonly floor: number;
  /** What is left at the worst, written at the end. */
  readonly label: string;
}

/** A stock that runs down: filled while above its floor, the reserve hatched, what is missing in the breach's hatching. */
function paintLevel(brush: Brush, course: Course, top: number, scale: TimeScale, level: Level): void {
  const first = course.points[0];
  const last = course.points.at(-1);
  if (!first || !last || !shows(scale, { startS: first.atS, endS: last.atS + 3600 })) return;
  const { ctx, palette } = brush;
  const base = top + STRIP_PX - 2;
  // A floor of nothing still shows where nothing is.
  const y = (value: number): number => base - Math.min(1, Math.max(0, value / level.top)) * INNER_PX;
  const x0 = scale.x(first.atS);
  const x1 = scale.x(last.atS);
  const floorY = y(level.floor);
  ctx.fillStyle = palette.sunk;
  ctx.fillRect(x0, base - INNER_PX, x1 - x0, INNER_PX);
  fillUnder(brush, course, scale, y, base);
  // The reserve: not there to be used.
  if (floorY < base) {
    ctx.fillStyle = palette.outing;
    ctx.fillRect(x0, floorY, x1 - x0, base - floorY);
    paintReserve(brush, x0, x1, floorY, base - floorY);
  }
  paintMissing(brush, course, top, scale, level.floor, base);
  strokeOver(brush, course, scale, y, 1.5);
  endLabel(brush, level.label, x1, top);
}

/** Full height where the course is below its floor. */
function paintMissing(
  brush: Brush,
  course: Course,
  top: number,
  scale: TimeScale,
  floor: number,
  base: number,
): void {
  const { ctx } = brush;
  for (let i = 1; i < course.points.length; i += 1) {
    const a = course.points[i - 1]!;
    const b = course.points[i]!;
    if (a.value >= floor && b.value >= floor) continue;
    const share = (floor - a.value) / (b.value - a.value);
    const crossing = Number.isFinite(share)
      ? a.atS + Math.min(1, Math.max(0, share)) * (b.atS - a.atS)
      : a.atS;
    const fromS = a.value < floor ? a.atS : crossing;
    const toS = b.value < floor ? b.atS : crossing;
    const x = scale.x(fromS);
    ctx.fillStyle = brush.hatch("breach");
    ctx.fillRect(x, top + 2, Math.max(3, scale.x(toS) - x), base - top - 2);
  }
}

/** Something that grows towards a limit: filled below, the limit as a line, what is above it hatched. */
function paintUnder(brush: Brush, course: Course, top: number, scale: TimeScale, limit: number): void {
  const first = course.points[0];
  const last = course.points.at(-1);
  if (!first || !last || !shows(scale, { startS: first.atS, endS: last.atS })) return;
  const { ctx, palette } = brush;
  const base = top + STRIP_PX - 2;
  // A limit that is not known leaves the course without a ceiling.
  const known = Number.isFinite(limit);
  const most = Math.max(known ? limit * 1.2 : 0, ...course.points.map((point) => point.value)) || 1;
  const y = (value: number): number => base - (value / most) * INNER_PX;
  const x0 = scale.x(first.atS);
  const x1 = scale.x(last.atS);
  fillUnder(brush, course, scale, y, base);
  if (known) {
    ctx.save();
    ctx.beginPath();
    ctx.rect(x0, top, x1 - x0, y(limit) - top);
    ctx.clip();
    trace(ctx, course, scale, y, base);
    ctx.fillStyle = palette["breach-wash"];
    ctx.fill();
    ctx.fillStyle = brush.hatch("breach");
    ctx.fill();
    ctx.restore();
    ctx.fillStyle = palette.ceiling;
    ctx.fillRect(x0, y(limit) - 0.75, x1 - x0, 1.5);
  }
  strokeOver(brush, course, scale, y, 1.5);
}

function endLabel(brush: Brush, text: string, x: number, top: number): void {
  const { ctx, palette } = brush;
  setFont(ctx, 13, 660, "normal");
  const wide = textPx(ctx, text);
  const at = Math.min(x + 5, brush.widthPx - wide - 3);
  if (x < 0 || at < x - wide - 40) return;
  if (at < x) {
    ctx.fillStyle = palette.paper;
    ctx.fillRect(at - 3, top + 3, wide + 6, STRIP_PX - 6);
  }
  ctx.fillStyle = palette.ink;
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  ctx.fillText(text, at, top + STRIP_PX / 2 + 0.5);
}

function paintBefore(brush: Brush, row: MarginRow, top: number, scale: TimeScale): void {
  if (row.kind === "least") {
    paintLeastBefore(brush, row.outings, top, scale);
    return;
  }
  if (row.kind !== "stock" && row.kind !== "spare") return;
  const base = top + STRIP_PX - 2;
  for (const course of row.tracks) {
    const full = row.kind === "spare" ? row.topS : "stock" in course ? course.stock : 1;
    dashOver(brush, course, scale, (value) => base - Math.min(1, Math.max(0, value / full)) * INNER_PX);
  }
}

function paintLeastBefore(
  brush: Brush,
  outings: readonly (readonly MarginTrack[])[],
  top: number,
  scale: TimeScale,
): void {
  const base = top + LEAST_STRIP_PX - 3;
  const tall = LEAST_STRIP_PX - 8;
  for (const tracks of outings) {
    if (tracks.length === 0) continue;
    // Only the one that ends worst: what the day before the move was bounded by.
    const worst = tracks.reduce((a, b) => (b.margin < a.margin ? b : a));
    dashOver(brush, worst, scale, (value) => {
      const share = (value - worst.reserve) / Math.max(1e-9, worst.stock - worst.reserve);
      return base - Math.min(1, Math.max(0, share)) * tall;
    });
  }
}
