import type { Line, SiteGround, SiteLight } from "../../answers/index.ts";
import { remembered } from "../../kernel/index.ts";
import { type MapFrame, mapX, mapY } from "../../editor/map/index.ts";
import { digits } from "../../words/index.ts";
import { type Brush, setFont } from "../parts/canvas/brush.ts";
import type { Theme } from "../viewstate.ts";
import { contourHeights } from "./contourheights.ts";
import { frameBoxes } from "./framebox.ts";
import type { Picture } from "./picture.ts";

/** The ground: hillshade with shadow as a picture of the grid, contours over it. */

type Rgb = readonly [number, number, number];

/** Darkest, level and brightest ground, and ground in shadow. */
export const TONES: Readonly<
  Record<Theme, { readonly ramp: readonly [Rgb, Rgb, Rgb]; readonly shadow: Rgb }>
> = {
  light: {
    ramp: [
      [120, 108, 90],
      [214, 203, 183],
      [255, 253, 246],
    ],
    shadow: [92, 92, 112],
  },
  dark: {
    ramp: [
      [20, 21, 25],
      [66, 65, 63],
      [152, 145, 130],
    ],
    shadow: [6, 8, 22],
  },
  dim: {
    ramp: [
      [15, 16, 19],
      [52, 51, 50],
      [114, 109, 98],
    ],
    shadow: [4, 5, 20],
  },
};

/** The shading of the grid, a pixel for a point, north up; null where there is nothing to shade. */
export function shadingOf(
  ground: SiteGround,
  light: SiteLight,
  theme: Theme,
  withShade: boolean,
  withShadow: boolean,
): OffscreenCanvas | null {
  const { columns, rows, heightM } = ground;
  const { shade, lit } = light;
  if (!shade) return null;
  const canvas = new OffscreenCanvas(columns, rows);
  const ctx = canvas.getContext("2d");
  if (!ctx) return null;
  const image = ctx.createImageData(columns, rows);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const at = row * columns + column;
      // Unknown ground stays bare.
      if (Number.isNaN(heightM[at]!)) continue;
      const tone = withShade ? shade[at]! / 255 : 0.5;
      const dark = withShadow && lit !== null ? darkShare(lit, columns, rows, column, row) : 0;
      const to = 4 * ((rows - 1 - row) * columns + column);
      setPoint(image.data, to, TONES[theme], tone, dark);
    }
  }
  ctx.putImageData(image, 0, 0);
  return canvas;
}

/** Sets a point's colour: its tone between the darkest (0) and the brightest ground (1), with a share of shadow over it. */
function setPoint(
  data: Uint8ClampedArray,
  to: number,
  { ramp, shadow }: (typeof TONES)[Theme],
  tone: number,
  dark: number,
): void {
  const low = tone < 0.5 ? ramp[0] : ramp[1];
  const high = tone < 0.5 ? ramp[1] : ramp[2];
  const share = tone < 0.5 ? tone * 2 : tone * 2 - 1;
  for (let k = 0; k < 3; k += 1) {
    const bright = low[k]! + (high[k]! - low[k]!) * share;
    data[to + k] = bright + (shadow[k]! - bright) * dark;
  }
  data[to + 3] = 255;
}

/** Share of shadow about a point of the grid, itself twice: the rim of a shadow runs between points. */
function darkShare(lit: Uint8Array, columns: number, rows: number, column: number, row: number): number {
  const at = row * columns + column;
  const west = lit[column > 0 ? at - 1 : at]!;
  const east = lit[column < columns - 1 ? at + 1 : at]!;
  const south = lit[row > 0 ? at - columns : at]!;
  const north = lit[row < rows - 1 ? at + columns : at]!;
  return 1 - (2 * lit[at]! + west + east + south + north) / 6;
}

/** Paints the shading where the grid lies. */
export function paintShading(
  { ctx, palette }: Brush,
  frame: MapFrame,
  ground: SiteGround,
  shading: OffscreenCanvas,
): void {
  const { columns, rows, cellM, westM, southM } = ground;
  // A point's pixel reaches half a cell to each side of it.
  const left = mapX(frame, westM - cellM / 2);
  const top = mapY(frame, southM + (rows - 0.5) * cellM);
  ctx.imageSmoothingEnabled = true;
  ctx.imageSmoothingQuality = "high";
  ctx.drawImage(shading, left, top, columns * cellM * frame.pxPerM, rows * cellM * frame.pxPerM);
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = palette["line-strong"];
  ctx.strokeRect(left, top, columns * cellM * frame.pxPerM, rows * cellM * frame.pxPerM);
}

/** A line as a path in metres, north up. */
const pathOf = remembered((line: Line): Path2D => {
  const path = new Path2D();
  for (let k = 0; k < line.length; k += 2) {
    if (k === 0) path.moveTo(line[0]!, -line[1]!);
    else path.lineTo(line[k]!, -line[k + 1]!);
  }
  return path;
});

/** Lines in metres as one path in pixels. */
export function onMap(frame: MapFrame, lines: readonly Line[]): Path2D {
  const { pxPerM } = frame;
  const matrix = new DOMMatrix([pxPerM, 0, 0, pxPerM, mapX(frame, 0), mapY(frame, 0)]);
  const path = new Path2D();
  for (const line of lines) path.addPath(pathOf(line), matrix);
  return path;
}

/** Paints the contours, every fifth one stronger. */
export function paintContours(brush: Brush, { frame, ground, theme }: Picture): void {
  if (!ground) return;
  const { ctx, palette } = brush;
  ctx.lineJoin = "round";
  ctx.setLineDash([]);
  for (const strong of [false, true]) {
    ctx.globalAlpha = theme === "light" ? (strong ? 0.55 : 0.28) : strong ? 0.75 : 0.4;
    ctx.strokeStyle = palette["ink-soft"];
    ctx.lineWidth = strong ? 1.3 : 0.8;
    const lines = ground.contours.filter((one) => one.strong === strong).flatMap((one) => one.lines);
    ctx.stroke(onMap(frame, lines));
  }
  ctx.globalAlpha = 1;
}

/** Paints the heights of the strong contours, over whatever is hatched. */
export function paintHeights(brush: Brush, { frame, ground, plan }: Picture): void {
  if (!ground) return;
  const { ctx, palette } = brush;
  setFont(ctx, 11, 500);
  ctx.textAlign = "center";
  ctx.textBaseline = "middle";
  for (const { levelM, x, y } of contourHeights(ground, frame, plan.site.places, frameBoxes(frame)))
    haloed(brush, `${digits(levelM, 6)} m`, x, y, palette["ink-soft"]);
}

/** Text with the page's colour about it, so that it reads on any ground. */
export function haloed({ ctx, palette }: Brush, text: string, x: number, y: number, ink: string): void {
  ctx.lineJoin = "round";
  ctx.setLineDash([]);
  ctx.strokeStyle = palette.raised;
  ctx.lineWidth = 4;
  ctx.strokeText(text, x, y);
  ctx.fillStyle = ink;
  ctx.fillText(text, x, y);
}
