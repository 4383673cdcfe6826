/** How long a task in hand must rest near an edge before the window moves, ms. */
const REST_MS = 300;
/** Share of the window that moves in a frame for each pixel beyond the edge. */
const SHARE = 0.0002;

/** Moves the window under what is in hand near an edge of the line. */
export interface EdgeRoll {
  /** What is in hand has moved: begins when it is beyond an edge. */
  watch(): void;
  stop(): void;
}

/**
 * Rests near the edge move the window, faster the farther out; passing by does not. `beyond` is how far what is in hand
 * is out, pixels: negative at the left, positive at the right, 0 between. `move` is called a frame with the share of
 * the window to go.
 */
export function edgeRoll(beyond: () => number, move: (share: number) => void): EdgeRoll {
  let frame = 0;
  let sinceMs: number | null = null;
  const roll = (nowMs: number): void => {
    frame = 0;
    const out = beyond();
    if (out === 0) {
      sinceMs = null;
      return;
    }
    frame = requestAnimationFrame(roll);
    sinceMs ??= nowMs;
    if (nowMs - sinceMs >= REST_MS) move(out * SHARE);
  };
  return {
    watch() {
      if (frame === 0 && beyond() !== 0) frame = requestAnimationFrame(roll);
    },
    stop() {
      cancelAnimationFrame(frame);
      frame = 0;
      sinceMs = null;
    },
  };
}
