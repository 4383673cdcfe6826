import type { MarginTrack } from "../../answers/index.ts";
import { type Course, type TimeScale } from "../../editor/index.ts";
import { clock, lasting, metres, percent } from "../../words/index.ts";
import { type Brush, figurePx, setFont, textPx } from "../parts/canvas/brush.ts";
import { shows } from "../day/line/geometry.ts";
import { dashOver, fillUnder, line, paintReserve, strokeOver, trace } from "./courses.ts";
import type { MarginRow } from "./rows.ts";
import { lowest, spareOf } from "./spare.ts";

/** Where a row stands in the canvas. */
export interface RowPlace {
  readonly row: MarginRow;
  readonly top: number;
  readonly heightPx: number;
}

/** Every margin as a shape over time; `before` draws the plan as it was before the move, as a dashed line. */
export function paintMargins(
  brush: Brush,
  places: readonly RowPlace[],
  before: readonly MarginRow[] | null,
  scale: TimeScale,
  topShare: number,
): void {
  const { ctx, palette } = brush;
  const earlier = new Map(before?.map((row) => [row.key, row]));
  for (const place of places) {
    const { row, top, heightPx } = place;
    const was = earlier.get(row.key);
    ctx.fillStyle = palette.line;
    ctx.fillRect(0, top + heightPx - 0.5, brush.widthPx, 1);
    paintRow(brush, { place, scale, topShare }, was);
    if (was) paintBefore(brush, was, place, scale);
  }
}

/** One row as its kind is drawn. */
function paintRow(brush: Brush, strip: SpareStrip, was: MarginRow | undefined): void {
  const { place, scale } = strip;
  const { row } = place;
  switch (row.kind) {
    case "least":
      paintSpares(brush, strip, row, was);
      break;
    case "stock":
      for (const track of row.tracks) {
        const label = percent(track.margin, "down");
        paintLevel(brush, track, place, scale, { top: track.stock, floor: track.reserve, label });
      }
      break;
    case "spare":
      for (const course of row.tracks) {
        const least = Math.min(...course.points.map((point) => point.value));
        paintLevel(brush, course, place, scale, { top: row.topS, floor: 0, label: lasting(least, "down") });
      }
      break;
    case "apart":
    case "load":
      for (const course of row.tracks) paintUnder(brush, course, place, scale, row.limit);
      if (row.kind === "apart") markMost(brush, row.tracks, place, scale, row.limit);
      break;
  }
}

/** The strips of all outings of a suit, over what they were. */
function paintSpares(
  brush: Brush,
  strip: SpareStrip,
  row: Extract<MarginRow, { kind: "least" }>,
  was: MarginRow | undefined,
): void {
  const earlier = was?.kind === "least" ? was.outings : [];
  for (const tracks of row.outings) {
    const even = earlier.find((one) => one[0]?.eva === tracks[0]?.eva) ?? [];
    paintSpare(brush, strip, tracks, even);
    paintSpareBefore(brush, strip, even);
  }
}

/** How deep the reserve is hatched under a strip, pixels. */
const RESERVE_PX = 6;

/** What a strip of spare is drawn with. */
interface SpareStrip {
  readonly place: RowPlace;
  readonly scale: TimeScale;
  /** The share of the stock at the top of the strip. */
  readonly topShare: number;
}

/** Height of a share above the reserve in a strip. */
function shareY({ place, topShare }: SpareStrip): (share: number) => number {
  const base = place.top + place.heightPx - RESERVE_PX - 2;
  const tall = base - place.top - 3;
  const below = RESERVE_PX / Math.max(1, tall);
  return (share) => base - Math.min(1, Math.max(-below, share / topShare)) * tall;
}

/**
 * The four consumables of one outing as what each has to spare, filled below the one that comes home with least. The floor is the
 * reserve; the lowest point is marked and said.
 */
function paintSpare(
  brush: Brush,
  strip: SpareStrip,
  tracks: readonly MarginTrack[],
  even: readonly MarginTrack[],
): void {
  const first = tracks[0]?.points[0];
  const last = tracks[0]?.points.at(-1);
  const { place, scale } = strip;
  if (!first || !last || !shows(scale, { startS: first.atS, endS: last.atS })) return;
  const { ctx, palette } = brush;
  const y = shareY(strip);
  const floor = y(0);
  const [x0, x1] = [scale.x(first.atS), scale.x(last.atS)];
  ctx.fillStyle = palette.outing;
  ctx.fillRect(x0, place.top, x1 - x0, place.heightPx - 2);
  ctx.fillStyle = brush.hatch("reserve");
  ctx.fillRect(x0, floor, x1 - x0, place.top + place.heightPx - 2 - floor);
  const worst = tracks.reduce((a, b) => (b.margin < a.margin ? b : a));
  const course = (track: MarginTrack): Course =>
    spareOf(
      track,
      even.find((one) => one.consumable === track.consumable),
    );
  const own = course(worst);
  fillUnder(brush, own, scale, y, floor);
  ctx.save();
  ctx.beginPath();
  ctx.rect(x0, place.top, x1 - x0, place.heightPx - 1);
  ctx.clip();
  for (const track of tracks) {
    if (track === worst) continue;
    line(ctx, course(track), scale, y);
    ctx.strokeStyle = palette["line-strong"];
    ctx.lineWidth = 1;
    ctx.stroke();
  }
  ctx.restore();
  ctx.fillStyle = palette.reserve;
  ctx.fillRect(x0, floor - 0.75, x1 - x0, 1.5);
  paintMissing(brush, own, place.top, scale, 0, place.top + place.heightPx - 2);
  strokeOver(brush, own, scale, y, 1.8);
  sayLeast(brush, strip, own, worst, y);
}

