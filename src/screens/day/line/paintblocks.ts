import { type Slab } from "../../../editor/index.ts";
import type { Task } from "../../../plan/index.ts";
import { lasting } from "../../../words/index.ts";
import { KIND_LETTERS } from "../../words.ts";
import { type Brush, cut, setFont, textPx, traceSlab, wrapped } from "./brush.ts";

/** How a task is drawn besides its place: all of it is shown by shape or word, never by colour alone. */
export interface BlockLook {
  readonly task: Pick<Task, "kind" | "name" | "must" | "pin" | "duration">;
  readonly place: string;
  readonly state: "breach" | "tight" | "sound";
  readonly selected: boolean;
  readonly held: boolean;
}

/** Room for the kind's hatched edge, pixels. */
const EDGE_PX = 16;
/** A block narrower than this carries its letter only, one narrower than the second its name above the hatching. */
const NAME_PX = 36;
const BESIDE_PX = 84;
/** From this thickness on there is room for two lines of name and the facts. */
const FACTS_PX = 49;

/** A task as a slab: hatched edge with the kind's letter, name, place and length, must-do ridge, pin, state. */
export function paintBlock(brush: Brush, slab: Slab, look: BlockLook): void {
  const { ctx, palette } = brush;
  const { kind } = look.task;
  const width = slab.right - slab.left;
  ctx.save();
  if (look.held) {
    ctx.shadowColor = "rgb(0 0 0 / 0.35)";
    ctx.shadowBlur = 12;
    ctx.shadowOffsetY = 5;
  }
  traceSlab(ctx, slab);
  ctx.fillStyle = palette[kind];
  ctx.fill();
  ctx.shadowColor = "transparent";
  const named = width >= NAME_PX;
  const tall = slab.thick >= 40;
  const below = named && tall && width < BESIDE_PX;
  hatchEdge(brush, slab, kind, named && !below ? EDGE_PX : width, below ? EDGE_PX : null);
  // Type and marks follow the slope of a task that ends elsewhere.
  const slope = width > 0 ? (slab.topRight - slab.topLeft) / width : 0;
  ctx.transform(1, slope, 0, 1, 0, slab.topLeft - slope * slab.left);
  if (below) {
    letter(brush, kind, slab.left + 9, slab.thick - EDGE_PX / 2);
    wordsAbove(brush, slab, look, width);
  } else if (named) {
    letter(brush, kind, slab.left + EDGE_PX / 2, slab.thick / 2);
    if (tall) words(brush, slab, look, width);
    else oneLine(brush, slab, look, width);
  } else if (width >= 11) {
    letter(brush, kind, (slab.left + slab.right) / 2, slab.thick / 2);
  }
  if (look.task.must) ridge(brush, slab, width);
  if (look.task.pin) nail(brush, slab, width);
  ctx.restore();
  frame(brush, slab, look);
}

/** Hatches the left edge, or the foot of `footPx` where the name stands above. It follows the slab's slope. */
function hatchEdge(
  brush: Brush,
  slab: Slab,
  kind: Task["kind"],
  widthPx: number,
  footPx: number | null,
): void {
  const { ctx } = brush;
  const slope = (slab.topRight - slab.topLeft) / Math.max(1, slab.right - slab.left);
  ctx.save();
  // The hatching travels with its block.
  ctx.transform(1, slope, 0, 1, slab.left, slab.topLeft);
  ctx.fillStyle = brush.hatch(kind);
  if (footPx === null) ctx.fillRect(0, 0, widthPx, slab.thick);
  else ctx.fillRect(0, slab.thick - footPx, widthPx, footPx);
  ctx.restore();
}

function letter(brush: Brush, kind: Task["kind"], x: number, y: number): void {
  const { ctx, palette } = brush;
  ctx.fillStyle = palette[kind];
  ctx.fillRect(x - 5.5, y - 8, 11, 16);
  ctx.fillStyle = palette.ink;
  setFont(ctx, 13, 750);
  ctx.textAlign = "center";
  ctx.textBaseline = "middle";
  ctx.fillText(KIND_LETTERS[kind], x, y + 0.5);
}

function words(brush: Brush, slab: Slab, look: BlockLook, width: number): void {
  const { ctx, palette } = brush;
  const at = slab.left + EDGE_PX + 4;
  const room = width - EDGE_PX - 6;
  ctx.textAlign = "left";
  ctx.textBaseline = "alphabetic";
  ctx.fillStyle = palette.ink;
  setFont(ctx, 13.5, 640);
  const lines = wrapped(ctx, look.task.name, room, 2);
  lines.forEach((line, i) => ctx.fillText(line, at, 16 + i * 13.5));
  // Under two lines of name the facts would stand in their tails.
  if (lines.length > 1 && slab.thick < FACTS_PX) return;
  setFont(ctx, 12, 440);
  ctx.fillText(cut(ctx, facts(look), room), at, slab.thick - 5);
}

