import type { SitePlace } from "../../answers/index.ts";
import type { Interval } from "../../kernel/index.ts";
import { angle } from "../../words/index.ts";

/** What a place's light is at a moment. */
export function lightWord({ lit, shaded }: SitePlace, atS: number): "lit" | "shadow" | "unknown" {
  return spanAt(lit, atS) ? "lit" : spanAt(shaded, atS) ? "shadow" : "unknown";
}

/** What the heights cannot tell: a hill beyond them may stand before the sun. */
const BEYOND = "Hills beyond the plan’s heights are not known.";

/**
 * The same in a sentence, with when it changes, as the plan's own heights have it; `sunDeg` is the sun over a level horizon, null where it is not
 * known.
 */
export function lightWords(
  { lit, shaded }: SitePlace,
  atS: number,
  time: (atS: number) => string,
  sunDeg: number | null,
): string {
  const now = spanAt(lit, atS);
  if (now) return `By the plan’s heights lit from ${time(now.startS)} to ${time(now.endS)}. ${BEYOND}`;
  const dark = spanAt(shaded, atS);
  if (!dark && (lit === null || shaded === null)) {
    if (sunDeg === null) return "Whether the sun shines here is not known.";
    const sunWords = `Sun ${sunDeg > 0 ? "up" : "down"} ${angle(Math.abs(sunDeg), "down")}`;
    return `${sunWords} over a level horizon, shadow unknown: no heights are known here.`;
  }
  if (!dark) return "Whether the sun shines here now is not known: unknown ground may hide it.";
  const next = lit?.find((one) => one.startS > atS);
  // Lit follows shadow in the next second or so, or what is between is not known.
  const isNext = next !== undefined && next.startS - dark.endS <= 2;
  if (isNext) return `By the plan’s heights in shadow until ${time(next.startS)}. ${BEYOND}`;
  return lit !== null && shaded?.at(-1) === dark && !next
    ? "In shadow to the end of the stay."
    : `In shadow to ${time(dark.endS)}, then not known.`;
}

function spanAt(list: readonly Interval[] | null, atS: number): Interval | undefined {
  return list?.find((one) => one.startS <= atS && atS <= one.endS);
}
