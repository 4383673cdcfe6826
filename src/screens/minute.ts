import type { Verdict } from "../answers/index.ts";
import type { ViewState } from "./viewstate.ts";

/**
 * The minute of line and map: under the pointer, else where pointer or keyboard were last while the window shows it, else the first
 * at which the window shows somebody out. Where it shows nobody, the last one again; before any, that of the first egress.
 */
export function minuteOf(
  { cursorS, minuteS, window }: Pick<ViewState, "cursorS" | "minuteS" | "window">,
  outings: Verdict["outings"],
): number {
  if (cursorS !== null) return cursorS;
  if (minuteS !== null && window.startS <= minuteS && minuteS <= window.endS) return minuteS;
  const out = outings
    .filter(({ span }) => span.startS < window.endS && window.startS < span.endS)
    .map(({ span }) => Math.max(span.startS, window.startS));
  return out.length > 0 ? Math.min(...out) : (minuteS ?? outings[0]?.span.startS ?? 0);
}
