import type { Limit } from "../answers/index.ts";
import { instant } from "../kernel/index.ts";
import { CONSUMABLES } from "../physics/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { Departures } from "./departures.ts";
import { boundsOf, inOrder } from "./limits.ts";
import { prepare } from "./prepared.ts";
import { type Moment, moments } from "./reach.ts";
import type { Out, CrewOuting } from "./crewouting.ts";
import { type Walkthrough, walkthroughOf } from "./walkthrough.ts";

/**
 * Ingress complete of every EVA that takes place, by its id, no later than this, as scheduled and played to `departures` (S10), and what
 * sets it: the one that binds first is first.
 *
 * What a suit carries bounds it like this: the whole day is done as scheduled and somewhere on the way time is lost, with the
 * hardest work of the EVA all that time; then every reserve still holds at ingress, and at every moment outside what the walk-back draws.
 * Where the walk-back only warns and the day spends its reserve already, the stock lasts for the walk-back at every moment away from the lander.
 * Heat and long work bound nothing here: they ask for a rest and not for the way home.
 */
export function ingressLimitsByEva(
  plan: Plan,
  schedule: Schedule,
  departures?: Departures,
): ReadonlyMap<string, readonly Limit[]> {
  const walkthrough = walkthroughOf(prepare(plan), schedule, departures);
  return new Map(walkthrough.outs.map((out) => [out.eva.id, ingressLimitsOf(walkthrough, out)]));
}

function ingressLimitsOf(walkthrough: Walkthrough, out: Out): readonly Limit[] {
  const warns = walkthrough.prepared.plan.rules.walkback.level === "warning";
  return inOrder([
    ...boundsOf(walkthrough, out, true),
    ...out.crewOutings.flatMap((crewOuting) => suitLimits(crewOuting, warns)),
  ]);
}

/** What the suit of one outing allows, one limit for each consumable and rule; `warns` where the walk-back only warns. */
function suitLimits(crewOuting: CrewOuting, warns: boolean): Limit[] {
  const { walker, suitLoad, outing } = crewOuting;
  const crew = outing.crew;
  const rates = crewOuting.steps.map(({ stretch, mode }) => suitLoad.draw(mode, stretch.metabolicW));
  const end = crewOuting.left.at(-1)!;
  const tested = moments(crewOuting);
  return CONSUMABLES.flatMap((consumable): Limit[] => {
    const own = rates.map((rate) => rate[consumable]);
    const limit = (kind: "reserve" | "walk-back", spare: number): Limit[] => {
      const seconds = secondsOf(spare, Math.max(0, ...own), Math.min(...own));
      if (seconds === Infinity) return [];
      const ingressS = instant(Math.max(outing.span.startS, outing.span.endS + seconds));
      return [{ ingressS, by: { kind, crew, consumable } }];
    };
    const spareAt = ({ left, homeS, slopeRad }: Moment): number =>
      left[consumable] - suitLoad.walkback(slopeRad)[consumable] * homeS;
    const spare = (list: readonly Moment[]): number => Math.min(Infinity, ...list.map(spareAt));
    const kept = spare(tested) - walker.reserve[consumable];
    // A day may spend a reserve that only warns: its ingress is no breach, and what bounds it is the stock itself (S9).
    const spent = warns && kept < 0;
    return [
      ...limit("reserve", end[consumable] - walker.reserve[consumable]),
      ...limit("walk-back", spent ? spare(tested.filter(({ homeS }) => homeS > 0)) : kept),
    ];
  });
}

/**
 * Whole seconds that `spare` lasts at the rate of the `hardest` work, rounded down; where it is already overdrawn, how many seconds of the
 * lightest, rounded up and negative, would have to go for it to hold.
 */
function secondsOf(spare: number, hardest: number, lightest: number): number {
  if (spare >= 0) return hardest > 0 ? Math.floor(spare / hardest) : Infinity;
  return lightest > 0 ? Math.floor(spare / lightest) : -Infinity;
}
