import type { HeatTrack, MarginTrack } from "../answers/index.ts";
import { instant } from "../kernel/index.ts";
import { type Amounts, type Consumable, CONSUMABLES } from "../physics/index.ts";
import { readable } from "./amounts.ts";
import type { CrewOuting } from "./crewouting.ts";

/** Left at ingress above the reserve, whole units; negative below it. */
export function spare(crewOuting: CrewOuting, consumable: Consumable): number {
  return crewOuting.left.at(-1)![consumable] - crewOuting.walker.reserve[consumable];
}

/** `spare` as a share of the stock; an empty stock that is drawn on counts as one whole stock short. */
export function marginShare(crewOuting: CrewOuting, consumable: Consumable): number {
  const stock = crewOuting.walker.full[consumable];
  const above = spare(crewOuting, consumable);
  if (stock === 0) return above < 0 ? -1 : 0;
  return above / stock;
}

/** The four consumables of every outing over time. */
export function marginTracks(crewOutings: readonly CrewOuting[]): MarginTrack[] {
  return crewOutings.flatMap((crewOuting) =>
    CONSUMABLES.map((consumable) => trackOf(crewOuting, consumable)),
  );
}

function trackOf(crewOuting: CrewOuting, consumable: Consumable): MarginTrack {
  const { walker, outing, steps, left } = crewOuting;
  const value = (amounts: Amounts): number => readable(consumable, amounts[consumable]);
  const points = [{ atS: outing.span.startS, value: value(left[0]!) }];
  steps.forEach((step, k) => {
    points.push({ atS: instant(step.drawnToS), value: value(left[k + 1]!) });
  });
  return {
    eva: outing.eva,
    crew: outing.crew,
    consumable,
    stock: readable(consumable, walker.full[consumable]),
    reserve: readable(consumable, walker.reserve[consumable]),
    margin: marginShare(crewOuting, consumable),
    points,
  };
}

/** Stored heat of every outing in a suit whose cooling has a limit. */
export function heatTracks(crewOutings: readonly CrewOuting[]): HeatTrack[] {
  return crewOutings.flatMap(({ walker, outing, steps, storedJ }) => {
    if (walker.coolingW === Infinity) return [];
    const points = [{ atS: outing.span.startS, value: 0 }];
    steps.forEach((step, k) => points.push({ atS: instant(step.drawnToS), value: storedJ[k + 1]! / 1000 }));
    return [{ eva: outing.eva, crew: outing.crew, mostKj: walker.storageJ / 1000, points }];
  });
}
