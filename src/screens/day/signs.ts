import { type Slab, timeScale } from "../../editor/index.ts";
import type { Task } from "../../plan/index.ts";
import { type BlockForm, type BlockLook, paintBlock, paintGhost } from "./line/paintblocks.ts";
import { paintBelow, paintRope } from "./line/paintchances.ts";
import type { Brush } from "../parts/canvas/brush.ts";
import { paintPause } from "./line/paintribbon.ts";
import type { Hatch } from "../parts/canvas/tiles.ts";
import { dashOver, fillUnder, paintReserve, strokeOver } from "../margins/courses.ts";
import { KIND_WORDS } from "../words.ts";

/** A sign of the day line with its words; it is drawn by what draws the line itself, so the two cannot part. */
export interface Sign {
  readonly name: string;
  paint(brush: Brush): void;
}

/** Size of a sign, CSS pixels. */
export const SIGN_PX = { width: 56, height: 26 } as const;

/** A chance for a sign, as counted on ten days. */
const BELOW = { count: 8, of: 10, share: 0.8, low: 0.49, high: 0.95, words: "" };

const BLOCK: Slab = { left: 5, right: 51, topLeft: 3, topRight: 3, bottomLeft: 23, bottomRight: 23 };
const FORM: BlockForm = { slab: BLOCK, sense: "up", thickPx: 20, across: false };

function block(
  kind: Task["kind"],
  more: Partial<BlockLook> & { must?: boolean; pinned?: boolean },
): Sign["paint"] {
  const { must = false, pinned = false, ...view } = more;
  const task: BlockLook["task"] = {
    kind,
    must,
    ...(pinned ? { pin: {} } : {}),
  };
  return (brush) =>
    paintBlock(brush, FORM, { task, state: "sound", selected: false, isInHand: false, ...view });
}

/** A pause over the width of a sign. */
const PAUSE = { left: 6, right: 50, y: 13, thick: 26 };

function hatched(hatch: Hatch, ground: "outing" | "night" | "meal", line: boolean): Sign["paint"] {
  return (brush) => {
    const { ctx, palette } = brush;
    ctx.fillStyle = palette[ground];
    ctx.fillRect(2, 3, 52, 20);
    ctx.fillStyle = brush.hatch(hatch);
    ctx.fillRect(2, 3, 52, line ? 12 : 20);
    ctx.fillStyle = palette[line ? "ceiling" : "line-strong"];
    if (line) ctx.fillRect(2, 15, 52, 1.6);
    else ctx.strokeRect(2.5, 3.5, 51, 19);
  };
}

/** A stock that runs down over the width of a sign. */
const SCALE = timeScale({ startS: 0, endS: SIGN_PX.width }, SIGN_PX.width);
const FALL = {
  points: [
    { atS: 2, value: 20 },
    { atS: 54, value: 6 },
  ],
};
const FALL_Y = (value: number): number => 24 - value;

export const SIGNS: readonly { readonly title: string; readonly signs: readonly Sign[] }[] = [
  {
    title: "Tasks",
    signs: [
      ...(Object.keys(KIND_WORDS) as Task["kind"][]).map((kind) => ({
        name: KIND_WORDS[kind],
        paint: block(kind, {}),
      })),
      { name: "must-do: thick edge, deeper at its start", paint: block("sampling", { must: true }) },
      { name: "pinned: a pin at its end", paint: block("deployment", { pinned: true }) },
      { name: "breach: diamond and full frame", paint: block("survey", { state: "breach" }) },
      { name: "tight: triangle and broken frame", paint: block("survey", { state: "tight" }) },
      { name: "selected or in hand: a frame about it", paint: block("upkeep", { selected: true }) },
      {
        name: "must-do, done on fewer simulated days than wished",
        paint(brush) {
          block("sampling", { must: true })(brush);
          paintBelow(brush, FORM, BELOW, "below");
        },
      },
      {
        name: "where it was before the move",
        paint: (brush) => paintGhost(brush, BLOCK, ""),
      },
    ],
  },
  {
    title: "Lanes",
    signs: [
      { name: "walking, with its minutes", paint: hatched("traverse", "outing", false) },
      {
        name: "waiting, to a stop",
        paint: (brush) => paintPause(brush, "wait", PAUSE),
      },
      {
        name: "a rest that the work limit needs: two bars",
        paint: (brush) => paintPause(brush, "rest", PAUSE),
      },
      {
        name: "slack: a rope between two tasks",
        paint: (brush) => paintPause(brush, "slack", PAUSE),
      },
      {
        name: "slack of the selected task: to its latest start, by times alone",
        paint: (brush) => paintRope(brush, 8, BLOCK.left, 46),
      },
      {
        name: "home, between two who go out together",
        paint(brush) {
          brush.ctx.fillStyle = brush.palette.ink;
          brush.ctx.fillRect(2, 12, 52, 1.5);
        },
      },
      { name: "longest walk home that the suit carries", paint: hatched("ceiling", "outing", true) },
      {
        name: "how far from home, each ten or thirty minutes",
        paint(brush) {
          brush.ctx.fillStyle = brush.hatch("heights");
          for (const top of [6, 12, 18]) brush.ctx.fillRect(2, top, 52, 1);
        },
      },
      { name: "sleep", paint: hatched("night", "night", false) },
      { name: "meals and other blocks of the stay", paint: hatched("meal", "meal", false) },
      {
        name: "the task in hand fits, from its first to its last start",
        paint({ ctx, palette }) {
          ctx.fillStyle = palette["fit-wash"];
          ctx.fillRect(6, 2, 44, 22);
          ctx.fillStyle = palette.fit;
          ctx.fillRect(6, 2, 2, 22);
          ctx.fillRect(48, 2, 2, 22);
        },
      },
      {
        name: "it fits if the others slide",
        paint(brush) {
          brush.ctx.fillStyle = brush.hatch("slide");
          brush.ctx.fillRect(6, 2, 44, 22);
        },
      },
    ],
  },
  {
    title: "Margins",
    signs: [
      {
        name: "what is left, the least of all drawn strong",
        paint(brush) {
          fillUnder(brush, FALL, SCALE, FALL_Y, 24);
          strokeOver(brush, FALL, SCALE, FALL_Y, 1.5);
        },
      },
      {
        name: "the reserve",
        paint: (brush) => paintReserve(brush, 2, 54, 12, 10),
      },
      {
        name: "below the reserve, or over a limit",
        paint(brush) {
          brush.ctx.fillStyle = brush.hatch("breach");
          brush.ctx.fillRect(2, 3, 52, 20);
        },
      },
      {
        name: "before the move",
        paint: (brush) => dashOver(brush, FALL, SCALE, FALL_Y),
      },
    ],
  },
];
