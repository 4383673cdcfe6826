import { metTicks, petTicks, type Tick, type TimeScale, utcTicks } from "../../../editor/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { angle, clockText, type Dial } from "../../../words/index.ts";
import { type Brush, setFont, textPx } from "../../parts/canvas/brush.ts";
import { wholeMinute } from "../../wholeminute.ts";
import { shows } from "./geometry.ts";

/** Where the rows of a ruler of this height run, pixels: baselines of both clocks, and the strip of relay and sun. */
function rowsOf(rulerPx: number): { readonly large: number; readonly small: number; readonly strip: number } {
  return rulerPx < 54 ? { large: 15, small: 29, strip: 34 } : { large: 16, small: 31, strip: 37 };
}

/** Ticks nearer to each other than this run into each other's words, pixels. */
const TICK_PX = 62;

/** A label that stands on the ruler for a while: beside the column `x`, over the first of its two clocks or over both. */
export interface OnRuler {
  readonly x: number;
  readonly side: "before" | "after";
  readonly letters: number;
  readonly over: 1 | 2;
}

/** The widest a letter is on the ruler, and what the box of a label adds, pixels. */
const LETTER_PX = 8;
const AROUND_PX = 16;

/** Marks of the ruler whose words such labels would cover in part, as `paintRuler` takes them. */
export function marksUnder(dial: Dial, scale: TimeScale, labels: readonly OnRuler[]): readonly string[] {
  if (labels.length === 0) return [];
  const rooms = labels.map(({ x, side, letters, over }) => {
    const widthPx = letters * LETTER_PX + AROUND_PX;
    return { over, from: side === "before" ? x - widthPx : x, to: side === "before" ? x : x + widthPx };
  });
  const under = (tick: Tick, row: 1 | 2): boolean => {
    const [x, half] = [scale.x(tick.atS), (tick.label.length * LETTER_PX) / 2];
    return rooms.some(({ over, from, to }) => row <= over && x + half > from && x - half < to);
  };
  return [
    ...largeTicks(dial, scale).flatMap((tick) => (under(tick, 1) ? [markKey(tick, 1)] : [])),
    ...smallTicks(dial, scale).flatMap((tick) => (under(tick, 2) ? [markKey(tick, 2)] : [])),
  ];
}

function markKey({ atS }: Tick, row: 1 | 2): string {
  return `${row} ${atS}`;
}

/**
 * The ruler: the clock that is read strong, the other one under it, and one strip of relay passes with the sun in the gaps. Words of the
 * marks in `under` are left out.
 */
export function paintRuler(
  brush: Brush,
  day: { readonly plan: Plan; readonly dial: Dial; readonly sunDeg: (atS: number) => number | null },
  scale: TimeScale,
  under: ReadonlySet<string>,
): void {
  const { ctx, palette, heightPx } = brush;
  const { dial, plan } = day;
  const rows = rowsOf(heightPx);
  ctx.fillStyle = palette.raised;
  ctx.fillRect(0, 0, brush.widthPx, heightPx);
  ctx.textBaseline = "alphabetic";
  ctx.textAlign = "center";
  const large = largeTicks(dial, scale);
  const shown = (row: 1 | 2) => (tick: Tick) => !under.has(markKey(tick, row));
  for (const tick of large.filter(shown(1))) {
    const strong = tick.major || (dial.kind === "met" && tick.atS % 3600 === 0);
    ctx.fillStyle = strong ? palette.ink : palette["ink-soft"];
    setFont(ctx, strong ? 14 : 12.5, strong ? 700 : 460, "normal");
    edgeText(brush, tick.label, scale.x(tick.atS), rows.large);
  }
  ctx.fillStyle = palette["ink-soft"];
  setFont(ctx, 12, 450, "normal");
  const other =
    dial.kind === "utc" ? "MET" : dial.touchdownMs === null ? "UTC: touchdown to be given" : "UTC";
  const room = 4 + textPx(ctx, other) + 8;
  ctx.textAlign = "left";
  ctx.fillText(other, 4, rows.small);
  ctx.textAlign = "center";
  for (const tick of smallTicks(dial, scale).filter(shown(2)))
    edgeText(brush, tick.label, scale.x(tick.atS), rows.small, room);
  paintStrip(brush, plan, dial, day.sunDeg, scale, rows.strip);
  ctx.fillStyle = palette["line-strong"];
  for (const tick of large) ctx.fillRect(Math.round(scale.x(tick.atS)), heightPx - 5, 1, 5);
  ctx.fillRect(0, heightPx - 1, brush.widthPx, 1);
}

