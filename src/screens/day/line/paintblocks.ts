import type { Lane, Slab } from "../../../editor/index.ts";
import type { Task } from "../../../plan/index.ts";
import {
  type BlockText,
  type Face,
  type Measure,
  type Room,
  textAcross,
  textBeside,
  type Words,
} from "./blocktext.ts";
import {
  type Brush,
  cut,
  facePx,
  font,
  setFace,
  setFont,
  textPx,
  traceSlab,
} from "../../parts/canvas/brush.ts";
import { edgePx } from "./sizes.ts";

/** How a task is drawn besides its place: all of it is shown by shape or word, never by colour alone. */
export interface BlockLook {
  readonly task: Pick<Task, "kind" | "must" | "pin">;
  readonly state: "breach" | "tight" | "sound";
  readonly selected: boolean;
  readonly isInHand: boolean;
}

/** The form of a block: where it stands, which way its heights go, and how much of it is ribbon. */
export interface BlockForm {
  readonly slab: Slab;
  readonly sense: Lane["sense"];
  /** Thickness of the ribbon; what a block for two has beyond it reaches to the line home. Pixels. */
  readonly thickPx: number;
  /** Reaches to the line home, where its other half goes on. */
  readonly across: boolean;
  /** A row of work by command: too low for a hatching along its edge, which stands at its left. */
  readonly row?: boolean;
}

/** Width of the hatching at the left of a row. */
const ROW_EDGE_PX = 6;

/** The far edge of a block and the way home from it, down the screen or up. */
export function farEdge({ slab, sense }: Pick<BlockForm, "slab" | "sense">): {
  readonly left: number;
  readonly right: number;
  readonly home: 1 | -1;
} {
  return sense === "up"
    ? { left: slab.topLeft, right: slab.topRight, home: 1 }
    : { left: slab.bottomLeft, right: slab.bottomRight, home: -1 };
}

/** A task as a slab: the kind's hatching along its far edge, must-do ridge, pin, state. */
export function paintBlock(brush: Brush, form: BlockForm, view: BlockLook): void {
  const { ctx, palette } = brush;
  const { slab } = form;
  ctx.save();
  if (view.isInHand) {
    ctx.shadowColor = "rgb(0 0 0 / 0.35)";
    ctx.shadowBlur = 12;
    ctx.shadowOffsetY = 5;
  }
  traceSlab(ctx, slab);
  ctx.fillStyle = palette[view.task.kind];
  ctx.fill();
  ctx.shadowColor = "transparent";
  if (form.across) paintWeb(brush, form);
  hatchEdge(brush, form, view.task.kind);
  if (view.task.must) ridge(brush, form);
  if (view.task.pin) pinHead(brush, form);
  ctx.restore();
  frame(brush, form, view);
}

/** Between the ribbon and the line home a block for two is brighter: the field of its name. */
function paintWeb(brush: Brush, form: BlockForm): void {
  const { ctx, palette } = brush;
  const { slab, sense, thickPx } = form;
  const far = farEdge(form);
  const web: Slab =
    sense === "up"
      ? { ...slab, topLeft: far.left + thickPx, topRight: far.right + thickPx }
      : { ...slab, bottomLeft: far.left - thickPx, bottomRight: far.right - thickPx };
  ctx.globalAlpha = 0.5;
  traceSlab(ctx, web);
  ctx.fillStyle = palette.outing;
  ctx.fill();
  ctx.globalAlpha = 1;
}

/** Hatches the far edge. The hatching travels with its block and follows its slope. */
function hatchEdge(brush: Brush, form: BlockForm, kind: Task["kind"]): void {
  const { ctx } = brush;
  const { slab, thickPx } = form;
  const far = farEdge(form);
  const row = form.row === true;
  const width = Math.min(slab.right - slab.left, row ? ROW_EDGE_PX : Infinity);
  const deep = row ? thickPx : edgePx(thickPx);
  ctx.save();
  ctx.transform(1, (far.right - far.left) / Math.max(1, width), 0, 1, slab.left, far.left);
  ctx.fillStyle = brush.hatch(kind);
  ctx.fillRect(0, far.home > 0 ? 0 : -deep, width, deep);
  ctx.restore();
}

