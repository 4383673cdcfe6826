import type { Verdict } from "../../../answers/index.ts";
import { evaRowsOf, metTicks, petTicks, type Tick, type TimeScale, utcTicks } from "../../../editor/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { angle, clock, clockText, type Dial, lasting } from "../../../words/index.ts";
import { type Brush, cut, setFont, textPx } from "./brush.ts";
import { shows } from "./geometry.ts";
import { AXIS_PX, EVA_ROW_PX, SKY_PX } from "./sizes.ts";

/** Both clocks: the one that is read large above; universal time below, or mission time below universal. */
export function paintAxes(brush: Brush, dial: Dial, scale: TimeScale): void {
  const { ctx, palette } = brush;
  ctx.fillStyle = palette.raised;
  ctx.fillRect(0, 0, brush.widthPx, AXIS_PX);
  ctx.textBaseline = "alphabetic";
  ctx.textAlign = "center";
  for (const tick of largeTicks(dial, scale)) {
    const x = Math.round(scale.x(tick.atS)) + 0.5;
    ctx.fillStyle = palette.ink;
    ctx.fillRect(x - 0.5, tick.major ? 20 : 22, tick.major ? 2 : 1, tick.major ? 6 : 4);
    setFont(ctx, tick.major ? 16 : 14, tick.major ? 720 : 480, "normal");
    edgeText(brush, tick.label, x, 16);
  }
  ctx.fillStyle = palette["line-strong"];
  ctx.fillRect(0, 26, brush.widthPx, 1);
  for (const tick of dial.kind === "utc" ? metTicks(scale, 62) : utcTicks(scale, dial.touchdownMs, 62)) {
    const x = Math.round(scale.x(tick.atS)) + 0.5;
    ctx.fillStyle = palette["ink-soft"];
    ctx.fillRect(x - 0.5, 27, tick.major ? 2 : 1, tick.major ? 6 : 4);
    setFont(ctx, 12, tick.major ? 680 : 440, "normal");
    edgeText(brush, tick.label, x, 41);
  }
}

function largeTicks(dial: Dial, scale: TimeScale): readonly Tick[] {
  if (dial.kind === "utc") return utcTicks(scale, dial.touchdownMs, 62);
  return dial.kind === "pet" ? petTicks(scale, dial.phases, 62) : metTicks(scale, 62);
}

/** A centred label that is left out where the edge would cut it. */
function edgeText(brush: Brush, text: string, x: number, y: number): void {
  const half = textPx(brush.ctx, text) / 2;
  if (x - half < 0 || x + half > brush.widthPx) return;
  brush.ctx.fillText(text, x, y);
}

/** Rows of the EVAs: each takes up what it may and what it does. */
export function evaRows(plan: Plan, verdict: Verdict): ReturnType<typeof evaRowsOf> {
  return evaRowsOf(
    plan.evas.map((eva) => {
      const outing = verdict.outings.find((one) => one.eva === eva.id);
      return {
        startS: Math.min(eva.earliestEgressS, outing?.span.startS ?? Infinity),
        endS: Math.max(eva.latestIngressS, outing?.span.endS ?? -Infinity),
      };
    }),
  );
}

/** Each EVA: how long it may be as a bracket, how long it is as a bar with egress, ingress and length in words. */
export function paintEvas(brush: Brush, plan: Plan, verdict: Verdict, dial: Dial, scale: TimeScale): void {
  const { ctx, palette } = brush;
  const { row, rows } = evaRows(plan, verdict);
  ctx.fillStyle = palette.sunk;
  ctx.fillRect(0, 0, brush.widthPx, rows * EVA_ROW_PX);
  for (const [i, eva] of plan.evas.entries()) {
    const top = row[i]! * EVA_ROW_PX;
    const middle = top + EVA_ROW_PX / 2;
    const bracket = { startS: eva.earliestEgressS, endS: eva.latestIngressS };
    if (shows(scale, bracket)) {
      const x = scale.x(bracket.startS);
      const right = scale.x(bracket.endS);
      ctx.fillStyle = palette["ink-soft"];
      ctx.fillRect(x, middle - 0.5, right - x, 1);
      ctx.fillRect(x, top + 4, 2, EVA_ROW_PX - 8);
      ctx.fillRect(right - 2, top + 4, 2, EVA_ROW_PX - 8);
    }
    const outing = verdict.outings.find((one) => one.eva === eva.id);
    const span = outing?.span ?? bracket;
    if (!shows(scale, span)) continue;
    const x = scale.x(span.startS);
    const right = scale.x(span.endS);
    const from = Math.max(2, x);
    const room = Math.min(brush.widthPx - 2, right) - from;
    const lengthS = span.endS - span.startS;
    if (outing) {
      const late = lengthS > eva.longestS || span.startS < bracket.startS || span.endS > bracket.endS;
      ctx.fillStyle = late ? palette.breach : palette.ink;
      ctx.fillRect(x, top + 2, right - x, EVA_ROW_PX - 4);
      ctx.fillStyle = late ? palette["on-breach"] : palette.paper;
    } else {
      ctx.fillStyle = palette.sunk;
      ctx.fillRect(from, top + 3, Math.min(room, 150), EVA_ROW_PX - 6);
      ctx.fillStyle = palette.ink;
    }
    setFont(ctx, 13.5, 640, "normal");
    ctx.textAlign = "left";
    ctx.textBaseline = "middle";
    const texts = outing
      ? [
          `${eva.name}   out ${clockText(dial, span.startS, eva.id)}   in ${clockText(dial, span.endS, eva.id)}   lasts ${lasting(lengthS, "up")} of ${clock(eva.longestS)}`,
          `${eva.name}   lasts ${lasting(lengthS, "up")} of ${clock(eva.longestS)}`,
          eva.name,
        ]
      : [`${eva.name}, nothing placed`, eva.name];
    const text = texts.find((one) => textPx(ctx, one) <= room - 12) ?? cut(ctx, eva.name, room - 8);
    ctx.fillText(text, from + 6, middle + 0.5);
  }
}

