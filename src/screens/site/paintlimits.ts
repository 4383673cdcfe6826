import type { SiteRing } from "../../answers/index.ts";
import { type MapFrame, mapX, mapY } from "../../editor/map/index.ts";
import type { KeepOut, Plan } from "../../plan/index.ts";
import { crewName, lasting } from "../../words/index.ts";
import { type Brush } from "../parts/canvas/brush.ts";
import { CONSUMABLE_WORDS } from "../words.ts";
import { crewStyle } from "./crewstyle.ts";
import { onMap } from "./paintground.ts";
import type { Picture } from "./picture.ts";

/** What bounds the crew on the ground: keep-outs hatched, limits of the walk back as lines. */

/** The outline of a keep-out in pixels. */
function outlineOf(frame: MapFrame, shape: KeepOut["shape"]): Path2D {
  const path = new Path2D();
  if (shape.type === "disc") {
    const radius = Math.max(2, shape.radiusM * frame.pxPerM);
    path.arc(mapX(frame, shape.eastM), mapY(frame, shape.northM), radius, 0, 2 * Math.PI);
  } else {
    shape.points.forEach(({ eastM, northM }, k) => {
      if (k === 0) path.moveTo(mapX(frame, eastM), mapY(frame, northM));
      else path.lineTo(mapX(frame, eastM), mapY(frame, northM));
    });
    path.closePath();
  }
  return path;
}

/** Keep-outs: nobody walks in slanted ones; nobody works in those with the finer hatching once the heat is there. */
export function paintKeepOuts(brush: Brush, { frame, plan, theme }: Picture): void {
  const { ctx, palette } = brush;
  for (const { kind, shape } of plan.site.keepOuts) {
    const path = outlineOf(frame, shape);
    ctx.globalAlpha = theme === "light" ? 0.6 : 0.75;
    ctx.fillStyle = brush.hatch(kind === "walking" ? "ceiling" : "reserve");
    ctx.fill(path);
    ctx.globalAlpha = 1;
    ctx.setLineDash(kind === "walking" ? [] : [3, 3]);
    ctx.lineWidth = 1.5;
    ctx.strokeStyle = kind === "walking" ? palette.ceiling : palette.reserve;
    ctx.stroke(path);
  }
  ctx.setLineDash([]);
}

/** `33 min: emergency oxygen`, `1:12: EV1 cooling water`; what is left is rounded down. */
export function ringWords(plan: Plan, ring: SiteRing): string {
  const time = ring.seconds > 0 ? lasting(ring.seconds, "down") : "nothing left";
  if (ring.by === null) {
    const all = ring.crew.length === plan.crew.length;
    const what = ring.kind === "shared" ? "with cooling shared" : "emergency oxygen";
    return `${time}: ${what}${all ? "" : ` of ${ring.crew.map((one) => crewName(plan, one)).join(", ")}`}`;
  }
  const what = CONSUMABLE_WORDS[ring.by];
  const plain = what.startsWith("CO2") ? what : what.toLowerCase();
  return `${time}: ${crewName(plan, ring.crew[0]!)} ${plain}`;
}

/** How a limit's line is drawn. */
interface RingStroke {
  readonly colour: keyof Brush["palette"];
  readonly widthPx: number;
  /** Of the page's colour that lies under it, so that it is seen on any ground. */
  readonly underPx: number;
  readonly dash: readonly number[];
}

/** Emergency oxygen as a full line, dashed with cooling shared; what a suit has left in its wearer's own pattern, thin. */
function strokeOf(plan: Plan, ring: SiteRing): RingStroke {
  if (ring.kind !== "stock") {
    const dash = ring.kind === "shared" ? [9, 6] : [];
    return { colour: "breach", widthPx: 2.5, underPx: 5.5, dash };
  }
  const { colour, dash } = crewStyle(plan, ring.crew[0]!);
  return { colour, widthPx: 1.75, underPx: 4, dash: dash.length === 0 ? [18, 3] : dash };
}

/** Limits of the walk back. */
export function paintRings(brush: Brush, picture: Picture): void {
  const { ctx, palette } = brush;
  const { frame, plan, rings, layers } = picture;
  ctx.lineJoin = "round";
  for (const ring of rings) {
    if (!(ring.kind !== "stock" ? layers.emergency : layers.stocks)) continue;
    const stroke = strokeOf(plan, ring);
    const path = onMap(frame, ring.lines);
    ctx.setLineDash([]);
    ctx.strokeStyle = palette.raised;
    ctx.globalAlpha = 0.8;
    ctx.lineWidth = stroke.underPx;
    ctx.stroke(path);
    ctx.globalAlpha = 1;
    ctx.strokeStyle = palette[stroke.colour];
    ctx.lineWidth = stroke.widthPx;
    ctx.setLineDash([...stroke.dash]);
    ctx.stroke(path);
  }
  ctx.setLineDash([]);
}

/** Where a limit's words go: the point of its lines that is seen and lies highest. */
export function ringAnchor(
  frame: MapFrame,
  ring: SiteRing,
): { readonly x: number; readonly y: number } | null {
  let best: { x: number; y: number } | null = null;
  for (const line of ring.lines) {
    if (line.length < 40) continue;
    for (let k = 0; k < line.length; k += 2) {
      const x = mapX(frame, line[k]!);
      const y = mapY(frame, line[k + 1]!);
      if (x < 60 || y < 24 || x > frame.widthPx - 60 || y > frame.heightPx - 90) continue;
      if (!best || y < best.y) best = { x, y };
    }
  }
  return best;
}
