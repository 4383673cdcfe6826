import type { Explained } from "../kernel/index.ts";
import { walkingMs } from "../physics/index.ts";
import type { Plan } from "../plan/index.ts";
import {
  type Gait,
  gaitsOf,
  type GroundTrail,
  type Home,
  legBackSeconds,
  legSlopeRad,
  type Line,
  lineBetween,
  lineM,
  stops,
} from "../terrain/index.ts";
import { percent } from "../words/index.ts";

type Inputs = Explained["inputs"];

/** From what the walk-back from a place by index comes: its hops added up, and each of them; nothing where there is no way. */
export function explainWalkback(plan: Plan, home: Home, place: number): readonly Explained[] {
  const { back } = home;
  const homeS = home.placeS[place]!;
  if (homeS < 0) return [];
  const path = stops(back, place, back.lander);
  const hops = path.slice(1).map((to, k) => explainHop(plan, home, path[k]!, to));
  if (hops.length === 1) return [{ ...hops[0]!, of: "walk-back time" }];
  return [
    {
      of: "walk-back time",
      value: homeS,
      unit: "s, each hop rounded up",
      formula: hops.length === 0 ? "0" : hops.map((_, k) => `hop${k + 1}`).join(" + "),
      inputs: hops.map((hop, k) => ({ name: `hop${k + 1}`, value: hop.value, unit: `s, ${hop.of}` })),
      source:
        "terrain/ways: the quickest way by other places where no direct one is open (after Dijkstra 1959)",
    },
    ...hops,
  ];
}

const metres = (value: number): number => Math.round(value * 100) / 100;

function explainHop(plan: Plan, home: Home, from: number, to: number): Explained {
  const { back } = home;
  const { places, legs } = plan.site;
  const gait = gaitsOf(plan).back;
  const cell = from * back.size + to;
  const hop: Hop = {
    plan,
    gait,
    line: lineBetween(plan.site, gait, from, to),
    speed: { name: "speedMs", value: plan.rules.walkback.speedMs, unit: "m/s on the level" },
    explained: (value, formula, inputs, source) => ({
      of: `${places[from]!.name} to ${places[to]!.name}`,
      value,
      unit: "s, rounded up",
      formula,
      inputs,
      source,
    }),
  };
  const leg = legs[back.legAt[cell]!];
  if (leg) return legHop(hop, leg);
  const trail = back.trails?.[cell];
  const seconds = back.durationS[cell]!;
  return plan.ground && trail ? trailHop(hop, trail, plan.ground.detour, seconds) : lineHop(hop, seconds);
}

/** What the ways of explaining a hop have in common. */
interface Hop {
  readonly plan: Plan;
  readonly gait: Gait;
  readonly line: Line;
  readonly speed: Inputs[number];
  readonly explained: (value: number, formula: string, inputs: Inputs, source: string) => Explained;
}

function onSlope(slope: number): Inputs[number] {
  return {
    name: "onSlope",
    value: walkingMs(1, slope),
    unit: `of the level speed on a slope of ${percent(slope, "given")} over the straight line`,
  };
}

/** By a leg that the planner gave. */
function legHop({ plan, gait, line, speed, explained }: Hop, leg: Plan["site"]["legs"][number]): Explained {
  const { speedMs: plannedMs } = plan.rules.walking;
  return explained(
    legBackSeconds(leg, line, gait),
    "Math.max(givenS * plannedMs / speedMs, Math.max(givenM, line) / (speedMs * onSlope))",
    [
      {
        name: "givenS",
        value: leg.durationS,
        unit: "s, the planner's time for the leg at the planned speed",
      },
      { name: "plannedMs", value: plannedMs, unit: "m/s planned on the level" },
      speed,
      { name: "givenM", value: leg.distanceM, unit: "m, the planner's length" },
      { name: "line", value: metres(lineM(line)), unit: "m straight" },
      onSlope(Math.tan(legSlopeRad(line, leg.distanceM, gait))),
    ],
    "terrain/legs: the worse of the leg's own pace and its length on its slope; Tobler 1993, NCGIA TR 93-1",
  );
}

/** Over the height grid. */
function trailHop(
  { line, speed, explained }: Hop,
  trail: GroundTrail,
  detour: number,
  seconds: number,
): Explained {
  return explained(
    seconds,
    "levelM / speedMs",
    [
      { name: "levelM", value: metres(trail.levelM), unit: "m on the level that take as long" },
      speed,
      { name: "walked", value: metres(trail.distanceM), unit: "m along the quickest way" },
      { name: "climb", value: metres(trail.climbM), unit: "m up" },
      { name: "descent", value: metres(trail.descentM), unit: "m down" },
      { name: "straight", value: metres(line.levelM), unit: "m" },
      { name: "detour", value: detour, unit: "way over the line on the grid" },
    ],
    "terrain/home: quickest way over the height grid (Dijkstra 1959), round keep-outs and steep ground; " +
      "gait on slopes: Tobler 1993, NCGIA TR 93-1",
  );
}

/** Along the straight line. */
function lineHop({ plan, line, speed, explained }: Hop, seconds: number): Explained {
  return explained(
    seconds,
    "Math.hypot(straight * detour, rise) / (speedMs * onSlope)",
    [
      { name: "straight", value: metres(line.levelM), unit: "m on the level" },
      { name: "detour", value: plan.rules.walking.detour, unit: "way over straight line" },
      { name: "rise", value: metres(line.riseM), unit: "m up" },
      speed,
      onSlope(line.levelM === 0 ? 0 : line.riseM / line.levelM),
    ],
    "terrain/ways: straight lines between places; gait on slopes: Tobler 1993, NCGIA TR 93-1",
  );
}