/** Must-do: a solid ridge along the far edge with a keel at its left end. */
function ridge(brush: Brush, form: BlockForm): void {
  const { ctx, palette } = brush;
  const { slab } = form;
  const far = farEdge(form);
  const deep = 3.5 * far.home;
  const width = slab.right - slab.left;
  const keel = Math.min(9, width);
  ctx.fillStyle = palette.ink;
  ctx.beginPath();
  ctx.moveTo(slab.left, far.left);
  ctx.lineTo(slab.right, far.right);
  ctx.lineTo(slab.right, far.right + deep);
  ctx.lineTo(slab.left + keel, far.left + ((far.right - far.left) * keel) / width + deep);
  ctx.lineTo(slab.left, far.left + 12 * far.home);
  ctx.fill();
}

/** Pinned: a pin through the far corner on the right. */
function pinHead(brush: Brush, form: BlockForm): void {
  const { ctx, palette } = brush;
  const { slab } = form;
  const far = farEdge(form);
  const width = slab.right - slab.left;
  const x = slab.right - Math.min(8, width / 2);
  const y = far.right;
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 1.6;
  ctx.beginPath();
  ctx.moveTo(x, y + 8 * far.home);
  ctx.lineTo(x, y + 17 * far.home);
  ctx.stroke();
  ctx.beginPath();
  ctx.arc(x, y + 6.5 * far.home, Math.min(3.2, width / 2), 0, 2 * Math.PI);
  ctx.fillStyle = palette.ink;
  ctx.fill();
}

/** The outline; of a block across the line home only its own half. */
function traceOutline(
  ctx: CanvasRenderingContext2D,
  { slab, sense, across }: BlockForm,
  outPx: number,
): void {
  if (!across) {
    traceSlab(ctx, slab, outPx);
    return;
  }
  const [left, right] = [slab.left - outPx, slab.right + outPx];
  ctx.beginPath();
  if (sense === "up") {
    ctx.moveTo(left, slab.bottomLeft);
    ctx.lineTo(left, slab.topLeft - outPx);
    ctx.lineTo(right, slab.topRight - outPx);
    ctx.lineTo(right, slab.bottomRight);
  } else {
    ctx.moveTo(left, slab.topLeft);
    ctx.lineTo(left, slab.bottomLeft + outPx);
    ctx.lineTo(right, slab.bottomRight + outPx);
    ctx.lineTo(right, slab.topRight);
  }
}

