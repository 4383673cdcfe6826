import type { Side } from "./number.ts";
import { clock } from "./time.ts";
import { utcClock } from "./utc.ts";

/** Which clock times are read on: mission elapsed, phase elapsed (since egress of the EVA), universal. */
export type ClockKind = "met" | "pet" | "utc";

/** An EVA that takes place: from egress to ingress. */
export interface Phase {
  readonly eva: string;
  readonly name: string;
  readonly startS: number;
  readonly endS: number;
}

/**
 * What a clock needs: touchdown in milliseconds since 1970, null where nobody has given it (then `kind` is not universal time), and the
 * EVAs in the plan's order.
 */
export interface Dial {
  readonly kind: ClockKind;
  readonly touchdownMs: number | null;
  readonly phases: readonly Phase[];
}

/** The EVA whose phase time is read at `atS`: the first that is under way then; null between EVAs. */
export function phaseAt(phases: Dial["phases"], atS: number): Phase | null {
  return phases.find((one) => atS >= one.startS && atS <= one.endS) ?? null;
}

/**
 * `atS` on the dial's clock. Phase time is counted from the egress of `eva` where that is given, and else from that of
 * the EVA under way, which it then names; where there is none it is mission time, and says so. Where a moment only bounds what is
 * shown, `side` puts it on the whole minute of the clock on that side.
 */
export function clockText(dial: Dial, atS: number, eva: string | null = null, side: Side = "given"): string {
  if (dial.kind === "utc") return utcClock(dial.touchdownMs, atS, side);
  if (dial.kind === "met") return clock(atS, side);
  const own = dial.phases.find((one) => one.eva === eva);
  if (own) return clock(atS - own.startS, side);
  const phase = phaseAt(dial.phases, atS);
  return phase ? `${phase.name} ${clock(atS - phase.startS, side)}` : `MET ${clock(atS, side)}`;
}
