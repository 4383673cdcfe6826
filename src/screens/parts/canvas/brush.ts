import type { Slab } from "../../../editor/index.ts";
import type { Palette } from "../../theme/palette.ts";
import type { Columns } from "./changed.ts";
import { type Hatch, hatching } from "./tiles.ts";

/** A canvas with the theme's colours, hatchings and type at hand. All sizes are CSS pixels. */
export interface Brush {
  readonly ctx: CanvasRenderingContext2D;
  readonly palette: Palette;
  readonly widthPx: number;
  readonly heightPx: number;
  hatch(name: Hatch): CanvasPattern | string;
}

/**
 * Makes a brush for a canvas of this size and pixel density, and empties what it will paint: the whole canvas, or only some columns
 * of it, outside of which it then leaves no trace. `done` ends a painting.
 */
export function brushFor(
  canvas: HTMLCanvasElement,
  palette: Palette,
  widthPx: number,
  heightPx: number,
  density: number,
  columns: Columns | null,
): { readonly brush: Brush; readonly done: () => void } | null {
  const ctx = canvas.getContext("2d");
  if (!ctx) return null;
  const width = Math.max(1, Math.round(widthPx * density));
  const height = Math.max(1, Math.round(heightPx * density));
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  }
  ctx.setTransform(density, 0, 0, density, 0, 0);
  ctx.save();
  if (columns === null) ctx.clearRect(0, 0, widthPx, heightPx);
  else {
    // Whole pixels of the screen: half ones would leave a seam.
    const from = Math.floor(columns.fromPx * density) / density;
    const to = Math.ceil(columns.toPx * density) / density;
    ctx.beginPath();
    ctx.rect(from, 0, to - from, heightPx);
    ctx.clip();
    ctx.clearRect(from, 0, to - from, heightPx);
  }
  const brush = { ctx, palette, widthPx, heightPx, hatch: hatchesFor(palette, density) };
  return { brush, done: () => ctx.restore() };
}

let hatches: { palette: Palette; density: number; of: ReturnType<typeof hatching> } | null = null;

function hatchesFor(palette: Palette, density: number): ReturnType<typeof hatching> {
  if (hatches?.palette !== palette || hatches.density !== density) {
    hatches = { palette, density, of: hatching(palette, density) };
  }
  return hatches.of;
}

/** Sets the house face for what is written and measured next; `narrow` for names in little room. */
export function setFont(
  ctx: CanvasRenderingContext2D,
  sizePx: number,
  weight: number,
  width: "narrow" | "normal" = "narrow",
): void {
  setFace(ctx, font(sizePx, weight, width));
}

/** Sets a face from `font`. */
export function setFace(ctx: CanvasRenderingContext2D, wanted: string): void {
  face = wanted;
  ctx.font = wanted;
}

/** The face that was set last. Asking the context for it would have it spelt out anew each time. */
let face = "";

/** The house face as a CSS font. */
export function font(sizePx: number, weight: number, width: "narrow" | "normal" = "narrow"): string {
  const stretch = width === "narrow" ? "condensed" : "normal";
  return `${stretch} ${weight} ${sizePx}px "Encode Sans Variable", system-ui, sans-serif`;
}

/** Traces the outline of a slab, `outPx` outside of its edges. */
export function traceSlab(ctx: CanvasRenderingContext2D, slab: Slab, outPx = 0): void {
  ctx.beginPath();
  if (slab.topLeft === slab.topRight && slab.bottomLeft === slab.bottomRight) {
    // Most stand level, and a rectangle is drawn far quicker than a path.
    ctx.rect(
      slab.left - outPx,
      slab.topLeft - outPx,
      slab.right - slab.left + 2 * outPx,
      slab.bottomLeft - slab.topLeft + 2 * outPx,
    );
    return;
  }
  ctx.moveTo(slab.left - outPx, slab.topLeft - outPx);
  ctx.lineTo(slab.right + outPx, slab.topRight - outPx);
  ctx.lineTo(slab.right + outPx, slab.bottomRight + outPx);
  ctx.lineTo(slab.left - outPx, slab.bottomLeft + outPx);
  ctx.closePath();
}

/** Width of `text` in the face that was set last; measured once for each text and face. */
export function textPx(ctx: CanvasRenderingContext2D, text: string): number {
  const key = `${face}|${text}`;
  let width = measured.get(key);
  if (width === undefined) {
    width = ctx.measureText(text).width;
    if (measured.size > 20_000) measured.clear();
    measured.set(key, width);
  }
  return width;
}

/** The same letter by letter, without what pairs of letters share: for figures that are new in every frame, where half a pixel is no matter. */
export function figurePx(ctx: CanvasRenderingContext2D, text: string): number {
  let width = 0;
  for (const letter of text) width += textPx(ctx, letter);
  return width;
}

/** The same in a face from `font`, which is set only where the width is not known yet: setting it is dear. */
export function facePx(ctx: CanvasRenderingContext2D, wanted: string, text: string): number {
  const known = measured.get(`${wanted}|${text}`);
  if (known !== undefined) return known;
  setFace(ctx, wanted);
  return textPx(ctx, text);
}

const measured = new Map<string, number>();

/** Forgets all widths: the face has arrived after the first painting. */
export function forgetWidths(): void {
  measured.clear();
}

/** `text` shortened with an ellipsis to fit `roomPx`; empty when not even one letter fits. */
export function cut(ctx: CanvasRenderingContext2D, text: string, roomPx: number): string {
  if (textPx(ctx, text) <= roomPx) return text;
  let low = 0;
  let high = text.length;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (textPx(ctx, `${text.slice(0, middle)}…`) <= roomPx) low = middle;
    else high = middle - 1;
  }
  return low === 0 ? "" : `${text.slice(0, low).trimEnd()}…`;
}
