import { afootAt, type Leader, mapX, mapY, visitsOf } from "../../editor/map/index.ts";
import type { Place } from "../../plan/index.ts";
import { briefly, counted, crewName } from "../../words/index.ts";
import { type Brush, font, setFace, textPx } from "../parts/canvas/brush.ts";
import { crewStyle } from "./crewstyle.ts";
import { LINE_PX, layTexts, type LaidText, type MapText } from "./laytexts.ts";
import { haloed } from "./paintground.ts";
import { ringAnchor, ringWords } from "./paintlimits.ts";
import { minuteMarks } from "./paintways.ts";
import type { Picture } from "./picture.ts";

/** Places with their signs and names, who stands where at the minute, and the words on keep-outs and limits. */

const SIGN_PX = 5.5;
/** Radius of the ring about the chosen place. */
const CHOSEN_PX = 16;

/** Letters of a name on a map: a longer one would lie over its neighbours. */
const LONGEST = 28;

/** What something is called on a map. */
export function mapName({ name }: { readonly name: string }): string {
  return briefly(name, LONGEST);
}

export function paintPlaces(brush: Brush, picture: Picture): void {
  const { frame, plan } = picture;
  for (const place of plan.site.places)
    paintSign(brush, place, mapX(frame, place.eastM), mapY(frame, place.northM));
  const texts = [
    ...crewTexts(picture),
    ...placeTexts(picture),
    ...limitTexts(picture),
    ...minuteTexts(picture),
  ];
  const { ctx } = brush;
  const widthOf = (face: string, words: string): number => {
    setFace(ctx, face);
    return textPx(ctx, words);
  };
  const { laid, leftOut } = layTexts(texts, widthOf, frame);
  paintLeaders(
    brush,
    laid.map(({ leader }) => leader),
  );
  for (const one of laid) {
    if (one.text.pill) paintPill(brush, one);
    else paintLines(brush, one.text, one.left, one.top);
  }
  if (leftOut > 0) paintLeftOut(brush, picture, leftOut);
}

/** Lines from things to their words where these stand apart, with a rim that parts them from the ground. */
export function paintLeaders({ ctx, palette }: Brush, leaders: readonly (Leader | null)[]): void {
  ctx.setLineDash([]);
  for (const [width, colour] of [
    [4, palette.raised],
    [1.25, palette.ink],
  ] as const) {
    ctx.lineWidth = width;
    ctx.strokeStyle = colour;
    ctx.beginPath();
    for (const leader of leaders) {
      if (!leader) continue;
      ctx.moveTo(leader[0], leader[1]);
      ctx.lineTo(leader[2], leader[3]);
    }
    ctx.stroke();
  }
}

/** What is said of places whose names have no room on a map. */
export function leftOutWords(count: number): string {
  return `${counted(count, "name")} without room here: come closer`;
}

function paintLeftOut(brush: Brush, { frame }: Picture, count: number): void {
  const { ctx, palette } = brush;
  setFace(ctx, font(12.5, 600));
  ctx.textAlign = "right";
  ctx.textBaseline = "middle";
  haloed(brush, leftOutWords(count), frame.widthPx - 10, frame.heightPx - 12, palette.ink);
}

/** A place's name, and who is there from when to when. */
function placeTexts(picture: Picture): MapText[] {
  const { frame, plan, layers, place } = picture;
  const visits = visitWords(picture);
  return plan.site.places.flatMap((one): MapText[] => {
    const isChosen = one.id === place;
    const stays = visits.get(one.id) ?? [];
    if (!layers.names && !isChosen && stays.length === 0) return [];
    const heading = { text: mapName(one), font: font(13, isChosen ? 700 : 600) };
    const lines = stays
      .slice(0, frame.pxPerM > 0.5 || isChosen ? 4 : 2)
      .map((text) => ({ text, font: font(12, 500) }));
    return [
      {
        key: `place ${one.id}`,
        x: mapX(frame, one.eastM),
        y: mapY(frame, one.northM),
        radiusPx: isChosen ? CHOSEN_PX : SIGN_PX + 1,
        rank: isChosen ? Infinity : rankOf(one, stays.length > 0),
        lines: layers.names || isChosen ? [heading, ...lines] : lines,
        names: layers.names || isChosen,
        ink: ({ palette }) => palette.ink,
      },
    ];
  });
}

