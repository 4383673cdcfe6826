/** What became of an activity on a simulated day. */
export const MISSED = 0;
export const DONE = 1;
/** Ended outside its window. */
export const OVERRAN = 2;
/** Inside its window but a lag or a needed task failed. */
export const IN_VAIN = 3;
/** Begun and broken off. */
export const BROKEN_OFF = 4;
/** Worked at to its end, but something rare went wrong. */
export const SPOILT = 5;

/** Why a task was not done. */
export const REASONS = [
  "none",
  "needs",
  "no way",
  "window",
  "lag",
  "turn-back",
  "left out",
  "broken off",
  "in vain",
  "rare event",
] as const;
export const NONE = 0;
export const NEEDS = 1;
export const WAY = 2;
export const WINDOW = 3;
export const LAG = 4;
export const TURN_BACK = 5;
export const LEAVE_OUT = 6;
export const BREAK_OFF = 7;
export const VAIN = 8;
export const RARE = 9;
