import type { MarginTrack } from "../../answers/index.ts";
import { type Course, type TimeScale } from "../../editor/index.ts";
import { lasting, percent } from "../../words/index.ts";
import { type Brush, setFont, textPx } from "../parts/canvas/brush.ts";
import { shows } from "../day/line/geometry.ts";
import { orAssumed } from "../words.ts";
import { dashOver, fillUnder, line, paintReserve, strokeOver, trace } from "./courses.ts";
import type { MarginRow, RowPlace } from "./rows.ts";
import { courseOf, earlierOf, leastOf, spareOf } from "./spare.ts";
import {
  isPartAssumed,
  leastTexts,
  LIMIT_FACE,
  limitWide,
  mostTexts,
  outingsOf,
  type StripText,
  textsOf,
  WORST_FACE,
  worstWide,
} from "./striptexts.ts";

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
    const strip = { place, scale, topShare };
    paintRow(brush, strip, was);
    if (was) paintBefore(brush, was, place, scale);
    // The line of before through a figure would read as its sign.
    sayRow(brush, strip, was);
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
      for (const track of row.tracks)
        paintLevel(brush, track, place, scale, { top: track.stock, floor: track.reserve });
      break;
    case "spare":
      for (const course of row.tracks) paintLevel(brush, course, place, scale, { top: row.topS, floor: 0 });
      break;
    case "apart":
    case "load":
      for (const course of row.tracks) paintUnder(brush, course, place, scale, row.limit);
      break;
  }
}

