import type { Left } from "../answers/index.ts";
import type { Explained } from "../kernel/index.ts";
import {
  type Consumable,
  CONSUMABLES,
  drawPerSecond,
  explainDraw,
  explainEmergency,
  explainWalkbackRate,
  sharedEmergencyS,
  type SkyDirection,
  suitIn,
  walkbackW,
} from "../physics/index.ts";
import { type Plan, type Suit, suitOn, suitsOf } from "../plan/index.ts";
import { heavensOf, environmentHeatOnEvaW } from "../terrain/index.ts";
import { UNITS } from "./fromwhat/words.ts";

/** From what the figures of the site come, and the limits of the walk back themselves. */

/** A limit of the walk back; `spare` is what the consumable that bounds it has above its reserve, micrograms or mWs. */
export interface Limit {
  /** shared: emergency oxygen with the partner's cooling shared. Not a rule: what it gives when only cooling fails. */
  readonly kind: "emergency" | "shared" | "stock";
  readonly crew: readonly string[];
  /** The suit that it is of; one of several with the same emergency oxygen. */
  readonly suit: Suit;
  /** The EVA whose surroundings count; null where they do not. */
  readonly eva: string | null;
  readonly by: Consumable | null;
  readonly seconds: number;
  readonly spare: number;
  /** The slope angle that the walk back on a stock is reckoned with, radians. */
  readonly slopeRad: number;
}

/**
 * Two limits for each emergency oxygen time there is, whoever has it (alone, and where there is a partner with cooling
 * shared), and one for each suit in `left`: the longest walk
 * back on a slope angle, whole seconds rounded down, that leaves every reserve (rules walk-back-emergency and walk-back-consumables).
 */
export function limitsOf(plan: Plan, left: readonly Left[], slopeRad: number): readonly Limit[] {
  const { emergencyReserveS } = plan.rules.walkback;
  const byTime = new Map<number, { readonly suit: Suit; readonly crew: Set<string> }>();
  const partners = plan.crew.length > 1;
  for (const { id } of plan.crew)
    for (const suit of suitsOf(plan, id)) {
      const known = byTime.get(suit.emergencyOxygenS);
      if (known) known.crew.add(id);
      else byTime.set(suit.emergencyOxygenS, { suit, crew: new Set([id]) });
    }
  const emergency = [...byTime].flatMap(([aloneS, { suit, crew }]) => {
    const limit = (kind: "emergency" | "shared", lastsS: number): Limit => ({
      kind,
      crew: [...crew],
      suit,
      eva: null,
      by: null,
      seconds: Math.max(0, lastsS - emergencyReserveS),
      spare: 0,
      slopeRad: 0,
    });
    const alone = limit("emergency", aloneS);
    return partners ? [alone, limit("shared", sharedEmergencyS(aloneS))] : [alone];
  });
  return [...emergency, ...left.flatMap((one) => stockLimit(plan, one, slopeRad) ?? [])];
}

function stockLimit(plan: Plan, { eva, crew, amounts }: Left, slopeRad: number): Limit | null {
  const outing = plan.evas.find((one) => one.id === eva);
  const suit = outing ? suitOn(plan, outing, crew) : null;
  const walker = suit && walkerOf(plan, crew, suit, eva, slopeRad);
  if (!walker) return null;
  let by: Consumable = "oxygen";
  let least = Infinity;
  let above = 0;
  for (const one of CONSUMABLES) {
    // Down by a unit: what is read off a course in kg and Wh must not gain by binary noise.
    const spare = Math.floor(amounts[one] * UNITS[one].per) - 1 - walker.reserve(one);
    const rate = walker.draw[one];
    const seconds = rate > 0 ? Math.floor(spare / rate) : spare >= 0 ? Infinity : 0;
    if (seconds < least) [least, by, above] = [seconds, one, spare];
  }
  return { kind: "stock", crew: [crew], suit, eva, by, seconds: Math.max(0, least), spare: above, slopeRad };
}