/** A course that comes nowhere lower than this below its margin is level, as a share of the stock. */
const LEVEL_SHARE = 0.0005;

/**
 * The lowest point of a strip, and at its end the margin itself: what is left at ingress. The lowest is reckoned with an even use
 * from there on, so that it may be less; without the margin beside it the two would contradict each other.
 */
function sayLeast(
  brush: Brush,
  strip: SpareStrip,
  own: Course,
  { margin }: MarginTrack,
  y: (share: number) => number,
): void {
  const { palette } = brush;
  const low = lowest(own);
  const last = own.points.at(-1);
  if (!low || !last) return;
  const level = low.value > margin - LEVEL_SHARE;
  const point = level ? last : low;
  const colour = point.value < 0 ? palette.breach : palette.tight;
  const when = level ? "ingress" : clock(low.atS);
  const said = mark(
    brush,
    strip,
    { atS: point.atS, y: y(point.value) },
    `least ${percent(point.value, "down")} at ${when}`,
    colour,
  );
  const text = `${percent(margin, "down")} at ingress`;
  const { place, scale } = strip;
  const end = scale.x(last.atS);
  setFont(brush.ctx, 12.5, 600);
  const left = end - 6 - figurePx(brush.ctx, text);
  const free = said === null || said.to + 10 < left || said.from > end;
  if (level || end > brush.widthPx || left < 0 || !free) return;
  rimmed(brush, text, left, besideY(place, y(last.value)), margin < 0 ? palette.breach : palette.ink);
}

/** A point that is the worst of its course, with its words beside it; the columns that these take, or null where it is out of sight. */
function mark(
  brush: Brush,
  { place, scale }: Pick<SpareStrip, "place" | "scale">,
  { atS, y }: { readonly atS: number; readonly y: number },
  text: string,
  colour: string,
): { readonly from: number; readonly to: number } | null {
  const { ctx } = brush;
  const x = scale.x(atS);
  if (x < -4 || x > brush.widthPx + 4) return null;
  ctx.beginPath();
  ctx.arc(x, y, 3.2, 0, 2 * Math.PI);
  ctx.fillStyle = colour;
  ctx.fill();
  setFont(ctx, 12.5, 600);
  const wide = figurePx(ctx, text);
  const right = x + 7 + wide <= brush.widthPx - 4;
  const left = right ? x + 7 : x - 7 - wide;
  rimmed(brush, text, left, besideY(place, y), colour);
  return { from: Math.min(x - 4, left), to: Math.max(x + 4, left + wide) };
}

/** The baseline of words beside a course at `y`: above it, else below it, else on it. */
function besideY({ top, heightPx }: Pick<RowPlace, "top" | "heightPx">, y: number): number {
  const bottom = top + heightPx - 3;
  if (y - 5 >= top + 10) return y - 5;
  return y + 13 <= bottom ? y + 13 : (top + bottom) / 2 + 4;
}

function rimmed(brush: Brush, text: string, x: number, baseline: number, colour: string): void {
  const { ctx, palette } = brush;
  ctx.textAlign = "left";
  ctx.textBaseline = "alphabetic";
  ctx.lineJoin = "round";
  // Seen between two words a course reads as a point in the figure.
  ctx.fillStyle = palette.outing;
  ctx.fillRect(x, baseline - 9, figurePx(ctx, text), 10);
  ctx.lineWidth = 3.5;
  ctx.strokeStyle = palette.outing;
  ctx.strokeText(text, x, baseline);
  ctx.fillStyle = colour;
  ctx.fillText(text, x, baseline);
}

/** What was to spare before the move, of the consumable that was least then. */
function paintSpareBefore(brush: Brush, strip: SpareStrip, tracks: readonly MarginTrack[]): void {
  if (tracks.length === 0) return;
  const worst = tracks.reduce((a, b) => (b.margin < a.margin ? b : a));
  dashOver(brush, spareOf(worst), strip.scale, shareY(strip));
}

interface Level {
  /** The value at the top of the strip. */
  readonly top: number;
  /** Below this it is broken; the stretch below is hatched. */
  readonly floor: number;
  /** What is left at the worst, written at the end. */
  readonly label: string;
}