/** What is said in a row: of its worst, and of what is left at the end. */
function sayRow(brush: Brush, strip: SpareStrip, was: MarginRow | undefined): void {
  const { place, scale } = strip;
  const { row } = place;
  switch (row.kind) {
    case "least":
      row.outings.reduce<readonly StripText[]>(
        (taken, tracks) => [
          ...taken,
          ...sayLeast(brush, strip, tracks, earlierOf(outingsOf(was), tracks), taken),
        ],
        [],
      );
      break;
    case "stock":
      for (const track of row.tracks)
        endLabel(brush, track, orAssumed(percent(track.margin, "down"), row.assumed), place, scale);
      break;
    case "spare":
      for (const course of row.tracks) {
        const least = Math.min(...course.points.map((point) => point.value));
        endLabel(brush, course, orAssumed(lasting(least, "down"), row.assumed), place, scale);
      }
      break;
    case "apart":
      markMost(brush, row.tracks, place, scale, row.limit);
      break;
    case "load":
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
  for (const tracks of row.outings) {
    const even = earlierOf(outingsOf(was), tracks);
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
  const worst = leastOf(tracks);
  if (!worst) return;
  const own = courseOf(worst, even);
  fillUnder(brush, own, scale, y, floor);
  ctx.save();
  ctx.beginPath();
  ctx.rect(x0, place.top, x1 - x0, place.heightPx - 1);
  ctx.clip();
  for (const track of tracks) {
    if (track === worst) continue;
    line(ctx, courseOf(track, even), scale, y);
    ctx.strokeStyle = palette["line-strong"];
    ctx.lineWidth = 1;
    ctx.stroke();
  }
  ctx.restore();
  ctx.fillStyle = palette.reserve;
  ctx.fillRect(x0, floor - 0.75, x1 - x0, 1.5);
  paintMissing(brush, own, place.top, scale, 0, place.top + place.heightPx - 2);
  strokeOver(brush, own, scale, y, 1.8);
}

/** The lowest point of a strip and at its end what is left at ingress, in words that keep off what is `taken`; the words written. */
function sayLeast(
  brush: Brush,
  strip: SpareStrip,
  tracks: readonly MarginTrack[],
  even: readonly MarginTrack[],
  taken: readonly StripText[],
): readonly StripText[] {
  const worst = leastOf(tracks);
  if (!worst) return [];
  const { palette } = brush;
  const { place, scale } = strip;
  const { margin } = worst;
  const assumed = isPartAssumed(place.row, worst.eva);
  const texts = leastTexts(courseOf(worst, even), margin, scale, worstWide(brush.ctx), taken, assumed);
  if (!texts) return [];
  const { point, last, words, end } = texts;
  const y = shareY(strip);
  mark(brush, place, {
    x: scale.x(point.atS),
    y: y(point.value),
    words,
    colour: point.value < 0 ? palette.breach : palette.tight,
  });
  if (end) rimmed(brush, end, besideY(place, y(last.value)), margin < 0 ? palette.breach : palette.ink);
  return textsOf(texts);
}

/** A point that is the worst of its course, with its words beside it where they have room. */
function mark(
  brush: Brush,
  place: RowPlace,
  {
    x,
    y,
    words,
    colour,
  }: { readonly x: number; readonly y: number; readonly words: StripText | null; readonly colour: string },
): void {
  const { ctx } = brush;
  ctx.beginPath();
  ctx.arc(x, y, 3.2, 0, 2 * Math.PI);
  ctx.fillStyle = colour;
  ctx.fill();
  if (!words) return;
  setFont(ctx, ...WORST_FACE);
  rimmed(brush, words, besideY(place, y), colour);
}

/** The baseline of words beside a course at `y`: above it, else below it, else on it. */
function besideY({ top, heightPx }: Pick<RowPlace, "top" | "heightPx">, y: number): number {
  const bottom = top + heightPx - 3;
  if (y - 5 >= top + 10) return y - 5;
  return y + 13 <= bottom ? y + 13 : (top + bottom) / 2 + 4;
}

function rimmed(brush: Brush, { text, from, to }: StripText, baseline: number, colour: string): void {
  const { ctx, palette } = brush;
  ctx.textAlign = "left";
  ctx.textBaseline = "alphabetic";
  ctx.lineJoin = "round";
  // Seen between two words a course reads as a point in the figure, and hatching in the colour of the words as part of them.
  ctx.fillStyle = palette.outing;
  ctx.fillRect(from - 2, baseline - 10, to - from + 4, 13);
  ctx.lineWidth = 3.5;
  ctx.strokeStyle = palette.outing;
  ctx.strokeText(text, from, baseline);
  ctx.fillStyle = colour;
  ctx.fillText(text, from, baseline);
}

/** What was to spare before the move, of the consumable that was least then. */
function paintSpareBefore(brush: Brush, strip: SpareStrip, tracks: readonly MarginTrack[]): void {
  const worst = leastOf(tracks);
  if (worst) dashOver(brush, spareOf(worst), strip.scale, shareY(strip));
}

interface Level {
  /** The value at the top of the strip. */
  readonly top: number;
  /** Below this it is broken; the stretch below is hatched. */
  readonly floor: number;
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

/** The most of all courses in view, and the limit, in words. */
function markMost(
  brush: Brush,
  courses: readonly Course[],
  place: RowPlace,
  scale: TimeScale,
  limit: number,
): void {
  const { ctx, palette } = brush;
  const wide = { worst: worstWide(ctx), limit: limitWide(ctx) };
  const texts = mostTexts(courses, { heightPx: place.heightPx, limit }, scale, wide);
  if (!texts) return;
  const { point, words } = texts;
  const y = underY(texts.course, place, limit);
  // A limit that is not known is no number, and nothing is beyond it.
  const colour = point.value > limit ? palette.breach : palette.tight;
  if (words) mark(brush, place, { x: scale.x(point.atS), y: y(point.value), words, colour });
  if (!texts.limit) return;
  setFont(ctx, ...LIMIT_FACE);
  rimmed(brush, texts.limit, y(limit) + 13, palette.ceiling);
}

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

/** What is left at the worst of a stock, at its end. */
function endLabel(
  brush: Brush,
  course: Course,
  text: string,
  { top, heightPx }: RowPlace,
  scale: TimeScale,
): void {
  const first = course.points[0];
  const last = course.points.at(-1);
  if (!first || !last || !shows(scale, { startS: first.atS, endS: last.atS + 3600 })) return;
  const { ctx, palette } = brush;
  const x = scale.x(last.atS);
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
