import type { Course, TimeScale } from "../../editor/index.ts";
import { clock, metres, percent } from "../../words/index.ts";
import { figurePx, setFont } from "../parts/canvas/brush.ts";
import type { MarginRow, RowPlace } from "./rows.ts";
import { courseOf, earlierOf, leastOf, lowest } from "./spare.ts";
import { orAssumed } from "../words.ts";

/** What is written in the strips of margins, and in which columns: what stands over a strip for a while keeps off it. */

/** Words in a strip, from column to column. */
export interface StripText {
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

/** How wide a text is, pixels. */
export type Wide = (text: string) => number;

/** Faces of the worst, and of a limit: size in pixels and weight. */
export const WORST_FACE = [12.5, 600] as const;
export const LIMIT_FACE = [12, 500] as const;

/** Measures the worst of a strip. */
export function worstWide(ctx: CanvasRenderingContext2D): Wide {
  return (text) => {
    setFont(ctx, ...WORST_FACE);
    return figurePx(ctx, text);
  };
}

/** Measures a limit. */
export function limitWide(ctx: CanvasRenderingContext2D): Wide {
  return (text) => {
    setFont(ctx, ...LIMIT_FACE);
    return figurePx(ctx, text);
  };
}

type Point = Course["points"][number];

/** A course that comes nowhere lower than this below its margin is level, as a share of the stock. */
const LEVEL_SHARE = 0.0005;

/** The lowest point of what a suit has to spare, with its words, and those of what is left at its end. */
export interface LeastTexts {
  readonly point: Point;
  readonly last: Point;
  /** Null where the point is out of sight, or has no room beside it. */
  readonly words: StripText | null;
  /** Null where it is told already, has no room or is out of sight. */
  readonly end: StripText | null;
}

/**
 * The lowest point of a strip, and at its end the margin itself: what is left at ingress. The lowest is reckoned with an even use
 * from there on, so that it may be less; without the margin beside it the two would contradict each other. Neither lies on what is
 * `taken`: the words of other outings in the strip.
 */
export function leastTexts(
  own: Course,
  margin: number,
  scale: TimeScale,
  wide: Wide,
  taken: readonly StripText[],
  assumed = false,
): LeastTexts | null {
  const low = lowest(own);
  const last = own.points.at(-1);
  if (!low || !last) return null;
  const level = low.value > margin - LEVEL_SHARE;
  const point = level ? last : low;
  const when = level ? "ingress" : clock(low.atS);
  const words = besidePoint(
    scale,
    point.atS,
    orAssumed(`least ${percent(point.value, "down")} at ${when}`, assumed),
    wide,
    taken,
  );
  const text = orAssumed(`${percent(margin, "down")} at ingress`, assumed);
  const endX = scale.x(last.atS);
  const from = endX - 6 - wide(text);
  const free = areFree({ from, to: endX - 6 }, words ? [...taken, words] : taken);
  const end = level || endX > scale.widthPx || from < 0 || !free ? null : { text, from, to: endX - 6 };
  return { point, last, words, end };
}

/** The greatest of all courses in view, with its words, and those of the limit. */
export interface MostTexts {
  readonly course: Course;
  readonly point: Point;
  readonly words: StripText | null;
  /** Null where no limit is known or it has no room. */
  readonly limit: StripText | null;
}

/** From this height on a strip has room for its limit in words, pixels. */
const LIMIT_PX = 26;

/** The most of all courses in view, and the limit in words where there is height for both; null where nobody is away from another. */
export function mostTexts(
  courses: readonly Course[],
  { heightPx, limit }: { readonly heightPx: number; readonly limit: number },
  scale: TimeScale,
  wide: { readonly worst: Wide; readonly limit: Wide },
): MostTexts | null {
  const tops = courses.flatMap((course) => {
    const seen = course.points.filter(({ atS }) => scale.x(atS) >= 0 && scale.x(atS) <= scale.widthPx);
    const [first] = seen;
    return first ? [{ course, point: seen.reduce((a, b) => (b.value > a.value ? b : a), first) }] : [];
  });
  const [most] = tops.toSorted((a, b) => b.point.value - a.point.value);
  if (!most || most.point.value <= 0) return null;
  const { course, point } = most;
  const words = besidePoint(
    scale,
    point.atS,
    `most ${metres(point.value, "up")} at ${clock(point.atS)}`,
    wide.worst,
  );
  if (heightPx < LIMIT_PX || !Number.isFinite(limit)) return { course, point, words, limit: null };
  const text = `at most ${metres(limit, "down")}`;
  const from = Math.max(0, scale.x(course.points[0]?.atS ?? 0)) + 6;
  const to = from + wide.limit(text);
  // Its place is the begin of the strip, where neither the most nor its words stand: at the window's end they lie on its left.
  const taken = Math.min(scale.x(point.atS), words?.from ?? Infinity) < to + 12;
  return { course, point, words, limit: taken ? null : { text, from, to } };
}

/** Between words of one strip, pixels. */
const APART_PX = 10;

function areFree({ from, to }: Pick<StripText, "from" | "to">, taken: readonly StripText[]): boolean {
  return taken.every((other) => to + APART_PX <= other.from || other.to + APART_PX <= from);
}

/** Words at the right of a point, at its left where the window ends or something is said; null where the point is out of sight, or neither side is free. */
function besidePoint(
  scale: TimeScale,
  atS: number,
  text: string,
  wide: Wide,
  taken: readonly StripText[] = [],
): StripText | null {
  const x = scale.x(atS);
  if (x < -4 || x > scale.widthPx + 4) return null;
  const px = wide(text);
  const left = x - 7 - px;
  const sides = x + 7 + px <= scale.widthPx - 4 ? [x + 7, left] : [left];
  const from = sides.find((one) => areFree({ from: one, to: one + px }, taken));
  return from === undefined ? null : { text, from, to: from + px };
}

/** All that is said of the worst in a strip, held against the same row of the day `before` a move. */
export function textsIn(
  { row, heightPx }: RowPlace,
  before: MarginRow | undefined,
  scale: TimeScale,
  ctx: CanvasRenderingContext2D,
): readonly StripText[] {
  const wide = { worst: worstWide(ctx), limit: limitWide(ctx) };
  if (row.kind === "least")
    return row.outings.reduce<readonly StripText[]>((taken, tracks) => {
      const worst = leastOf(tracks);
      const own = worst && courseOf(worst, earlierOf(outingsOf(before), tracks));
      const least =
        own && leastTexts(own, worst.margin, scale, wide.worst, taken, isPartAssumed(row, worst.eva));
      return least ? [...taken, ...textsOf(least)] : taken;
    }, []);
  if (row.kind !== "apart") return [];
  const most = mostTexts(row.tracks, { heightPx, limit: row.limit }, scale, wide);
  return [most?.words ?? [], most?.limit ?? []].flat();
}

/** Whether what is left on one EVA of a suit rests on what nobody has given. */
export function isPartAssumed({ parts }: Pick<MarginRow, "parts">, eva: string): boolean {
  return parts?.some((part) => part.eva === eva && part.assumed) === true;
}

/** The outings of a row of suits; none of any other. */
export function outingsOf(row: MarginRow | undefined): Extract<MarginRow, { kind: "least" }>["outings"] {
  return row?.kind === "least" ? row.outings : [];
}

/** What is written of the least of one outing. */
export function textsOf({ words, end }: LeastTexts): readonly StripText[] {
  return [words ?? [], end ?? []].flat();
}

/**
 * Where words of this width stand beside a line at `x`: at its right, at its left where the window ends there or something is said,
 * and where neither side is free beyond what is said there. Their left edge.
 */
export function besideLine(
  x: number,
  widthPx: number,
  texts: readonly StripText[],
  windowPx: number,
): number {
  const free = (left: number): boolean =>
    left >= 0 &&
    left + widthPx <= windowPx &&
    texts.every(({ from, to }) => to + CLEAR_PX <= left || left + widthPx + CLEAR_PX <= from);
  const sides = [x + LINE_PX, x - LINE_PX - widthPx];
  const beyond = texts
    .flatMap(({ from, to }) => [to + CLEAR_PX, from - CLEAR_PX - widthPx])
    .toSorted((a, b) => Math.abs(a + widthPx / 2 - x) - Math.abs(b + widthPx / 2 - x));
  return [...sides, ...beyond].find(free) ?? x + LINE_PX;
}

/** Free space between words and the line that they tell of, and between them and other words, pixels. */
const LINE_PX = 4;
const CLEAR_PX = 4;