/** A stock that runs down: filled while above its floor, the reserve hatched, what is missing in the breach's hatching. */
function paintLevel(
  brush: Brush,
  course: Course,
  { top, heightPx }: RowPlace,
  scale: TimeScale,
  level: Level,
): void {
  const first = course.points[0];
  const last = course.points.at(-1);
  if (!first || !last || !shows(scale, { startS: first.atS, endS: last.atS + 3600 })) return;
  const { ctx, palette } = brush;
  const base = top + heightPx - 2;
  const tall = heightPx - 5;
  // A floor of nothing still shows where nothing is.
  const y = (value: number): number => base - Math.min(1, Math.max(0, value / level.top)) * tall;
  const x0 = scale.x(first.atS);
  const x1 = scale.x(last.atS);
  const floorY = y(level.floor);
  ctx.fillStyle = palette.sunk;
  ctx.fillRect(x0, base - tall, x1 - x0, tall);
  fillUnder(brush, course, scale, y, base);
  // The reserve: not there to be used.
  if (floorY < base) {
    ctx.fillStyle = palette.outing;
    ctx.fillRect(x0, floorY, x1 - x0, base - floorY);
    paintReserve(brush, x0, x1, floorY, base - floorY);
  }
  paintMissing(brush, course, top, scale, level.floor, base);
  strokeOver(brush, course, scale, y, 1.5);
  endLabel(brush, level.label, x1, top, heightPx);
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

/** Height of a value that grows towards a limit in its strip. */
function underY(
  course: Course,
  { top, heightPx }: Pick<RowPlace, "top" | "heightPx">,
  limit: number,
): (value: number) => number {
  const known = Number.isFinite(limit) ? limit * 1.12 : 0;
  const most = Math.max(known, ...course.points.map((point) => point.value)) || 1;
  return (value) => top + heightPx - 2 - (value / most) * (heightPx - 5);
}

/** The most of all courses in view, and the limit in words where there is height for both. */
function markMost(
  brush: Brush,
  courses: readonly Course[],
  place: RowPlace,
  scale: TimeScale,
  limit: number,
): void {
  const { ctx, palette } = brush;
  const tops = courses.flatMap((course) => {
    const seen = course.points.filter(({ atS }) => scale.x(atS) >= 0 && scale.x(atS) <= brush.widthPx);
    const [first] = seen;
    return first ? [{ course, most: seen.reduce((a, b) => (b.value > a.value ? b : a), first) }] : [];
  });
  const [worst] = tops.toSorted((a, b) => b.most.value - a.most.value);
  if (!worst || worst.most.value <= 0) return;
  const { atS, value } = worst.most;
  const y = underY(worst.course, place, limit);
  const words = `most ${metres(value, "up")} at ${clock(atS)}`;
  // A limit that is not known is no number, and nothing is beyond it.
  const colour = value > limit ? palette.breach : palette.tight;
  mark(brush, { place, scale }, { atS, y: y(value) }, words, colour);
  if (place.heightPx < LIMIT_PX || !Number.isFinite(limit)) return;
  setFont(ctx, 12, 500);
  const text = `at most ${metres(limit, "down")}`;
  const left = Math.max(0, scale.x(worst.course.points[0]?.atS ?? 0)) + 6;
  // Its place is the begin of the strip, where the most does not stand.
  if (scale.x(atS) < left + textPx(ctx, text) + 12) return;
  rimmed(brush, text, left, y(limit) + 13, palette.ceiling);
}

/** From this height on a strip has room for its limit in words, pixels. */
const LIMIT_PX = 26;

/** Something that grows towards a limit: filled below, the limit as a line, what is above it hatched. */
function paintUnder(
  brush: Brush,
  course: Course,
  { top, heightPx }: RowPlace,
  scale: TimeScale,
  limit: number,
): void {
  const first = course.points[0];
  const last = course.points.at(-1);
  if (!first || !last || !shows(scale, { startS: first.atS, endS: last.atS })) return;
  const { ctx, palette } = brush;
  const base = top + heightPx - 2;
  // A limit that is not known leaves the course without a ceiling.
  const known = Number.isFinite(limit);
  const y = underY(course, { top, heightPx }, limit);
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

function endLabel(brush: Brush, text: string, x: number, top: number, heightPx: number): void {
  const { ctx, palette } = brush;
  setFont(ctx, 13, 660, "normal");
  const wide = textPx(ctx, text);
  const at = Math.min(x + 5, brush.widthPx - wide - 3);
  if (x < 0 || at < x - wide - 40) return;
  if (at < x) {
    ctx.fillStyle = palette.paper;
    ctx.fillRect(at - 3, top + 3, wide + 6, heightPx - 6);
  }
  ctx.fillStyle = palette.ink;
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  ctx.fillText(text, at, top + heightPx / 2 + 0.5);
}

function paintBefore(brush: Brush, row: MarginRow, { top, heightPx }: RowPlace, scale: TimeScale): void {
  if (row.kind !== "stock" && row.kind !== "spare") return;
  const base = top + heightPx - 2;
  const tall = heightPx - 5;
  for (const course of row.tracks) {
    const full = row.kind === "spare" ? row.topS : "stock" in course ? course.stock : 1;
    dashOver(brush, course, scale, (value) => base - Math.min(1, Math.max(0, value / full)) * tall);
  }
}
