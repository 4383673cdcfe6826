import type { Explained } from "../../../kernel/index.ts";
import { gaitsOf, insideOf, legFaults, waysOf } from "../../../terrain/index.ts";
import { type FindingOfDay, type Behind, given, madeOf, subject, type Term } from "./terms.ts";

/** What walking cannot be: speeds of the plan, walks inside a task, or a leg that the planner gave. */
export function paceBehind(day: FindingOfDay): Behind {
  const { subjects } = day.finding;
  if (subjects.some(({ kind }) => kind === "task")) return insideBehind(day);
  return subjects.length > 0 ? legBehind(day) : speedsBehind(day);
}

function fastest(day: FindingOfDay): Explained {
  const kmH = (day.finding.need ?? 0) * 3.6;
  const inputs = { kmH: ["km/h, in a suit in 1/6 g", kmH] as Term };
  return madeOf("fastest timed", kmH / 3.6, "m/s", "kmH / 3.6", inputs, "physics/suitedspeed");
}

function speedsBehind(day: FindingOfDay): Behind {
  const { walking, walkback } = day.plan.rules;
  return {
    need: fastest(day),
    have: madeOf(
      "fastest of the plan",
      Math.max(walking.speedMs, walkback.speedMs),
      "m/s",
      "Math.max(planned, back)",
      { planned: ["m/s, planned walking", walking.speedMs], back: ["m/s, the walk-back", walkback.speedMs] },
      "plan: flight rules",
    ),
  };
}

/** The way between the ends of a task and what is walked beside it, against the time it is given. */
function insideBehind({ plan, finding }: FindingOfDay): Behind {
  const task = plan.tasks.find(({ id }) => id === subject(finding, "task"));
  if (!task || finding.have === null) return {};
  const { planned } = gaitsOf(plan);
  const ways = waysOf(plan.site, planned);
  const { cell, leastS } = insideOf(ways, task, planned.speedMs);
  const wayM = cell < 0 ? 0 : Math.max(0, ways.distanceM[cell]!);
  return {
    need: madeOf(
      "walking takes",
      leastS,
      "s",
      "wayS + Math.ceil(moreM / speed - 1e-6)",
      {
        wayS: [`s of the way between its ends, ${wayM} m`, cell < 0 ? 0 : ways.durationS[cell]!],
        moreM: ["m walked beside it", Math.max(0, task.walkM - wayM)],
        speed: ["m/s, planned walking", planned.speedMs],
      },
      "terrain/inside: what is walked in a task at the planned pace, rounded up",
    ),
    have: given("time given", finding.have, "s", `plan: duration of ${task.name}`),
  };
}

/** A given leg against the straight line, or its speed against the fastest. */
function legBehind(day: FindingOfDay): Behind {
  const { plan, finding } = day;
  const [from, to] = [subject(finding, "place"), subject(finding, "place", 1)];
  const fault = legFaults(plan.site, gaitsOf(plan).planned).find(({ leg }) => {
    const one = plan.site.legs[leg]!;
    return one.from === from && one.to === to;
  });
  const leg = fault && plan.site.legs[fault.leg];
  if (!leg) return {};
  if (fault.lineM !== null)
    return {
      need: lineOf(day, from, to, fault.lineM),
      have: given("the leg", leg.distanceM, "m", "plan: the leg"),
    };
  if (fault.speedMs !== null)
    return {
      need: fastest(day),
      ...(finding.have === null
        ? {}
        : {
            have: madeOf(
              "speed on the leg",
              fault.speedMs,
              "m/s",
              "walkedM / durationS",
              {
                walkedM: [
                  "m: the leg, or the straight line where that is longer",
                  fault.speedMs * leg.durationS,
                ],
                durationS: ["s, plan: the leg", leg.durationS],
              },
              "terrain/legfaults",
            ),
          }),
    };
  const lander = plan.site.places.find(({ kind }) => kind === "lander")?.id ?? "";
  const homeM = fault.homeM ?? 0;
  const lines = [from, to].map((id) => lineOf(day, id, lander, homeM));
  return {
    need: lines.find(({ inputs }) => inputs.length === 6) ?? lines[0]!,
    have: given("longest way home on the leg", leg.walkbackPeakM ?? 0, "m", "plan: the leg"),
  };
}

/** The straight line between two places, with its rise; over a height grid its length is that of the ground. */
function lineOf({ plan }: FindingOfDay, from: string, to: string, lengthM: number): Explained {
  const [a, b] = [from, to].map((id) => plan.site.places.find((one) => one.id === id));
  const source = "terrain/legfaults: straight from place to place, up and down included";
  if (a && b) {
    const straightM = Math.hypot(a.eastM - b.eastM, a.northM - b.northM, a.upM - b.upM);
    if (Math.abs(straightM - lengthM) < 1e-6)
      return madeOf(
        "straight line",
        straightM,
        "m",
        "Math.hypot(east1 - east2, north1 - north2, up1 - up2)",
        {
          east1: [`m east, ${a.name}`, a.eastM],
          east2: [`m east, ${b.name}`, b.eastM],
          north1: [`m north, ${a.name}`, a.northM],
          north2: [`m north, ${b.name}`, b.northM],
          up1: [`m up, ${a.name}`, a.upM],
          up2: [`m up, ${b.name}`, b.upM],
        },
        source,
      );
  }
  const flatM = a && b ? Math.hypot(a.eastM - b.eastM, a.northM - b.northM) : 0;
  return madeOf(
    "straight line over the ground",
    lengthM,
    "m",
    "(flat ** 2 + rise ** 2) ** 0.5",
    {
      flat: ["m on the level", flatM],
      rise: ["m up or down on the ground", Math.sqrt(Math.max(0, lengthM ** 2 - flatM ** 2))],
    },
    source,
  );
}