/** Where the block is narrow the name takes its whole width, above the hatched foot. */
function wordsAbove(brush: Brush, slab: Slab, look: BlockLook, width: number): void {
  const { ctx, palette } = brush;
  ctx.textAlign = "left";
  ctx.textBaseline = "alphabetic";
  ctx.fillStyle = palette.ink;
  setFont(ctx, 12, 620);
  const lines = wrapped(ctx, look.task.name, width - 5, slab.thick >= 54 ? 3 : 2);
  lines.forEach((line, i) => ctx.fillText(line, slab.left + 3, 14.5 + i * 11.5));
}

function facts(look: BlockLook): string {
  const parts = [lasting(look.task.duration.likelyS, "up"), look.place];
  if (look.task.must) parts.unshift("must");
  if (look.task.pin) parts.unshift("pinned");
  return parts.join(" · ");
}

function oneLine(brush: Brush, slab: Slab, look: BlockLook, width: number): void {
  const { ctx, palette } = brush;
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  ctx.fillStyle = palette.ink;
  setFont(ctx, 12.5, 620);
  const room = width - EDGE_PX - 6;
  const text = cut(ctx, look.task.name, room);
  // A stump of a word tells nothing that the letter does not.
  if (text.length < Math.min(5, look.task.name.length)) return;
  ctx.fillText(text, slab.left + EDGE_PX + 4, slab.thick / 2 + 0.5);
}

/** Must-do: a solid ridge along the top with a keel at its left end. */
function ridge(brush: Brush, slab: Slab, width: number): void {
  const { ctx, palette } = brush;
  ctx.fillStyle = palette.ink;
  ctx.fillRect(slab.left, 0, width, 3.5);
  ctx.beginPath();
  ctx.moveTo(slab.left, 3.5);
  ctx.lineTo(slab.left + Math.min(8, width), 3.5);
  ctx.lineTo(slab.left, 11.5);
  ctx.fill();
}

/** Pinned: a nail through the top right corner. */
function nail(brush: Brush, slab: Slab, width: number): void {
  const { ctx, palette } = brush;
  const x = slab.right - Math.min(8, width / 2);
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 1.6;
  ctx.beginPath();
  ctx.moveTo(x, 8);
  ctx.lineTo(x, 17);
  ctx.stroke();
  ctx.beginPath();
  ctx.arc(x, 6.5, Math.min(3.2, width / 2), 0, 2 * Math.PI);
  ctx.fillStyle = palette.ink;
  ctx.fill();
}

function frame(brush: Brush, slab: Slab, look: BlockLook): void {
  const { ctx, palette } = brush;
  traceSlab(ctx, slab, -0.5);
  ctx.lineWidth = 1;
  ctx.strokeStyle = palette.ink;
  ctx.stroke();
  if (look.state !== "sound") {
    traceSlab(ctx, slab, -1.5);
    ctx.lineWidth = 3;
    ctx.strokeStyle = palette[look.state];
    ctx.setLineDash(look.state === "tight" ? [5, 3] : []);
    ctx.stroke();
    ctx.setLineDash([]);
    if (slab.right - slab.left >= 13) {
      stateMark(brush, look.state, slab.right - 8, slab.topRight + slab.thick - 8);
    }
  }
  if (look.selected || look.held) {
    traceSlab(ctx, slab, 2.5);
    ctx.lineWidth = 3;
    ctx.strokeStyle = palette.accent;
    ctx.stroke();
  }
}

/** A breach is a filled diamond with a bar, a tight one a filled triangle: told apart without colour. */
export function stateMark(brush: Brush, state: "breach" | "tight", x: number, y: number): void {
  const { ctx, palette } = brush;
  ctx.fillStyle = palette[state];
  ctx.beginPath();
  if (state === "breach") {
    ctx.moveTo(x, y - 7);
    ctx.lineTo(x + 7, y);
    ctx.lineTo(x, y + 7);
    ctx.lineTo(x - 7, y);
  } else {
    ctx.moveTo(x, y - 6);
    ctx.lineTo(x + 6.5, y + 5.5);
    ctx.lineTo(x - 6.5, y + 5.5);
  }
  ctx.fill();
  ctx.fillStyle = state === "breach" ? palette["on-breach"] : palette["on-tight"];
  ctx.fillRect(x - 0.9, y - 3.5, 1.8, state === "breach" ? 4.6 : 4.4);
  ctx.fillRect(x - 0.9, y + 2.2, 1.8, 1.8);
}

/** The slab where a held task was taken from: an empty outline. */
export function paintGhost(brush: Brush, slab: Slab, name: string): void {
  const { ctx, palette } = brush;
  ctx.save();
  traceSlab(ctx, slab, -0.5);
  ctx.setLineDash([4, 3]);
  ctx.lineWidth = 1.5;
  ctx.strokeStyle = palette["ink-soft"];
  ctx.stroke();
  const room = slab.right - slab.left - 8;
  setFont(ctx, 11.5, 440);
  ctx.fillStyle = palette["ink-soft"];
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  const text = `was here: ${name}`;
  if (room > 40 && textPx(ctx, "was here") < room) {
    ctx.fillText(cut(ctx, text, room), slab.left + 5, slab.topLeft + slab.thick / 2);
  }
  ctx.restore();
}