/** `EV1 EV2 01:10–01:40` by place, in the order of time; nothing of the lander, and nothing where times are not shown. */
function visitWords(picture: Picture): ReadonlyMap<string, readonly string[]> {
  const { plan, layers, time } = picture;
  const words = new Map<string, string[]>();
  if (!layers.times || !layers.ways) return words;
  const lander = plan.site.places.find((one) => one.kind === "lander")?.id;
  for (const { place, crew, startS, endS } of sharedVisits(picture)) {
    if (place === lander) continue;
    const span = endS - startS < 60 ? time(startS) : `${time(startS)}–${time(endS)}`;
    words.set(place, [...(words.get(place) ?? []), `${crew.join(" ")} ${span}`]);
  }
  return words;
}

/** The visits of the EVAs shown, by their beginning; who stands there together is named together. */
function sharedVisits({ plan, walks, evas, time }: Picture) {
  const groups = new Map<string, { place: string; crew: string[]; startS: number; endS: number }>();
  for (const course of walks?.courses.filter((one) => evas.has(one.eva)) ?? []) {
    for (const visit of visitsOf(course.legs)) {
      const name = `${visit.place} ${time(visit.startS)} ${time(visit.endS)}`;
      const known = groups.get(name);
      if (known) known.crew.push(briefly(crewName(plan, course.crew)));
      else groups.set(name, { ...visit, crew: [briefly(crewName(plan, course.crew))] });
    }
  }
  return [...groups.values()].sort((a, b) => a.startS - b.startS);
}

/** Which names are kept where not all have room; one where somebody will be before one of its kind. */
function rankOf({ kind }: Place, visited: boolean): number {
  return kind === "lander" ? RANKS.lander : (visited ? 2 : 0) + RANKS[kind];
}

const RANKS: Readonly<Record<Place["kind"], number>> = { lander: 5, station: 3, deployment: 1 };

function crewTexts({ frame, plan, walks, minuteS }: Picture): MapText[] {
  if (!walks) return [];
  return walks.courses.flatMap(({ crew, legs }): MapText[] => {
    const at = afootAt(legs, minuteS);
    if (!at) return [];
    const style = crewStyle(plan, crew);
    return [
      {
        key: `crew ${crew}`,
        x: mapX(frame, at.eastM),
        y: mapY(frame, at.northM),
        radiusPx: 8,
        rank: Infinity,
        lines: [{ text: briefly(crewName(plan, crew)), font: font(13, 700) }],
        ink: ({ palette }) => palette.raised,
        pill: { ground: ({ palette }) => palette[style.colour] },
      },
    ];
  });
}

function limitTexts({ frame, plan, layers, rings }: Picture): MapText[] {
  const words = rings.flatMap((ring, k): MapText[] => {
    if (!(ring.kind !== "stock" ? layers.emergency : layers.stocks)) return [];
    const anchor = ringAnchor(frame, ring);
    if (!anchor) return [];
    const style = ring.kind !== "stock" ? null : crewStyle(plan, ring.crew[0]!);
    return [
      {
        key: `ring ${k}`,
        ...anchor,
        radiusPx: 0,
        rank: 4,
        lines: [{ text: ringWords(plan, ring), font: font(12.5, 650) }],
        ink: ({ palette }) => (style ? palette[style.colour] : palette.breach),
      },
    ];
  });
  if (!layers.keepOuts || !layers.names) return words;
  const closed = plan.site.keepOuts.map((one): MapText => {
    const { shape } = one;
    const points = shape.type === "disc" ? [shape] : shape.points;
    const mean = (of: (point: (typeof points)[number]) => number): number =>
      points.reduce((sum, point) => sum + of(point), 0) / points.length;
    return {
      key: `keep-out ${one.id}`,
      x: mapX(
        frame,
        mean((point) => point.eastM),
      ),
      y: mapY(
        frame,
        mean((point) => point.northM),
      ),
      radiusPx: 0,
      rank: shape.type === "disc" && shape.radiusM * frame.pxPerM > 60 ? 3.5 : 0.5,
      lines: [{ text: mapName(one), font: font(12, 500) }],
      ink: ({ palette }) => (one.kind === "walking" ? palette.ceiling : palette.tight),
    };
  });
  return [...words, ...closed];
}

