import type { Stretch } from "../answers/index.ts";
import { type Amounts, type Mode, purgeOf } from "../physics/index.ts";
import type { Plan, Schedule, Suit } from "../plan/index.ts";
import { prepare } from "./prepared.ts";
import { walkthroughOf } from "./walkthrough.ts";

/** One stretch of an outing in a suit's ledger; whole units as in physics/suit.ts. */
export interface LedgerLine {
  readonly stretch: Stretch;
  /** Where tracks draw it, s. */
  readonly drawnFromS: number;
  readonly drawnToS: number;
  readonly mode: Mode;
  /** Seconds charged, and what each of them draws. */
  readonly seconds: number;
  readonly rate: Amounts;
  /** Heat made, whole J/s. */
  readonly heatW: number;
  /** Left at its end, and heat stored in the body then, J. */
  readonly left: Amounts;
  readonly storedJ: number;
}

/** What one suit holds and draws on one EVA, stretch by stretch: what every margin is the sum of (S7). */
export interface Ledger {
  readonly suit: Suit;
  readonly full: Amounts;
  readonly reserve: Amounts;
  /** Oxygen gone at egress, micrograms. */
  readonly purge: number;
  /** Left at egress, and drawn each second on a way back of a slope angle, radians. */
  readonly atEgress: Amounts;
  readonly walkback: (slopeRad: number) => Amounts;
  readonly lines: readonly LedgerLine[];
}

/** The ledger of `crew` on `eva` in `schedule`; null where they are not out. */
export function ledgerOf(plan: Plan, schedule: Schedule, eva: string, crew: string): Ledger | null {
  const { outs } = walkthroughOf(prepare(plan), schedule);
  const crewOuting = outs
    .flatMap((out) => out.crewOutings)
    .find(({ outing }) => outing.eva === eva && outing.crew === crew);
  if (!crewOuting) return null;
  const { walker, suitLoad, steps, left, storedJ } = crewOuting;
  return {
    suit: walker.suit,
    full: walker.full,
    reserve: walker.reserve,
    purge: purgeOf(walker.suit),
    atEgress: suitLoad.atEgress,
    walkback: suitLoad.walkback,
    lines: steps.map(({ stretch, mode, seconds, drawnFromS, drawnToS }, k) => ({
      stretch,
      drawnFromS,
      drawnToS,
      mode,
      seconds,
      rate: suitLoad.draw(mode, stretch.metabolicW),
      heatW: suitLoad.heat(mode, stretch.metabolicW),
      left: left[k + 1]!,
      storedJ: storedJ[k + 1]!,
    })),
  };
}