/** A crew member in a suit walking back; without an EVA what does not depend on one. */
function walkerOf(plan: Plan, crew: string, suit: Suit, eva: string | null, slopeRad: number) {
  const member = plan.crew.find((one) => one.id === crew);
  if (!member) return null;
  const outing = plan.evas.find((one) => one.id === eva);
  const worn = suitIn(suit, "walking", outing ? environmentHeatOnEvaW(heavensOf(plan), suit, outing) : 0);
  const { walking, walkback } = plan.rules;
  const who = { factor: member.workRateFactor, massKg: member.bodyMassKg + suit.massKg };
  const wattsOn = (slope: number): number =>
    walkbackW(walkback.metabolicW, walking, who, plan.body.gravityMs2, walkback.speedMs, slope);
  const watts = wattsOn(slopeRad);
  const full = { oxygen: suit.oxygenKg, co2: suit.co2Kg, water: suit.waterKg, battery: suit.batteryWh };
  return {
    suit: worn,
    who,
    aloneS: suit.emergencyOxygenS,
    watts,
    slopeW: watts - wattsOn(0),
    draw: drawPerSecond(worn, watts),
    reserve: (one: Consumable): number => Math.ceil(full[one] * UNITS[one].per * suit.reserve[one]),
  };
}

const DRAWS: Readonly<Record<Consumable, string>> = {
  oxygen: "oxygen drawn",
  co2: "CO2 taken up",
  water: "cooling water drawn",
  battery: "battery drawn",
};

/** From what a limit comes. */
export function explainRing(plan: Plan, limit: Limit): readonly Explained[] {
  const { walkback } = plan.rules;
  const [first] = limit.crew;
  const walker = first === undefined ? null : walkerOf(plan, first, limit.suit, limit.eva, limit.slopeRad);
  if (!walker) return [];
  if (limit.by === null) {
    const [shared, alone] = explainEmergency(walker.aloneS, walkback.emergencyReserveS, walkback.speedMs);
    return limit.kind === "shared" ? [shared!] : [alone!];
  }
  const { by } = limit;
  const draw = explainDraw(walker.suit, walker.watts).filter((one) => one.of === DRAWS[by]);
  const rate = walker.draw[by];
  const unit = by === "battery" ? "mWs" : "µg";
  return [
    {
      of: "longest walk back on what is left",
      value: limit.seconds,
      unit: "s",
      formula: "spare / draw, rounded down",
      inputs: [
        { name: "spare", value: limit.spare, unit: `${unit} above the reserve` },
        { name: "draw", value: rate, unit: `${unit}/s walking back, rounded up` },
      ],
      source: "reach: be able to walk back on what is left, published in prose; draws as below",
    },
    ...draw,
    ...(by === "battery"
      ? []
      : [
          explainWalkbackRate(
            walkback.metabolicW,
            plan.rules.walking,
            walker.who,
            plan.body.gravityMs2,
            walkback.speedMs,
            walker.slopeW,
          ),
        ]),
  ];
}

/** From what the sun's direction comes. */
export function explainSun(plan: Plan, atS: number, sun: SkyDirection): Explained {
  const { latDeg, lonDeg } = plan.site;
  const seen = (degrees: number): number => Math.round(degrees * 100) / 100;
  return {
    of: "sun's elevation over a level horizon",
    value: seen(sun.elevationDeg),
    unit: "deg",
    formula: "direction of the sun at the time, turned to the site's latitude and longitude",
    inputs: [
      { name: "time", value: atS, unit: `s after ${plan.stay.touchdownUtc}` },
      { name: "latitude", value: latDeg, unit: "deg" },
      { name: "longitude", value: lonDeg, unit: "deg" },
      { name: "azimuth", value: seen(sun.azimuthDeg), unit: "deg" },
    ],
    source: "sky: astronomy-engine, libration included; shadow by the ground's own horizon (terrain/skyline)",
  };
}
