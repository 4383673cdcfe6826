/** Sizes of the day line, CSS pixels. Heights add up; nothing else measures the line. */

export const AXIS_PX = 44;
export const EVA_ROW_PX = 24;
export const SKY_PX = 40;
export const HEAD_PX = AXIS_PX + EVA_ROW_PX + SKY_PX;

export const REMOTE_ROW_PX = 24;
export const REMOTE_PAD_PX = 5;

/** Thickness of the ribbon of work in a crew lane, and the free space above and below it. */
export const THICK_PX = 46;
export const LANE_HEAD_PX = 9;
export const LANE_FOOT_PX = 15;

export const CREW_LANE_LEAST_PX = 96;
export const CREW_LANE_MOST_PX = 152;

/** Height of a margin's strip, and of the gap between suits. */
export const STRIP_PX = 22;
export const STRIP_GAP_PX = 8;

export const OVERVIEW_PX = 34;

/** How far a pressed pointer may wander and still be a click. */
export const CLICK_PX = 4;
/** How near a start must be to draw a held task to it. */
export const SNAP_PX = 9;
/** How near a pointer must come to a block: a finger is wider than a mouse. */
export const SLACK_PX = { mouse: 0, pen: 3, touch: 10 } as const;
/** How near the edge a held task moves the window. */
export const EDGE_PX = 36;
