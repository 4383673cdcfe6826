import type { Limit, Limiter, Recall, Stretch, TurnBack } from "../answers/index.ts";
import { instant } from "../kernel/index.ts";
import { type Amounts, CONSUMABLES } from "../physics/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { lasting, stock } from "../words/index.ts";
import { drawn, readable, unitOf } from "./amounts.ts";
import { boundsOf, inOrder } from "./limits.ts";
import { type Prepared, prepare } from "./prepared.ts";
import type { CrewOuting } from "./crewouting.ts";
import { walkthroughOf } from "./walkthrough.ts";
import { type Whereabouts, whereabouts } from "./whereabouts.ts";

/** How much over it is, in words, rounded up: `9 min over`, `0.120 kg short`. */
export function overWords({ amount: over, unit }: NonNullable<TurnBack["over"]>): string {
  return unit === "s" ? `${lasting(over, "up")} over` : `${stock(over, unit, "up")} short`;
}

/**
 * How `eva` stands at `atS`, with the day until then as `schedule` has it; null while nobody of it is outside.
 *
 * Who starts home is there after the planned way, or the walk-back where that takes longer, and ingress is shared: nobody is inside before
 * the last one is there. Until they start everybody stays where they are, with the hardest work that is under way or still to come on this EVA.
 * The latest ingress is the least over the bounds of the EVA and the stay (`boundsOf`) and, for each suit and consumable, what leaves its
 * reserve at ingress and carries the walk-back when the way home begins. Where that is not so even if all start at once, or emergency oxygen
 * does not reach home, all start at once. Heat and long work bound nothing here: they ask for a rest and not for the way home. Later
 * EVAs are taken to wait.
 */
export function recallOf(plan: Plan, schedule: Schedule, eva: string, atS: number): Recall | null {
  const prepared = prepare(plan);
  const walkthrough = walkthroughOf(prepared, schedule);
  const out = walkthrough.outs.find((one) => one.eva.id === eva);
  if (!out || atS < out.span.egressS || atS >= out.span.ingressS) return null;
  // What is left of the airlock work counts once it has begun.
  const ingressWorkS = Math.min(out.eva.ingressWorkS, out.span.ingressS - atS);
  const outside = out.crewOutings.flatMap((crewOuting) => outsideAt(prepared, crewOuting, atS));
  if (outside.length === 0) return null;
  const soonestS = atS + Math.max(...outside.map(homeSOf)) + ingressWorkS;
  const suits = outside.flatMap((one) => suitLimits(one, atS, soonestS, ingressWorkS));
  const limits = inOrder([...suits, ...boundsOf(walkthrough, out, false)]);
  const latest = limits[0]!;
  const idOf = (place: number): string => plan.site.places[place]?.id ?? "";
  return {
    eva,
    earliestS: Number.isFinite(soonestS) ? instant(soonestS) : null,
    latest: { ingressS: latest.ingressS, by: latest.by },
    crew: outside.map((one): TurnBack => {
      const { crewOuting, at } = one;
      const { crew } = crewOuting.outing;
      const lastS = latest.ingressS - ingressWorkS - homeSOf(one);
      const short = suits.find((suit) => suit.crew === crew && suit.short !== null);
      const startHomeS = short ? Math.min(lastS, atS) : lastS;
      return {
        crew,
        from: idOf(at.from),
        to: idOf(at.to),
        share: at.share,
        homeS: at.homeS < 0 ? null : at.homeS,
        walkbackS: at.walkbackS < 0 ? null : at.walkbackS,
        startHomeS: Number.isFinite(startHomeS) ? instant(startHomeS) : null,
        by: (short ?? latest).by,
        over:
          short?.short ?? (Number.isFinite(lastS) && lastS < atS ? { amount: atS - lastS, unit: "s" } : null),
      };
    }),
  };
}

/** Somebody outside at a moment: where, with what left, and the step they are in. */
interface Outside {
  readonly crewOuting: CrewOuting;
  readonly nth: number;
  readonly at: Whereabouts;
  readonly left: Amounts;
}

function outsideAt(prepared: Prepared, crewOuting: CrewOuting, atS: number): Outside[] {
  const nth = crewOuting.steps.findIndex((step) => step.drawnFromS <= atS && atS < step.drawnToS);
  const step = crewOuting.steps[nth];
  if (!step) return [];
  const rate = crewOuting.suitLoad.draw(step.mode, step.stretch.metabolicW);
  const left = drawn(crewOuting.left[nth]!, rate, Math.min(step.seconds, atS - step.drawnFromS));
  return [{ crewOuting, nth, at: whereabouts(prepared, crewOuting, step, atS), left }];
}

/** Seconds until they are at the hatch; Infinity where there is no way. */
function homeSOf({ at }: Outside): number {
  return at.homeS < 0 ? Infinity : at.homeS;
}

interface SuitLimit extends Limit {
  readonly crew: string;
  readonly short: TurnBack["over"];
}

/** How late ingress may be complete for one suit, by consumable and rule; `soonestS` where it is short already. */
function suitLimits(one: Outside, atS: number, soonestS: number, ingressWorkS: number): SuitLimit[] {
  const { crewOuting, nth, at, left } = one;
  const { walker, suitLoad, outing } = crewOuting;
  const homeS = homeSOf(one);
  if (!Number.isFinite(soonestS) || at.walkbackS < 0) return [];
  const { crew } = outing;
  const limits: SuitLimit[] = [];
  const add = (spareS: number, by: Limiter, short: SuitLimit["short"]): void => {
    if (spareS === Infinity) return;
    const ingressS = short ? soonestS : atS + spareS + homeS + ingressWorkS;
    limits.push({ ingressS: instant(ingressS), by, crew, short });
  };
  const overS = at.walkbackS - walker.emergencyS;
  if (overS > 0) add(0, { kind: "emergency", crew }, { amount: overS, unit: "s" });
  // The way home and the airlock work are counted apart.
  const homeward = crewOuting.steps.findLastIndex(({ stretch }) => stretch.kind === "traverse");
  const toCome = crewOuting.steps.filter(
    ({ stretch }, k) => k >= nth && k !== homeward && !isAirlockWork(stretch.kind),
  );
  const rates = toCome.map(({ stretch, mode }) => suitLoad.draw(mode, stretch.metabolicW));
  rates.push(suitLoad.draw("standing", walker.waitW));
  const airlock = suitLoad.draw("working", walker.egressW);
  const wayHome = at.waysW.map((rateW) => suitLoad.draw("walking", rateW));
  if (isAirlockWork(crewOuting.steps[nth]!.stretch.kind)) wayHome.push(airlock);
  const walkback = at.walkbackSlopesRad.map((slopeRad) => suitLoad.walkback(slopeRad));
  for (const consumable of CONSUMABLES) {
    const of = (list: readonly Amounts[]): number => Math.max(0, ...list.map((rate) => rate[consumable]));
    const above = left[consumable] - walker.reserve[consumable];
    const spares = {
      reserve: above - of(wayHome) * homeS - airlock[consumable] * ingressWorkS,
      "walk-back": above - of(walkback) * at.walkbackS,
    };
    for (const kind of ["reserve", "walk-back"] as const) {
      const spare = spares[kind];
      const by: Limiter = { kind, crew, consumable };
      const hardest = of(rates);
      if (spare >= 0) add(hardest > 0 ? Math.floor(spare / hardest) : Infinity, by, null);
      else add(0, by, { amount: readable(consumable, -spare), unit: unitOf(consumable) });
    }
  }
  return limits;
}

function isAirlockWork(kind: Stretch["kind"]): boolean {
  return kind === "egress" || kind === "ingress";
}
