/** Sizes of the day line, CSS pixels. Heights add up; nothing else measures the line. */

export const AXIS_PX = 44;
export const EVA_ROW_PX = 24;
export const SKY_PX = 36;

/** Height of axes, EVAs in so many rows, and sky. */
export function headPx(evaRows: number): number {
  return AXIS_PX + evaRows * EVA_ROW_PX + SKY_PX;
}

export const REMOTE_ROW_PX = 19;
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

/** Heights of a margin's strip: one of many, or the one of a suit; and the gap between suits. */
export const STRIP_PX = 20;
export const LEAST_STRIP_PX = 36;
export const STRIP_GAP_PX = 7;

export const OVERVIEW_PX = 30;

/** How far a pressed pointer may wander and still be a click. */
export const CLICK_PX = 4;
export const TOUCH_CLICK_PX = 9;
/** How near the side of a block a pointer takes its end. */
export const GRIP_PX = 6;
/** How long a finger must rest for the menu, ms. */
export const REST_MS = 550;
/** How near a start must be to draw a held task to it. */
export const SNAP_PX = 9;
/** How near a pointer must come to a block: a finger is wider than a mouse. */
export const SLACK_PX = { mouse: 0, pen: 3, touch: 10 } as const;
/** How near the edge a held task moves the window. */
export const EDGE_PX = 36;
