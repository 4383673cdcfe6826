import { minuteFigure } from "../../../words/index.ts";
import type { ReachTrack } from "../../../answers/index.ts";
import {
  awayPx,
  type Between,
  beyondHome,
  homeY,
  type Lane,
  outerY,
  type TimeScale,
  valueNear,
} from "../../../editor/index.ts";
import { type Brush, facePx, font, setFace, setFont, textPx } from "../../parts/canvas/brush.ts";
import { shows, type DayLayout } from "./geometry.ts";

/** The way home under the ribbon of a crew member: as deep as the walk home is long. */
export function paintGround(
  brush: Brush,
  layout: DayLayout,
  lane: Lane,
  track: ReachTrack,
  scale: TimeScale,
): void {
  const { ctx, palette } = brush;
  const first = track.points[0];
  const last = track.points.at(-1);
  if (!first || !last || !shows(scale, { startS: first.atS, endS: last.atS })) return;
  ctx.beginPath();
  ctx.moveTo(scale.x(first.atS), homeY(lane));
  for (const point of track.points) {
    ctx.lineTo(scale.x(point.atS), beyondHome(lane, awayPx(lane, layout.relief, point.value)));
  }
  ctx.lineTo(scale.x(last.atS), homeY(lane));
  ctx.closePath();
  ctx.fillStyle = palette.sunk;
  ctx.fill();
}

/** The line home, common to both lanes of a band. */
export function paintHome(brush: Brush, lane: Lane): void {
  brush.ctx.fillStyle = brush.palette.ink;
  brush.ctx.fillRect(0, homeY(lane) - 0.75, brush.widthPx, 1.5);
}

/** How deep the hatching beyond the ceiling is, pixels. */
const TOO_FAR_PX = 14;

