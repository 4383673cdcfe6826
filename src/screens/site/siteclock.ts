import { useCallback } from "react";
import { clock, touchdownMs, utcClock } from "../../words/index.ts";
import { useSession, useView } from "../context.ts";
import { wholeMinute } from "../wholeminute.ts";

/** The minute that the site shows, and how times are said on it. */

/** The minute on the map: where the day line is pointed at, else where it was last; at first the first egress. */
export function useMinute(): number {
  const first = useSession((state) => state.verdict.outings[0]?.span.startS ?? 0);
  const lengthS = useSession((state) => state.plan.stay.lengthS);
  const pointed = useView((state) => state.cursorS ?? state.minuteS);
  return Math.min(lengthS, Math.max(0, wholeMinute(pointed ?? first + 3600)));
}

/** Times to the minute on the chosen clock; phase time is read on the mission's, as many phases are shown at once. */
export function useTime(): (atS: number) => string {
  const isUtc = useView((state) => state.clock === "utc");
  const touchdown = useSession((state) => touchdownMs(state.plan));
  return useCallback(
    (atS: number) => {
      const whole = wholeMinute(atS);
      return isUtc && touchdown !== null ? utcClock(touchdown, whole) : clock(whole);
    },
    [isUtc, touchdown],
  );
}
