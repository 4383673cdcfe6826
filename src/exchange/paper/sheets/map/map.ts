import type { SiteCourse, SiteGround } from "../../../../answers/index.ts";
import type { KeepOut, Plan } from "../../../../plan/index.ts";
import { counted, metres } from "../../../../words/index.ts";
import { placeName } from "../../crewday.ts";
import { line, type LinesMark, type Mark, rect, text } from "../../page.ts";
import type { Drawing } from "../body.ts";
import { clipped, dashed, type Frame, type Segment, segmentsOf } from "./clip.ts";
import { nameMarks } from "./names.ts";

/** The site from above, north up, in black: places, keep-outs, contours, and who walks where. */

export interface MapOptions {
  readonly plan: Plan;
  readonly ground?: SiteGround | null | undefined;
  /** Ways that are drawn. */
  readonly courses: readonly SiteCourse[];
  /** What is said behind a place's name; null for a place that the map need not reach. */
  readonly noteOf: (place: string) => string | null;
}

/** How each crew member's way is drawn, in the plan's order: a line of its own whatever the printer makes of grey. */
export const WAY_LINES = [
  { words: "full line", widthMm: 0.55, on: 1, off: 0 },
  { words: "dashes", widthMm: 0.55, on: 2.2, off: 1.3 },
  { words: "dots", widthMm: 0.8, on: 0.4, off: 1.2 },
  { words: "thin line", widthMm: 0.18, on: 1, off: 0 },
] as const;

const ASPECT = 0.72;
const INSIDE_MM = 7;
const NARROW_MM = 120;
/** What the sign of north takes of its corner. */
const NORTH_MM = { wide: 11, high: 10 };

export function mapDrawing(options: MapOptions): Drawing {
  const what = options.courses.length > 0 ? "the ways and the places on them" : "the places and keep-outs";
  return {
    kind: "drawing",
    aspect: ASPECT,
    says: `Map of ${what}, north up. The table says where every place lies.`,
    draw: (x, y, wide, high) => draw(options, x, y, wide, high - 2),
  };
}

interface Scale {
  readonly frame: Frame;
  readonly mmPerM: number;
  readonly xOf: (eastM: number) => number;
  readonly yOf: (northM: number) => number;
}

function draw(options: MapOptions, x: number, y: number, wide: number, high: number): Mark[] {
  const { plan, ground, courses, noteOf } = options;
  const frame = { left: x, top: y, right: x + wide, bottom: y + high };
  const scale = scaleOf(options, frame);
  const at = (eastM: number, northM: number): readonly [number, number] => [
    scale.xOf(eastM),
    scale.yOf(northM),
  ];
  const { places } = plan.site;
  const shown = places.filter(({ eastM, northM }) => isInside(frame, at(eastM, northM)));
  // Where there is little room only what the map is about has its name.
  const about = shown.filter(({ id, kind }) => wide >= NARROW_MM || kind === "lander" || noteOf(id) !== null);
  const named = about.map(({ id, kind, eastM, northM }) => {
    const [px, py] = at(eastM, northM);
    const note = noteOf(id) ?? "";
    const words = note === "" ? placeName(plan, id) : `${placeName(plan, id)}: ${note}`;
    return { x: px, y: py, words, bold: kind === "lander" || note !== "" };
  });
  const north = northIn(
    frame,
    shown.map(({ eastM, northM }) => at(eastM, northM)),
  );
  const bar = [...scaleBar(scale), ...northSign(north)];
  const names = nameMarks(
    // What has something to say goes first; the scale keeps its corner.
    named.toSorted((a, b) => Number(b.bold) - Number(a.bold)),
    frame,
    [{ ...frame, top: frame.bottom - 6 }, north],
  );
  return [
    rect(x, y, wide, high, 0.3),
    ...(ground ? contours(ground, scale) : []),
    ...plan.site.keepOuts.map((one) => keepOutLine(one, scale)),
    ...courses.flatMap((course) => wayLine(plan, course, scale)),
    ...shown.map(({ kind, eastM, northM }) => {
      const [px, py] = at(eastM, northM);
      return kind === "lander"
        ? rect(px - 1.1, py - 1.1, 2.2, 2.2, 0.5, 0)
        : rect(px - 0.7, py - 0.7, 1.4, 1.4, 0.25, 1);
    }),
    ...names.marks,
    ...bar,
    ...(names.left.length === 0
      ? []
      : text(x + 34, y + high - 1.6, `No room for ${counted(names.left.length, "name")}; see the table.`, {
          sizePt: 7,
          bold: false,
        })),
  ];
}

function isInside({ left, top, right, bottom }: Frame, [x, y]: readonly [number, number]): boolean {
  return left + 1.5 < x && x < right - 1.5 && top + 1.5 < y && y < bottom - 1.5;
}

/** As large as lets the map reach every place that it is about and every way. */
function scaleOf({ plan, courses, noteOf }: MapOptions, frame: Frame): Scale {
  const points = [
    ...plan.site.places
      .filter(({ id, kind }) => kind === "lander" || noteOf(id) !== null)
      .map(({ eastM, northM }) => [eastM, northM] as const),
    ...courses.flatMap(({ legs }) => legs.flatMap(({ course }) => cornersOf(course))),
  ];
  const [east, north] = [points.map(([e]) => e), points.map(([, n]) => n)];
  const [west, easternmost] = [Math.min(...east), Math.max(...east)];
  const [south, northernmost] = [Math.min(...north), Math.max(...north)];
  const wide = frame.right - frame.left - 2 * INSIDE_MM;
  const high = frame.bottom - frame.top - 2 * INSIDE_MM;
  const mmPerM = Math.min(wide / Math.max(1, easternmost - west), high / Math.max(1, northernmost - south));
  const middleX = (frame.left + frame.right) / 2;
  const middleY = (frame.top + frame.bottom) / 2;
  return {
    frame,
    mmPerM,
    xOf: (eastM) => middleX + (eastM - (west + easternmost) / 2) * mmPerM,
    yOf: (northM) => middleY - (northM - (south + northernmost) / 2) * mmPerM,
  };
}