/** Relay passes as bars, the sun's elevation as a line with degrees. */
export function paintSky(
  brush: Brush,
  plan: Plan,
  sunDeg: (atS: number) => number | null,
  scale: TimeScale,
  top: number,
): void {
  const { ctx, palette } = brush;
  ctx.fillStyle = palette.paper;
  ctx.fillRect(0, top, brush.widthPx, SKY_PX);
  for (const pass of plan.stay.relayPasses) {
    if (!shows(scale, pass)) continue;
    const x = Math.max(-4, scale.x(pass.startS));
    const right = Math.min(brush.widthPx + 4, scale.x(pass.endS));
    ctx.fillStyle = palette["accent-wash"];
    ctx.fillRect(x, top + 2, right - x, 15);
    ctx.fillStyle = palette.relay;
    ctx.fillRect(x, top + 2, 2, 15);
    ctx.fillRect(right - 2, top + 2, 2, 15);
    ctx.fillRect(x, top + 15.5, right - x, 1.5);
    setFont(ctx, 12, 540);
    ctx.fillStyle = palette.ink;
    ctx.textAlign = "left";
    ctx.textBaseline = "middle";
    const from = Math.max(x, 0) + 5;
    if (textPx(ctx, pass.name) <= right - from - 3) ctx.fillText(pass.name, from, top + 9.5);
  }
  paintSun(brush, plan, sunDeg, scale, top + 19, SKY_PX - 20);
  ctx.fillStyle = palette["line-strong"];
  ctx.fillRect(0, top + SKY_PX - 1, brush.widthPx, 1);
}

/** Instants of the sun's line, so that a move of the window asks for few new ones. */
const SUN_STEP_S = 600;

function paintSun(
  brush: Brush,
  plan: Plan,
  sunDeg: (atS: number) => number | null,
  scale: TimeScale,
  top: number,
  height: number,
): void {
  const { ctx, palette } = brush;
  const start = sunDeg(0);
  const end = sunDeg(plan.stay.lengthS);
  setFont(ctx, 12, 540);
  ctx.textBaseline = "middle";
  if (start === null || end === null) {
    ctx.fillStyle = palette.ink;
    ctx.textAlign = "left";
    ctx.fillText("Sun elevation unknown: the body has no ephemeris", 6, top + height / 2);
    return;
  }
  const low = Math.min(start, end) - 1;
  const high = Math.max(start, end) + 1;
  const y = (degrees: number): number => top + height - 3 - ((degrees - low) / (high - low)) * (height - 6);
  ctx.beginPath();
  const { startS, endS } = scale.window;
  const stepS = SUN_STEP_S * Math.max(1, Math.ceil((endS - startS) / (24 * SUN_STEP_S)));
  for (let atS = Math.floor(startS / stepS) * stepS; atS < endS + stepS; atS += stepS) {
    const degrees = sunDeg(atS);
    if (degrees !== null) ctx.lineTo(scale.x(atS), y(degrees));
  }
  ctx.strokeStyle = palette.sun;
  ctx.lineWidth = 2;
  ctx.stroke();
  ctx.textAlign = "center";
  for (const tick of metTicks(scale, 150)) {
    const degrees = sunDeg(tick.atS);
    const x = scale.x(tick.atS);
    if (degrees === null || x < 20 || x > brush.widthPx - 20) continue;
    const text = angle(degrees, "down");
    const wide = textPx(ctx, text) + 6;
    ctx.fillStyle = palette.paper;
    ctx.fillRect(x - wide / 2, top + 2, wide, height - 4);
    ctx.fillStyle = palette.tight;
    ctx.fillText(text, x, top + height / 2 + 0.5);
  }
}
