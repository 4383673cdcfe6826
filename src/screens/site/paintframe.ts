import type { SiteLight } from "../../answers/index.ts";
import { type MapFrame, scaleBar } from "../../editor/map/index.ts";
import { metres } from "../../words/index.ts";
import { type Brush, setFont } from "../parts/canvas/brush.ts";
import { ROSE, SCALE } from "./framebox.ts";
import { haloed } from "./paintground.ts";

/** Scale bar, north, and where the sunlight comes from, at the lower left of the map. */
export function paintFrame(brush: Brush, frame: MapFrame, light: SiteLight | null): void {
  const { ctx, palette } = brush;
  const bar = scaleBar(frame.pxPerM, SCALE.mostPx);
  const y = frame.heightPx - SCALE.abovePx;
  const { x } = SCALE;
  const words = metres(bar.metres, "given");
  ctx.setLineDash([]);
  for (const [width, colour] of [
    [7, palette.raised],
    [3, palette.ink],
  ] as const) {
    ctx.beginPath();
    ctx.moveTo(x, y - 6);
    ctx.lineTo(x, y);
    ctx.lineTo(x + bar.px, y);
    ctx.lineTo(x + bar.px, y - 6);
    ctx.lineWidth = width;
    ctx.strokeStyle = colour;
    ctx.lineJoin = "miter";
    ctx.stroke();
  }
  setFont(ctx, 13, 640);
  ctx.textAlign = "center";
  ctx.textBaseline = "alphabetic";
  haloed(brush, words, x + bar.px / 2, y - 9, palette.ink);
  paintRose(brush, ROSE.x, frame.heightPx - ROSE.abovePx, light);
}

/** North up, and a sun on its side of the horizon; a hollow one while it is down. */
function paintRose(brush: Brush, x: number, y: number, light: SiteLight | null): void {
  const { ctx, palette } = brush;
  const { radius } = ROSE;
  ctx.beginPath();
  ctx.arc(x, y, radius, 0, 2 * Math.PI);
  ctx.fillStyle = palette.raised;
  ctx.globalAlpha = 0.85;
  ctx.fill();
  ctx.globalAlpha = 1;
  ctx.lineWidth = 1.5;
  ctx.strokeStyle = palette["line-strong"];
  ctx.stroke();
  ctx.beginPath();
  ctx.moveTo(x, y - radius + 3);
  ctx.lineTo(x + 6, y + 8);
  ctx.lineTo(x, y + 4);
  ctx.lineTo(x - 6, y + 8);
  ctx.closePath();
  ctx.fillStyle = palette.ink;
  ctx.fill();
  setFont(ctx, 12, 700);
  ctx.textAlign = "center";
  ctx.textBaseline = "alphabetic";
  haloed(brush, "N", x, y - radius - 4, palette.ink);
  if (!light?.sun) return;
  const angle = (light.sun.azimuthDeg * Math.PI) / 180;
  ctx.beginPath();
  ctx.arc(x + radius * Math.sin(angle), y - radius * Math.cos(angle), 6, 0, 2 * Math.PI);
  ctx.lineWidth = 2;
  ctx.strokeStyle = palette.sun;
  ctx.fillStyle = light.sun.elevationDeg > 0 ? palette.sun : palette.raised;
  ctx.fill();
  ctx.stroke();
}
