import type { Left, SiteGround, Verdict } from "../../answers/index.ts";
import { type Extent, extentOf } from "../../editor/map/index.ts";
import { type TimeWindow, valueNear } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import { tasksByPlace } from "./placenumbers.ts";
import { ALL_EVAS } from "./siteviewstate.ts";

/** What of the day and the ground is shown. */

/** Kept free about what is fitted to the map, pixels. */
export const PAD_PX = 44;

/** What the suits outside have left at a moment, from the judge's own courses. */
export function leftAt(verdict: Verdict, atS: number): readonly Left[] {
  return verdict.outings
    .filter(({ span }) => span.startS <= atS && atS <= span.endS)
    .map(({ eva, crew }) => {
      const of = (consumable: Verdict["margins"][number]["consumable"]): number => {
        const own = (one: Verdict["margins"][number]): boolean =>
          one.eva === eva && one.crew === crew && one.consumable === consumable;
        return valueNear(verdict.margins.find(own), atS, 0);
      };
      return {
        eva,
        crew,
        amounts: { oxygen: of("oxygen"), co2: of("co2"), water: of("water"), battery: of("battery") },
      };
    });
}

/** The places and keep-outs of a plan, with some room about them. */
export function placesExtent(plan: Plan): Extent {
  const keepOuts = plan.site.keepOuts.flatMap(({ shape }) => {
    if (shape.type === "polygon") return shape.points;
    const { eastM, northM, radiusM } = shape;
    return [
      { eastM: eastM - radiusM, northM: northM - radiusM },
      { eastM: eastM + radiusM, northM: northM + radiusM },
    ];
  });
  const box = extentOf([...plan.site.places, ...keepOuts]);
  const room = Math.max(20, 0.02 * Math.max(box.eastM - box.westM, box.northM - box.southM));
  return {
    westM: box.westM - room,
    eastM: box.eastM + room,
    southM: box.southM - room,
    northM: box.northM + room,
  };
}

/** The lander and the places where something is done in `window`; all places where nothing is. */
export function doneExtent(plan: Plan, window: TimeWindow): Extent {
  const used = new Set(tasksByPlace(plan, plan.schedule, window).keys());
  if (used.size === 0) return placesExtent(plan);
  const places = plan.site.places.filter((one) => one.kind === "lander" || used.has(one.id));
  return placesExtent({ ...plan, site: { ...plan.site, places, keepOuts: [] } });
}

/** Ground and places together: where the middle of the map may be. */
export function wholeExtent(plan: Plan, ground: SiteGround | null): Extent {
  const places = placesExtent(plan);
  if (!ground) return places;
  const { columns, rows, cellM, westM, southM } = ground;
  return {
    westM: Math.min(places.westM, westM),
    eastM: Math.max(places.eastM, westM + (columns - 1) * cellM),
    southM: Math.min(places.southM, southM),
    northM: Math.max(places.northM, southM + (rows - 1) * cellM),
  };
}

/** The EVAs whose ways are shown: the chosen ones, else those under way at a moment, else the next. */
export function evasShown(verdict: Verdict, shown: string | null, atS: number): ReadonlySet<string> {
  const outings = verdict.outings;
  if (shown === ALL_EVAS) return new Set(outings.map((one) => one.eva));
  if (shown !== null && outings.some((one) => one.eva === shown)) return new Set([shown]);
  const under = outings.filter(({ span }) => span.startS <= atS && atS <= span.endS);
  if (under.length > 0) return new Set(under.map((one) => one.eva));
  // Between EVAs the next one, after the last the last one.
  const next = outings.find(({ span }) => span.startS > atS) ?? outings.at(-1);
  return new Set(next ? [next.eva] : []);
}
