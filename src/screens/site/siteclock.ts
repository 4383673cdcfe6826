import { useCallback } from "react";
import { clock, touchdownMs, utcClock } from "../../words/index.ts";
import { useDesk, useLook } from "../context.ts";

/** The minute that the site shows, and how times are said on it. */

/** The minute on the map: where the day line is pointed at, else where it was last; at first the first egress. */
export function useMinute(): number {
  const first = useDesk((state) => state.verdict.outings[0]?.span.startS ?? 0);
  const lengthS = useDesk((state) => state.plan.stay.lengthS);
  const pointed = useLook((state) => state.cursorS ?? state.minuteS);
  return Math.min(lengthS, Math.max(0, Math.round((pointed ?? first + 3600) / 60) * 60));
}

/** Times to the minute on the chosen clock; phase time is read on the mission's, as many phases are shown at once. */
export function useTime(): (atS: number) => string {
  const isUtc = useLook((state) => state.clock === "utc");
  const touchdown = useDesk((state) => touchdownMs(state.plan));
  return useCallback(
    (atS: number) => {
      const whole = Math.round(atS / 60) * 60;
      return isUtc && touchdown !== null ? utcClock(touchdown, whole) : clock(whole);
    },
    [isUtc, touchdown],
  );
}
