import { beyondHome, type TimeScale } from "../../../../editor/index.ts";
import { type Brush, setFace } from "../../../parts/canvas/brush.ts";
import { HALF_TEXT_PX } from "./place.ts";
import { NAME_FACE, type Named, SIGN_FACE } from "./usenames.ts";

/**
 * Names of blocks on rows in the free sky, each with its hairline, and what else is written there: where they were placed, moved
 * along where the window has been zoomed since. None of tasks in hand, and none that words of the hand would cover in part.
 */
export function paintNames(
  brush: Brush,
  named: Named,
  scale: TimeScale,
  { inHand, covered }: { readonly inHand: readonly string[]; readonly covered: ReadonlySet<string> },
): void {
  const { ctx, palette } = brush;
  const lanes = new Map(named.layout.lanes.map((lane) => [lane.key, lane]));
  const shift = (x: number): number => (scale === named.scale ? 0 : scale.x(named.scale.at(x)) - x);
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  ctx.lineJoin = "round";
  const names = named.names.filter(({ task, key }) => !inHand.includes(task) && !covered.has(key));
  ctx.fillStyle = palette["ink-soft"];
  for (const { lane: key, hair, foot, out } of names) {
    const lane = lanes.get(key);
    if (!lane) continue;
    const ends = [beyondHome(lane, foot), beyondHome(lane, out - HALF_TEXT_PX)];
    const top = Math.min(...ends);
    ctx.fillRect(Math.round(hair + shift(hair)), top, 1, Math.max(...ends) - top);
  }
  setFace(ctx, NAME_FACE);
  for (const { lane: key, text, x0, out, hair } of names) {
    const lane = lanes.get(key);
    if (lane) rimmed(brush, text, x0 + 1.5 + shift(hair), beyondHome(lane, out), palette.ink);
  }
  // What a move does to these is told elsewhere.
  if (inHand.length > 0) return;
  for (const { lane: key, text, colour, x, out, line } of named.signs) {
    const lane = lanes.get(key);
    if (!lane) continue;
    const by = shift(line?.x ?? x);
    if (line) {
      ctx.fillStyle = palette[colour];
      const [near, far] = [beyondHome(lane, line.near), beyondHome(lane, line.far)];
      ctx.fillRect(line.x + by - 0.75, Math.min(near, far), 1.5, Math.abs(far - near));
      for (const y of [near, far]) ctx.fillRect(line.x + by - 4, y - 0.75, 8, 1.5);
    }
    setFace(ctx, SIGN_FACE);
    rimmed(brush, text, x + by, beyondHome(lane, out), palette[colour]);
  }
}

function rimmed(brush: Brush, text: string, x: number, y: number, colour: string): void {
  const { ctx, palette } = brush;
  ctx.lineWidth = 3.5;
  ctx.strokeStyle = palette.outing;
  ctx.strokeText(text, x, y + 0.5);
  ctx.fillStyle = colour;
  ctx.fillText(text, x, y + 0.5);
}
