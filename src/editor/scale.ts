/** A stretch of time as it is looked at: seconds from touchdown, not necessarily whole. */
export interface TimeWindow {
  readonly startS: number;
  readonly endS: number;
}

/** Time against pixels. `x` and `at` are each other's inverse. */
export interface TimeScale {
  readonly window: TimeWindow;
  readonly widthPx: number;
  readonly pxPerS: number;
  /** Pixels from the left edge. */
  x(atS: number): number;
  /** Seconds from touchdown. */
  at(px: number): number;
}

/** How far a window may go. */
export interface WindowLimits extends TimeWindow {
  /** The closest look, seconds. */
  readonly leastS: number;
}

/** The scale that shows `window` on `widthPx` pixels. A window or width of nothing counts as one. */
export function timeScale(window: TimeWindow, widthPx: number): TimeScale {
  const width = Math.max(1, widthPx);
  const lengthS = Math.max(1, window.endS - window.startS);
  return {
    window,
    widthPx: width,
    pxPerS: width / lengthS,
    x: (atS) => ((atS - window.startS) / lengthS) * width,
    at: (px) => window.startS + (px / width) * lengthS,
  };
}

/** `window` made `factor` times as long with `aboutS` staying where it is on screen, kept inside `limits`. */
export function zoomed(window: TimeWindow, aboutS: number, factor: number, limits: WindowLimits): TimeWindow {
  const lengthS = window.endS - window.startS;
  const longest = limits.endS - limits.startS;
  const next = Math.min(longest, Math.max(Math.min(limits.leastS, longest), lengthS * factor));
  const share = lengthS > 0 ? (aboutS - window.startS) / lengthS : 0.5;
  return kept({ startS: aboutS - share * next, endS: aboutS + (1 - share) * next }, limits);
}

/** `window` moved by `byS`, stopped at the limits. */
export function panned(window: TimeWindow, byS: number, limits: WindowLimits): TimeWindow {
  return kept({ startS: window.startS + byS, endS: window.endS + byS }, limits);
}

/** The window that shows all of `spans` with a margin of `pad` (a share of the length) at both ends. */
export function framing(spans: readonly TimeWindow[], pad: number, limits: WindowLimits): TimeWindow {
  if (spans.length === 0) return { startS: limits.startS, endS: limits.endS };
  const startS = Math.min(...spans.map((one) => one.startS));
  const endS = Math.max(...spans.map((one) => one.endS));
  const lengthS = Math.max(limits.leastS, (endS - startS) * (1 + 2 * pad));
  const middle = (startS + endS) / 2;
  return kept({ startS: middle - lengthS / 2, endS: middle + lengthS / 2 }, limits);
}

/** `window` moved no farther than needed to show `span`; unchanged when it already does. */
export function revealing(window: TimeWindow, span: TimeWindow, limits: WindowLimits): TimeWindow {
  const lengthS = window.endS - window.startS;
  const pad = lengthS * 0.06;
  if (span.startS >= window.startS + pad && span.endS <= window.endS - pad) return window;
  // What fits with less air about it stays where it is seen whole.
  if (span.endS - span.startS + 2 * pad > lengthS && span.startS >= window.startS && span.endS <= window.endS)
    return window;
  if (span.endS - span.startS + 2 * pad > lengthS)
    return panned(window, span.startS - pad - window.startS, limits);
  const byS =
    span.startS < window.startS + pad ? span.startS - pad - window.startS : span.endS + pad - window.endS;
  return panned(window, byS, limits);
}

/** Moves a window inside the limits; one that is longer than they are becomes them. */
function kept(window: TimeWindow, limits: WindowLimits): TimeWindow {
  const lengthS = window.endS - window.startS;
  if (lengthS >= limits.endS - limits.startS) return { startS: limits.startS, endS: limits.endS };
  const startS = Math.min(limits.endS - lengthS, Math.max(limits.startS, window.startS));
  return { startS, endS: startS + lengthS };
}