function largeTicks(dial: Dial, scale: TimeScale): readonly Tick[] {
  if (dial.kind === "utc") return utcTicks(scale, dial.touchdownMs, TICK_PX);
  return dial.kind === "pet" ? petTicks(scale, dial.phases, TICK_PX) : metTicks(scale, TICK_PX);
}

function smallTicks(dial: Dial, scale: TimeScale): readonly Tick[] {
  return dial.kind === "utc" ? metTicks(scale, TICK_PX) : utcTicks(scale, dial.touchdownMs, TICK_PX);
}

/** A centred label that is left out where the edge, or what stands at the left of it, would cut it. */
function edgeText(brush: Brush, text: string, x: number, y: number, fromPx = 0): void {
  const half = textPx(brush.ctx, text) / 2;
  if (x - half < fromPx || x + half > brush.widthPx) return;
  brush.ctx.fillText(text, x, y);
}

/** One reading of the sun takes so much room, and stands so far from the next, pixels. */
const SUN_PX = 74;
const SUN_APART_PX = 260;

function paintStrip(
  brush: Brush,
  plan: Plan,
  dial: Dial,
  sunDeg: (atS: number) => number | null,
  scale: TimeScale,
  top: number,
): void {
  const { ctx, palette, widthPx } = brush;
  const tall = brush.heightPx - 1 - top;
  ctx.fillStyle = palette.sunk;
  ctx.fillRect(0, top, widthPx, tall);
  const passes = plan.stay.relayPasses
    .filter((pass) => shows(scale, pass))
    .toSorted((a, b) => a.startS - b.startS);
  let free = 0;
  for (const pass of passes) {
    const left = Math.max(-3, scale.x(pass.startS));
    const right = Math.min(widthPx + 3, scale.x(pass.endS));
    paintSun(brush, sunDeg, scale, { from: free, to: left, y: top + tall / 2 });
    free = Math.max(free, right);
    ctx.fillStyle = palette["accent-wash"];
    ctx.fillRect(left, top, right - left, tall);
    ctx.fillStyle = palette.relay;
    ctx.fillRect(left, top, 2, tall);
    ctx.fillRect(right - 2, top, 2, tall);
    ctx.fillRect(left, top + tall - 2, right - left, 2);
    setFont(ctx, 12, 520);
    ctx.fillStyle = palette.ink;
    ctx.textAlign = "left";
    ctx.textBaseline = "middle";
    const from = Math.max(left, 0) + 6;
    const until = clockText(dial, pass.endS);
    const text = [
      `${pass.name}, ${clockText(dial, pass.startS)} to ${until}`,
      ...(left < 0 ? [`${pass.name} to ${until}`] : []),
      pass.name,
    ].find((one) => textPx(ctx, one) <= Math.min(right, widthPx) - from - 5);
    if (text !== undefined) ctx.fillText(text, from, top + tall / 2 + 0.5);
  }
  paintSun(brush, sunDeg, scale, { from: free, to: widthPx, y: top + tall / 2 });
}

/** The sun's elevation in a gap between passes, as often as it has room. */
function paintSun(
  brush: Brush,
  sunDeg: (atS: number) => number | null,
  scale: TimeScale,
  { from, to, y }: { readonly from: number; readonly to: number; readonly y: number },
): void {
  if (to - from < SUN_PX) return;
  const { ctx, palette } = brush;
  const readings = Math.max(1, Math.floor((to - from) / SUN_APART_PX));
  for (let n = 0; n < readings; n += 1) {
    const x = from + ((n + 0.5) * (to - from)) / readings;
    // On whole minutes, so that a moving window asks for few new ones.
    const degrees = sunDeg(wholeMinute(scale.at(x)));
    setFont(ctx, 12, 550);
    const text = degrees === null ? "sun not known" : `sun ${angle(degrees, "down")}`;
    const left = x - (textPx(ctx, text) + 15) / 2;
    sunMark(ctx, left + 5, y, palette.sun);
    ctx.fillStyle = palette.ink;
    ctx.textAlign = "left";
    ctx.textBaseline = "middle";
    ctx.fillText(text, left + 15, y + 0.5);
  }
}

function sunMark(ctx: CanvasRenderingContext2D, x: number, y: number, colour: string): void {
  ctx.strokeStyle = colour;
  ctx.lineWidth = 1.4;
  ctx.beginPath();
  ctx.arc(x, y, 3, 0, 2 * Math.PI);
  for (let ray = 0; ray < 8; ray += 1) {
    const [dx, dy] = [Math.cos((ray * Math.PI) / 4), Math.sin((ray * Math.PI) / 4)];
    ctx.moveTo(x + 4.6 * dx, y + 4.6 * dy);
    ctx.lineTo(x + 6.2 * dx, y + 6.2 * dy);
  }
  ctx.stroke();
}
