import type { HeatTrack, MarginTrack } from "../answers/index.ts";
import { instant, remembered } from "../kernel/index.ts";
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

/** The four consumables of an outing over time. */
export const marginTracks = remembered((crewOuting: CrewOuting): readonly MarginTrack[] =>
  CONSUMABLES.map((consumable) => trackOf(crewOuting, consumable)),
);

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

/** Heat stored over time on an outing in a suit whose cooling has a limit; of another there is no track. */
export const heatTracks = remembered(
  ({ walker, outing, steps, storedJ }: CrewOuting): readonly HeatTrack[] => {
    if (walker.coolingW === Infinity) return [];
    const points = [{ atS: outing.span.startS, value: 0 }];
    steps.forEach((step, k) => points.push({ atS: instant(step.drawnToS), value: storedJ[k + 1]! / 1000 }));
    return [{ eva: outing.eva, crew: outing.crew, mostKj: walker.storageJ / 1000, points }];
  },
);
