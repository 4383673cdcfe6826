import { duration } from "../../kernel/index.ts";
import type { Leg, Place, Plan } from "../../plan/index.ts";
import { quantity, tick } from "./entry.ts";
import { listTable } from "./listtable.ts";
import { one, SOURCES } from "./nameentry.ts";
import { span } from "./timeentry.ts";

/** Ways with numbers of their own. */

const legKey = (leg: Leg): string => `${leg.from}/${leg.to}`;

export const legTable = listTable<Leg>({
  id: "legs",
  title: "Traverse legs",
  intro: "Ways whose numbers you give; all others are computed from places, walking speed and keep-outs.",
  one: "leg",
  list: "site.legs",
  kind: null,
  prefix: "leg",
  keyOf: legKey,
  nameOf: (row, plan) =>
    `${one(SOURCES.places).show(row.from, plan)} to ${one(SOURCES.places).show(row.to, plan)}`,
  fields: [
    { label: "From", path: "from", entry: one(SOURCES.places), width: 20, hint: "Where the leg begins." },
    { label: "To", path: "to", entry: one(SOURCES.places), width: 20, hint: "Where the leg ends." },
    { label: "Distance", path: "distanceM", entry: quantity("m"), unit: "m", width: 10 },
    { label: "Walking time", path: "durationS", entry: span, unit: "h:mm", width: 10 },
    { label: "Both ways", path: "bothWays", entry: tick, width: 9 },
    { label: "Worst walk-back", path: "walkbackPeakM", entry: quantity("m"), unit: "m", width: 12 },
  ],
  blank: (plan) => {
    const given = new Set(plan.site.legs.flatMap((leg) => [legKey(leg), `${leg.to}/${leg.from}`]));
    const { places } = plan.site;
    for (const from of places) {
      const to = places.find((place) => place !== from && !given.has(`${from.id}/${place.id}`));
      if (to) return straight(plan, from, to);
    }
    return "Every pair of places has its leg already, or there is only one place.";
  },
  copy: (row, _id, plan) => {
    if (row.bothWays)
      return "It holds for the way back too; untick that to give the way back its own numbers.";
    return plan.site.legs.some((leg) => leg.from === row.to && leg.to === row.from)
      ? "Its way back is there already."
      : { ...row, from: row.to, to: row.from };
  },
});

/** A leg with the numbers of the straight line, detour and planned speed, rounded up: a point to start from. */
function straight(plan: Plan, from: Place, to: Place): Leg {
  const { detour, speedMs } = plan.rules.walking;
  const levelM = Math.hypot(to.eastM - from.eastM, to.northM - from.northM);
  const distanceM = Math.ceil(Math.hypot(levelM * detour, to.upM - from.upM));
  return {
    from: from.id,
    to: to.id,
    distanceM,
    durationS: duration(Math.ceil(distanceM / speedMs)),
    bothWays: true,
  };
}