/** East and north of every corner of a walk, whose list holds seconds as well. */
function cornersOf(course: Float64Array): (readonly [number, number])[] {
  const corners: (readonly [number, number])[] = [];
  for (let i = 0; i + 1 < course.length; i += 3) corners.push([course[i] ?? 0, course[i + 1] ?? 0]);
  return corners;
}

/** The rim of a keep-out, closed. */
function shapeOf({ shape }: KeepOut): (readonly [number, number])[] {
  if (shape.type === "disc") {
    const turn = (k: number): number => (k * 2 * Math.PI) / 48;
    return Array.from({ length: 49 }, (_, k) => [
      shape.eastM + shape.radiusM * Math.cos(turn(k)),
      shape.northM + shape.radiusM * Math.sin(turn(k)),
    ]);
  }
  const corners = shape.points.map(({ eastM, northM }) => [eastM, northM] as const);
  return [...corners, ...corners.slice(0, 1)];
}

function onPaper(scale: Scale, corners: readonly (readonly [number, number])[]): Segment[] {
  const points = corners.map(([east, north]) => [scale.xOf(east), scale.yOf(north)] as const);
  return segmentsOf(points).flatMap((segment) => {
    const inside = clipped(segment, scale.frame);
    return inside ? [inside] : [];
  });
}

function keepOutLine(one: KeepOut, scale: Scale): LinesMark {
  return { kind: "lines", segments: dashed(onPaper(scale, shapeOf(one)), 0.9, 0.7), widthMm: 0.35, ink: 0 };
}

function contours(ground: SiteGround, scale: Scale): Mark[] {
  return [true, false].flatMap((strong): Mark[] => {
    const segments = ground.contours
      .filter((one) => one.strong === strong)
      .flatMap(({ lines }) =>
        lines.flatMap((points) => {
          const corners: (readonly [number, number])[] = [];
          for (let i = 0; i + 1 < points.length; i += 2) corners.push([points[i] ?? 0, points[i + 1] ?? 0]);
          return onPaper(scale, corners);
        }),
      );
    return segments.length === 0
      ? []
      : [{ kind: "lines", segments, widthMm: strong ? 0.14 : 0.07, ink: 0.45 }];
  });
}

/** One crew member's way, set a little aside of the others' so that none hides another. */
function wayLine(plan: Plan, { crew, legs }: SiteCourse, scale: Scale): Mark[] {
  const index = Math.max(
    0,
    plan.crew.findIndex(({ id }) => id === crew),
  );
  const style = WAY_LINES[index % WAY_LINES.length] ?? WAY_LINES[0];
  const aside = (index - (plan.crew.length - 1) / 2) * 0.9;
  const segments = legs.flatMap(({ course }) =>
    segmentsOf(
      cornersOf(course).map(([east, north]) => [scale.xOf(east) + aside, scale.yOf(north) + aside] as const),
    ),
  );
  const drawn = dashed(segments, style.on, style.off);
  return drawn.length === 0 ? [] : [{ kind: "lines", segments: drawn, widthMm: style.widthMm, ink: 0 }];
}

/** A corner for the sign of north: the first in which no place stands. */
function northIn(frame: Frame, places: readonly (readonly [number, number])[]): Frame {
  const { left, right, top, bottom } = frame;
  const across = right - NORTH_MM.wide;
  const below: Frame = { ...frame, left: across, top: bottom - NORTH_MM.high };
  const corners: readonly Frame[] = [
    below,
    { ...frame, left: across, bottom: top + NORTH_MM.high },
    { ...frame, right: left + NORTH_MM.wide, bottom: top + NORTH_MM.high },
  ];
  const isFree = (corner: Frame): boolean =>
    places.every(
      ([x, y]) => x < corner.left - 1 || x > corner.right + 1 || y < corner.top - 1 || y > corner.bottom + 1,
    );
  return corners.find(isFree) ?? below;
}

function northSign({ right, bottom }: Frame): Mark[] {
  const [x, y] = [right - 5, bottom - 2.5];
  return [
    line(x, y, x, y - 6, 0.4),
    line(x, y - 6, x - 1, y - 4.2, 0.4),
    line(x, y - 6, x + 1, y - 4.2, 0.4),
    ...text(x - 4.2, y - 3, "N", { sizePt: 8, bold: true }),
  ];
}

/** A bar of a round length. */
function scaleBar({ frame, mmPerM }: Scale): Mark[] {
  const longM = roundLength(24 / mmPerM);
  const long = longM * mmPerM;
  const [x, y] = [frame.left + 3, frame.bottom - 2.2];
  return [
    line(x, y, x + long, y, 0.6),
    line(x, y - 1, x, y + 0.3, 0.3),
    line(x + long, y - 1, x + long, y + 0.3, 0.3),
    ...text(x, y - 1.6, metres(longM, "given"), { sizePt: 7, bold: true }),
  ];
}

/** The greatest of 1, 2 or 5 times a power of ten that is no longer. */
function roundLength(mostM: number): number {
  const power = 10 ** Math.floor(Math.log10(mostM));
  return ([5, 2, 1].find((one) => one * power <= mostM) ?? 1) * power;
}