function frame(brush: Brush, form: BlockForm, view: BlockLook): void {
  const { ctx, palette } = brush;
  const { slab } = form;
  traceOutline(ctx, form, -0.5);
  ctx.lineWidth = 1;
  ctx.strokeStyle = palette.ink;
  ctx.stroke();
  if (view.state !== "sound") {
    traceOutline(ctx, form, -1.5);
    ctx.lineWidth = 3;
    ctx.strokeStyle = palette[view.state];
    ctx.setLineDash(view.state === "tight" ? [5, 3] : []);
    ctx.stroke();
    ctx.setLineDash([]);
    if (slab.right - slab.left >= 13) {
      const far = farEdge(form);
      stateMark(brush, view.state, slab.right - 8, far.right + (form.thickPx - 8) * far.home);
    }
  }
  if (view.selected || view.isInHand) {
    traceOutline(ctx, form, 2.5);
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

const FACES: Readonly<Record<Face, string>> = {
  number: font(13, 750),
  name: font(12.5, 500),
  strong: font(12.5, 650),
  facts: font(12.5, 500),
};

/** Widths of what is written in blocks. */
export function blockMeasure(ctx: CanvasRenderingContext2D): Measure {
  return (text, face) => facePx(ctx, FACES[face], text);
}

/** What bounds the words in a block: the part of it in sight, the room that a plate or the mark of a state takes. */
export interface InBlock {
  readonly widthPx: number;
  readonly plate: boolean;
  readonly marked: boolean;
}

/** How much of the far edge words leave free. */
function edgeTaken(thickPx: number, plate: boolean): number {
  return plate ? PLATE_PX.from + PLATE_PX.tall : edgePx(thickPx) + 2;
}

/** What the simulated days say stands on a plate below the ridge, over the hatching. Pixels from the far edge. */
export const PLATE_PX = { from: 4, tall: 13 } as const;
/** The mark of a state stands in the near corner. */
const MARK_PX = 8;

/** What stands in a block of one, as far as it is in sight. */
export function wordsOf(form: BlockForm, words: Words, room: InBlock, px: Measure): BlockText {
  const { slab, thickPx } = form;
  const sight = inSight(slab, room.widthPx);
  if (form.row) {
    const { topLeft: top, bottomLeft: bottom } = slab;
    // In so low a row there is no room over the mark of a state: words stand beside it.
    const [left, right] = [sight.left + ROW_EDGE_PX, sight.right - (room.marked ? 2 * MARK_PX : 0)];
    return textBeside({ left, right, top: top + 1, bottom: bottom + 1 }, words, px);
  }
  const far = farEdge(form);
  const edge = edgeTaken(thickPx, room.plate);
  const deep = thickPx - 3 - (room.marked ? MARK_PX : 0);
  // Where the block slants, what is level in it is less.
  const [high, low] = [Math.min(far.left, far.right), Math.max(far.left, far.right)];
  const [top, bottom] = far.home > 0 ? [low + edge, high + deep] : [low - deep, high - edge];
  return textBeside({ ...sight, top, bottom }, words, px);
}

/** What stands across the line home in a block for two. */
export function wordsAcross(
  { upper, lower }: { readonly upper: Slab; readonly lower: Slab },
  thickPx: number,
  words: Words,
  room: InBlock,
  px: Measure,
): BlockText {
  const top = Math.max(upper.topLeft, upper.topRight) + edgeTaken(thickPx, room.plate);
  const bottom = Math.min(lower.bottomLeft, lower.bottomRight) - edgeTaken(thickPx, false);
  return textAcross({ ...inSight(upper, room.widthPx), top, bottom }, words, px);
}

function inSight(slab: Slab, widthPx: number): Pick<Room, "left" | "right"> {
  return { left: Math.max(slab.left, 1), right: Math.min(slab.right, widthPx) };
}

/** Writes what stands in a block. */
export function paintWords(brush: Brush, text: BlockText): void {
  const { ctx, palette } = brush;
  ctx.fillStyle = palette.ink;
  ctx.textBaseline = "alphabetic";
  ctx.textAlign = text.align;
  for (const line of text.lines) {
    setFace(ctx, FACES[line.face]);
    ctx.fillText(line.text, line.x, line.y);
  }
}

/** The slab where a task in hand was taken from: an empty outline, with its name where one is given. */
export function paintGhost(brush: Brush, slab: Slab, name: string): void {
  const { ctx, palette } = brush;
  ctx.save();
  traceSlab(ctx, slab, -0.5);
  // Empty: what lies there now is not what was there.
  ctx.fillStyle = palette.outing;
  ctx.fill();
  ctx.setLineDash([4, 3]);
  ctx.lineWidth = 1.5;
  ctx.strokeStyle = palette["ink-soft"];
  ctx.stroke();
  const room = name === "" ? 0 : slab.right - slab.left - 8;
  setFont(ctx, 12, 440);
  ctx.fillStyle = palette["ink-soft"];
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  const text = `was here: ${name}`;
  if (room > 40 && textPx(ctx, "was here") < room) {
    ctx.fillText(cut(ctx, text, room), slab.left + 5, (slab.topLeft + slab.bottomLeft) / 2);
  }
  ctx.restore();
}