/** Minutes on the ways; who walks together shares one. */
function minuteTexts(picture: Picture): MapText[] {
  if (!picture.layers.times || !picture.layers.ways) return [];
  const seen: { atS: number; x: number; y: number }[] = [];
  return minuteMarks(picture).flatMap(({ x, y, atS, crew }, k): MapText[] => {
    const same = seen.some((one) => one.atS === atS && Math.hypot(one.x - x, one.y - y) < 16);
    if (same) return [];
    seen.push({ atS, x, y });
    const { colour } = crewStyle(picture.plan, crew);
    return [
      {
        key: `minute ${k}`,
        ...{ x, y },
        radiusPx: 3,
        rank: 0,
        lines: [{ text: picture.time(atS), font: font(11.5, 600) }],
        ink: ({ palette }) => palette[colour],
      },
    ];
  });
}

/** The sign of a place by its kind. */
export function paintSign({ ctx, palette }: Brush, { kind }: Place, x: number, y: number): void {
  ctx.setLineDash([]);
  ctx.lineJoin = "miter";
  ctx.beginPath();
  if (kind === "station") ctx.arc(x, y, SIGN_PX, 0, 2 * Math.PI);
  else if (kind === "deployment")
    ctx.rect(x - SIGN_PX + 1, y - SIGN_PX + 1, 2 * SIGN_PX - 2, 2 * SIGN_PX - 2);
  else {
    ctx.moveTo(x, y - 10);
    ctx.lineTo(x + 9, y + 7);
    ctx.lineTo(x - 9, y + 7);
    ctx.closePath();
  }
  ctx.lineWidth = 4.5;
  ctx.strokeStyle = palette.raised;
  ctx.stroke();
  ctx.fillStyle = kind === "lander" ? palette.ink : palette.raised;
  ctx.fill();
  ctx.lineWidth = 2;
  ctx.strokeStyle = palette.ink;
  ctx.stroke();
}

function paintLines(brush: Brush, text: MapText, left: number, top: number): void {
  const { ctx } = brush;
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  text.lines.forEach((line, k) => {
    setFace(ctx, line.font);
    haloed(brush, line.text, left, top + (k + 0.5) * LINE_PX, text.ink(brush));
  });
}

function paintPill(brush: Brush, { text, left, top, widthPx, heightPx }: LaidText): void {
  const { ctx, palette } = brush;
  const ground = text.pill!.ground(brush);
  ctx.setLineDash([]);
  ctx.beginPath();
  ctx.arc(text.x, text.y, 7, 0, 2 * Math.PI);
  ctx.lineWidth = 3;
  ctx.strokeStyle = palette.raised;
  ctx.stroke();
  ctx.lineWidth = 2.5;
  ctx.strokeStyle = ground;
  ctx.stroke();
  ctx.beginPath();
  ctx.roundRect(left, top, widthPx, heightPx, 3);
  ctx.lineWidth = 2.5;
  ctx.strokeStyle = palette.raised;
  ctx.stroke();
  ctx.fillStyle = ground;
  ctx.fill();
  setFace(ctx, text.lines[0]!.font);
  ctx.fillStyle = text.ink(brush);
  ctx.textAlign = "center";
  ctx.textBaseline = "middle";
  ctx.fillText(text.lines[0]!.text, left + widthPx / 2, top + heightPx / 2 + 0.5);
}