/** The longest walk home that the suit still carries: a ceiling over the ribbon, hatched beyond. */
export function paintCeiling(
  brush: Brush,
  layout: DayLayout,
  lane: Lane,
  track: ReachTrack,
  scale: TimeScale,
): void {
  const { ctx, palette } = brush;
  const points = track.allowed.map((point) => ({
    x: scale.x(point.atS),
    y: outerY(lane, layout.relief, point.value),
  }));
  const first = points[0];
  const last = points.at(-1);
  if (!first || !last || last.x < 0 || first.x > brush.widthPx) return;
  // A strip along a level ceiling; where it falls, all that lies beyond it.
  const level = Math.max(...points.map(({ y }) => Math.abs(y - homeY(lane))));
  const edge = beyondHome(lane, level + TOO_FAR_PX);
  ctx.save();
  ctx.beginPath();
  ctx.moveTo(first.x, edge);
  for (const point of points) ctx.lineTo(point.x, point.y);
  ctx.lineTo(last.x, edge);
  ctx.closePath();
  ctx.globalAlpha = 0.5;
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

/** What lies between the tasks of a lane and its neighbour, and what is needed to draw it. */
interface Ribbon {
  readonly layout: DayLayout;
  readonly lane: Lane;
  /** The walk home of the outing that it belongs to. */
  readonly track: ReachTrack | undefined;
  readonly scale: TimeScale;
}

/** Words on the ribbon, that stand in its middle at `x` on a rim. */
interface RibbonWords {
  readonly face: string;
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly rimPx: number;
}

/** A stretch between tasks, where it is drawn, and by how much the task before a wait may start later. */
export interface BetweenOnRibbon {
  readonly between: Between;
  readonly ribbon: Ribbon;
  readonly slackS: number | null;
}

/**
 * Ways, waits and the work at both ends of an outing, then what is written on them: face by face, since setting one is dear.
 */
export function paintBetweens(brush: Brush, all: readonly BetweenOnRibbon[]): void {
  const { ctx } = brush;
  ctx.save();
  const words = all.flatMap((one) => paintBetween(brush, one));
  ctx.restore();
  ctx.save();
  ctx.textAlign = "center";
  ctx.textBaseline = "alphabetic";
  ctx.lineJoin = "round";
  for (const face of [WAY_FACE, PAUSE_FACE]) {
    const own = words.filter((one) => one.face === face);
    if (own.length > 0) setFace(ctx, face);
    for (const one of own) halo(brush, one);
  }
  ctx.restore();
}

function paintBetween(brush: Brush, { ribbon, between, slackS }: BetweenOnRibbon): readonly RibbonWords[] {
  if (between.kind === "wait") return paintWait(brush, ribbon, between, slackS);
  if (between.kind === "traverse") return paintWay(brush, ribbon, between);
  brush.ctx.save();
  paintHatch(brush, ribbon, between);
  brush.ctx.restore();
  return [];
}

/** The ribbon over a stretch as the context's path: it bends wherever the walk home does. */
function traceRibbon(ctx: CanvasRenderingContext2D, ribbon: Ribbon, { startS, endS }: Between): void {
  const { lane, track, scale, layout } = ribbon;
  const bends = (track?.points ?? []).filter(({ atS }) => atS > startS && atS < endS);
  const course = [
    { atS: startS, homeS: valueNear(track, startS, 0) },
    ...bends.map(({ atS, value }) => ({ atS: Number(atS), homeS: value })),
    { atS: endS, homeS: valueNear(track, endS, 0) },
  ].map(({ atS, homeS }) => ({ x: scale.x(atS), away: awayPx(lane, layout.relief, homeS) }));
  const thick = layout.relief.thickPx;
  ctx.beginPath();
  for (const { x, away } of course) ctx.lineTo(x, beyondHome(lane, away + thick));
  for (const { x, away } of course.toReversed()) ctx.lineTo(x, beyondHome(lane, away));
  ctx.closePath();
}

/** The middle of the ribbon at a moment, pixels from the top. */
function ribbonMiddle(ribbon: Ribbon, atS: number): number {
  const { lane, track, layout } = ribbon;
  const away = awayPx(lane, layout.relief, valueNear(track, atS, 0));
  return beyondHome(lane, away + layout.relief.thickPx / 2);
}

/** Faces of what is written on the ribbon. They are set only where something is: setting one is dear. */
const WAY_FACE = font(12.5, 600);
export const PAUSE_FACE = font(12.5, 500);

/** A way narrower than this carries no figure, and one shorter than this needs none. */
const WAY_PX = 15;
const WAY_S = 240;

function paintWay(brush: Brush, ribbon: Ribbon, between: Between): readonly RibbonWords[] {
  const { ctx, palette } = brush;
  const left = ribbon.scale.x(between.startS);
  const right = ribbon.scale.x(between.endS);
  traceRibbon(ctx, ribbon, between);
  ctx.fillStyle = palette.outing;
  ctx.fill();
  ctx.fillStyle = brush.hatch("traverse");
  ctx.fill();
  ctx.lineWidth = 0.8;
  ctx.strokeStyle = palette.traverse;
  ctx.stroke();
  const lengthS = between.endS - between.startS;
  if (right - left < WAY_PX || lengthS < WAY_S) return [];
  const text = minuteFigure(lengthS, "up");
  if (facePx(ctx, WAY_FACE, text) > right - left - 3) return [];
  const y = ribbonMiddle(ribbon, (between.startS + between.endS) / 2) + 4.5;
  return [{ face: WAY_FACE, text, x: (left + right) / 2, y, rimPx: 5 }];
}

/** Egress or ingress: one box for both who share the line home, named once. */
function paintHatch(brush: Brush, { layout, lane, scale }: Ribbon, between: Between): void {
  const { ctx, palette } = brush;
  const left = scale.x(between.startS);
  const right = scale.x(between.endS);
  const home = homeY(lane);
  const far = beyondHome(lane, layout.relief.thickPx);
  ctx.fillStyle = palette.raised;
  ctx.fillRect(left, Math.min(home, far), right - left, Math.abs(far - home));
  ctx.beginPath();
  ctx.moveTo(left, home);
  ctx.lineTo(left, far);
  ctx.lineTo(right, far);
  ctx.lineTo(right, home);
  ctx.lineWidth = 1;
  ctx.strokeStyle = palette["line-strong"];
  ctx.stroke();
  const same = layout.betweens.some(
    (one) => one.lane === lane.mate && one.kind === between.kind && one.startS === between.startS,
  );
  // The lower half is painted last, so that no half covers the words.
  if (same && lane.sense === "up") return;
  const tall = Math.abs(far - home) * (same ? 2 : 1);
  nameHatch(brush, between, { left, right, y: same ? home : (home + far) / 2, tall });
}

function nameHatch(
  brush: Brush,
  { kind, startS, endS }: Between,
  { left, right, y, tall }: { left: number; right: number; y: number; tall: number },
): void {
  const { ctx, palette } = brush;
  const word = kind === "egress" ? "Egress" : "Ingress";
  const minutes = Math.ceil((endS - startS) / 60);
  const x = (left + right) / 2;
  ctx.textAlign = "center";
  ctx.textBaseline = "alphabetic";
  ctx.fillStyle = palette.ink;
  setFont(ctx, 12.5, 600);
  const wide = Math.max(textPx(ctx, word), textPx(ctx, `${minutes} min`)) + 4;
  if (right - left >= wide) {
    ctx.fillText(word, x, y - 2);
    ctx.fillStyle = palette["ink-soft"];
    setFont(ctx, 12.5, 500);
    ctx.fillText(`${minutes} min`, x, y + 13);
    return;
  }
  // A person who shares the line home with nobody has half of the height.
  const text = [`${word} ${minutes}`, word].find((one) => textPx(ctx, one) <= tall - 6);
  if (right - left < 15 || text === undefined) return;
  ctx.translate(x + 4.5, y);
  ctx.rotate(-Math.PI / 2);
  ctx.fillText(text, 0, 0);
}

/** The parts of a wait: a rest that the work limit relies on at its end, what is free before it. */
export function waitParts(
  between: Between,
  slackS: number | null,
): readonly { readonly kind: "rest" | "slack" | "wait"; readonly startS: number; readonly endS: number }[] {
  const { startS, endS, rest } = between;
  const freeS = (rest ? rest.startS : endS) - startS;
  const free = slackS !== null && slackS >= LEAST_SLACK_S ? ("slack" as const) : ("wait" as const);
  return [
    ...(freeS > 0 ? [{ kind: free, startS, endS: startS + freeS }] : []),
    ...(rest ? [{ kind: "rest" as const, startS: rest.startS, endS: rest.endS }] : []),
  ];
}

/** Slack shorter than this is none worth a rope, seconds. */
const LEAST_SLACK_S = 90;

/** `rest 10`, `wait 4`, in begun minutes; slack in whole ones, and never more than there is. */
export function waitWords(
  part: ReturnType<typeof waitParts>[number],
  slackS: number | null,
): readonly [string, string] {
  const lengthS = part.endS - part.startS;
  const minutes =
    part.kind === "slack" ? Math.floor(Math.min(lengthS, slackS ?? lengthS) / 60) : Math.ceil(lengthS / 60);
  return [part.kind, String(minutes)];
}

function paintWait(
  brush: Brush,
  ribbon: Ribbon,
  between: Between,
  slackS: number | null,
): readonly RibbonWords[] {
  return waitParts(between, slackS).flatMap((part) => {
    const left = ribbon.scale.x(part.startS);
    const right = ribbon.scale.x(part.endS);
    if (right - left < 2) return [];
    const y = ribbonMiddle(ribbon, (part.startS + part.endS) / 2);
    paintPause(brush, part.kind, { left, right, y, thick: ribbon.layout.relief.thickPx });
    const words = pauseFits(waitWords(part, slackS), right - left, (text) =>
      facePx(brush.ctx, PAUSE_FACE, text),
    );
    return words ? pauseWords(part.kind, words, (left + right) / 2, y) : [];
  });
}

/** Where a pause is drawn: from side to side about `y`. */
export interface PausePlace {
  readonly left: number;
  readonly right: number;
  readonly y: number;
  readonly thick: number;
}

/** The bars of a rest leave room for its words, pixels. */
const REST_PX = 14;

/** A rest as two bars, slack as a hanging rope, a wait as a dotted line with a stop at its end. */
export function paintPause(
  brush: Brush,
  kind: "rest" | "slack" | "wait",
  { left, right, y, thick }: PausePlace,
): void {
  const { ctx, palette } = brush;
  ctx.setLineDash([]);
  ctx.lineWidth = 2;
  ctx.strokeStyle = palette["ink-soft"];
  ctx.beginPath();
  if (kind === "rest") {
    // A sign of the legend is lower than that, and has no words.
    const apart = thick < 2 * REST_PX ? thick / 2 - 4 : Math.min(Math.max(thick / 2 - 5, REST_PX), 20);
    for (const at of [y - apart, y + apart]) {
      ctx.moveTo(left + 2, at);
      ctx.lineTo(right - 2, at);
    }
    ctx.stroke();
    return;
  }
  if (kind === "slack") {
    const top = y - thick * 0.22;
    ctx.strokeStyle = palette.fit;
    ctx.moveTo(left + 1, top);
    ctx.quadraticCurveTo(
      (left + right) / 2,
      top + Math.min(thick * 1.1, (right - left) * 2 + 8),
      right - 1,
      top,
    );
    ctx.stroke();
    ctx.fillStyle = palette.fit;
    for (const x of [left + 1, right - 1]) {
      ctx.beginPath();
      ctx.arc(x, top, 2.2, 0, 2 * Math.PI);
      ctx.fill();
    }
    return;
  }
  ctx.setLineDash([2, 3]);
  ctx.lineWidth = 1.6;
  ctx.moveTo(left + 1, y);
  ctx.lineTo(right - 1, y);
  ctx.stroke();
  ctx.setLineDash([]);
  ctx.beginPath();
  ctx.moveTo(right - 1, y - 6);
  ctx.lineTo(right - 1, y + 6);
  ctx.stroke();
}

/** Words in two lines stand nearer to the ends than one line; a rope hangs steeply there, so that they keep farther off it, pixels. */
const BESIDE_PX = { rope: 9, else: 1 } as const;

/** A pause's words in one line or in two, whichever has room between its ends; null where neither has. */
export function pauseFits(
  [kind, minutes]: readonly [string, string],
  roomPx: number,
  px: (text: string) => number,
): readonly string[] | null {
  if (px(`${kind} ${minutes}`) + 5 <= roomPx) return [`${kind} ${minutes}`];
  const beside = kind === "slack" ? BESIDE_PX.rope : BESIDE_PX.else;
  return Math.max(px(kind), px(minutes)) + beside <= roomPx ? [kind, minutes] : null;
}

function pauseWords(kind: string, words: readonly string[], x: number, y: number): readonly RibbonWords[] {
  // On a rope and a line words stand above what is drawn.
  const base = kind === "wait" && words.length === 1 ? y - 4 : y + 4.5;
  return words.map((text, i) => ({
    face: PAUSE_FACE,
    text,
    x,
    y: words.length === 1 ? base : y - 2 + i * 13.5,
    rimPx: 3,
  }));
}

/** Text on a rim of the ground's colour, so that it is read over lines. */
function halo({ ctx, palette }: Brush, { text, x, y, rimPx }: RibbonWords): void {
  ctx.lineWidth = rimPx;
  ctx.strokeStyle = palette.outing;
  ctx.strokeText(text, x, y);
  ctx.fillStyle = palette.ink;
  ctx.fillText(text, x, y);
}
