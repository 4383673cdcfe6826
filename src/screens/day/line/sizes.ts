/** Sizes of the day line, CSS pixels. Heights add up; nothing else measures the line. */

/** The parts of the line but for the lanes, which have the rest. */
export interface LineSizes {
  readonly rulerPx: number;
  /** One suit's strip of margins, how far apart, and any other. */
  readonly suitPx: number;
  readonly apartPx: number;
  readonly stripPx: number;
  readonly stayPx: number;
  readonly gutterPx: number;
}

/** From these on the box of the line has room for taller parts, pixels. */
const MIDDLE_PX = 720;
const TALL_PX = 900;
const WIDE_PX = 1090;

/** The sizes for a box of this size and so many crew members. */
export function lineSizes(widthPx: number, heightPx: number, crew: number): LineSizes {
  const low = heightPx < MIDDLE_PX;
  const suit = low ? 34 : heightPx < TALL_PX ? 52 : 64;
  const apart = low ? 27 : heightPx < TALL_PX ? 36 : 46;
  // Many suits take so much that the lanes would come below 60 % of a low window.
  const many = crew > 2;
  return {
    rulerPx: low ? 50 : 54,
    suitPx: many ? (low ? 24 : 32) : suit,
    apartPx: many && low ? 24 : apart,
    stripPx: 22,
    stayPx: low ? 26 : 30,
    gutterPx: widthPx < WIDE_PX ? 124 : 132,
  };
}

export const REMOTE_ROW_PX = 18;
export const REMOTE_PAD_PX = 3;

/** The lowest lane that can still be read; a small crew need not go so low. */
export function leastLanePx(crew: number): number {
  return crew > 2 ? 64 : 88;
}

/** Thickness of the ribbon of work in a crew lane of this height. */
export function thickPx(crewPx: number): number {
  return Math.round(Math.max(28, Math.min(104, crewPx * 0.29)));
}

/** Free space in a crew lane beyond what stands farthest from home: for the ceiling's hatching and names. */
export function skyPx(crewPx: number): number {
  return crewPx > 150 ? 38 : crewPx > 100 ? 34 : 12;
}

/** Thickness of the hatching along the far edge of a block: the kind of the task. */
export function edgePx(ribbonPx: number): number {
  return ribbonPx >= 44 ? 8 : 6;
}

/** How far a pressed pointer may wander and still be a click. */
export const CLICK_PX = 4;
export const TOUCH_CLICK_PX = 9;
/** How near the side of a block a pointer takes its end. */
export const GRIP_PX = 6;
/** How long a finger must rest for the menu, ms. */
export const REST_MS = 550;
/** How near a start must be to draw a task in hand to it. */
export const SNAP_PX = 9;
/** How near a pointer must come to a block: a finger is wider than a mouse. */
export const SLACK_PX = { mouse: 0, pen: 3, touch: 10 } as const;
/** How near the edge a task in hand moves the window. */
export const EDGE_PX = 36;
