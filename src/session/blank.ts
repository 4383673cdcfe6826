import type { Verdict } from "../answers/index.ts";
import { invariant } from "../kernel/index.ts";
import { FORMAT, parse, type Plan, TO_GIVE, VERSION } from "../plan/index.ts";
import { utcStamp } from "../words/index.ts";

const HOUR_S = 3600;

/**
 * An empty plan to begin with: a lander, two crew members in equal suits, one EVA, no task. Touchdown is the hour
 * at or before `nowMs` (milliseconds since 1970). Where and when it lands, body masses and suit numbers are
 * round project defaults, to be given.
 */
export function blankPlan(nowMs: number): Plan {
  const hourMs = HOUR_S * 1000;
  const read = parse({
    format: FORMAT,
    version: VERSION,
    title: "New plan",
    site: {
      name: "New site",
      latDeg: 0,
      lonDeg: 0,
      toGive: [...TO_GIVE.site],
      places: [{ id: "lander", name: "Lander", kind: "lander", eastM: 0, northM: 0 }],
    },
    stay: {
      touchdownUtc: utcStamp(Math.floor(nowMs / hourMs) * hourMs, 0),
      lengthS: 22 * HOUR_S,
      toGive: [...TO_GIVE.stay],
    },
    crew: [
      { id: "ev1", name: "EV1", bodyMassKg: 75, suit: "suit-1", toGive: [...TO_GIVE.crew] },
      { id: "ev2", name: "EV2", bodyMassKg: 75, suit: "suit-2", toGive: [...TO_GIVE.crew] },
    ],
    suits: ["suit-1", "suit-2"].map((id, index) => ({
      id,
      name: `Suit ${index + 1}`,
      massKg: 90,
      oxygenKg: 0.9,
      co2Kg: 1,
      waterKg: 4.5,
      batteryWh: 500,
      emergencyOxygenS: 1800,
      toGive: [...TO_GIVE.suits],
    })),
    evas: [
      {
        id: "eva-1",
        name: "EVA 1",
        crew: ["ev1", "ev2"],
        earliestEgressS: 2 * HOUR_S,
        latestIngressS: 20 * HOUR_S,
        longestS: 7 * HOUR_S,
        egressWorkS: 1200,
        ingressWorkS: 1200,
      },
    ],
    tasks: [],
  });
  invariant(read.ok, `the blank plan has faults: ${read.ok ? "" : JSON.stringify(read.error)}`);
  return read.value;
}

/** What can be said of a blank plan before there is a judge: nothing is placed. */
export function blankVerdict({ crew }: Plan): Verdict {
  return {
    findings: [],
    score: { breaches: 0, mustLeftOut: 0, worth: 0, worstMargin: 10_000, changes: 0, walkM: 0, finishS: 0 },
    outings: [],
    margins: [],
    reach: [],
    separation: [],
    heat: [],
    placed: 0,
    mustPlaced: 0,
    mustTotal: 0,
    returnKg: 0,
    walkedM: Object.fromEntries(crew.map(({ id }) => [id, 0])),
    walkbackS: {},
    rests: [],
    // What a rule leaves room for is not said before a judge has looked.
    spares: [],
  };
}
