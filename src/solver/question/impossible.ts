import { carriedKg } from "../../physics/index.ts";
import { leavesInstrument, type Plan, sharingSuits, type Task } from "../../plan/index.ts";
import { heavensOf, insideOf, taskSky } from "../../terrain/index.ts";
import { counted, gridName, lasting, mass, metres, skyUnknownWords } from "../../words/index.ts";
import { inBlastM, tooFast } from "../problem/choices.ts";
import type { Problem } from "../problem/problem.ts";
import { paceWords } from "../problem/words.ts";
import { suitWords } from "./why/words.ts";

/** What makes a task impossible in any schedule; null when nothing does. */
export function impossible(problem: Problem, a: number): string | null {
  const { plan } = problem;
  const task = plan.tasks[a]!;
  const { windows } = problem;
  if (windows.openStart[a]! < windows.openStart[a + 1]! && problem.openStart[a] === problem.openStart[a + 1])
    return `Its windows leave it a start, but none on ${gridName(problem.gridS)}: pin it there, or make the plan's grid of starts finer.`;
  if (problem.openStart[a] === problem.openStart[a + 1])
    return (
      unknownSky(plan, task) ??
      `No window, sun stretch or relay pass lasts the ${lasting(task.duration.likelyS, "up")} it takes.`
    );
  if (problem.choiceStart[a]! < problem.choiceStart[a + 1]!) return null;
  const missing = lacking(plan, task);
  if (missing) return missing;
  const { work } = plan.rules;
  if (task.crew.count > 0 && tooFast(plan)) return paceWords(plan);
  if (work.level === "breach" && task.duration.likelyS > work.longestS && task.effort !== "rest")
    return `It takes ${lasting(task.duration.likelyS, "up")}; at most ${lasting(work.longestS, "down")} of work may pass without a rest.`;
  const byCrew = task.crew.count > 0 ? impossibleForCrew(problem, a) : null;
  if (byCrew !== null) return byCrew;
  const byBlast = tooNear(plan, task);
  if (byBlast !== null) return byBlast;
  if (isBeyond(problem, a)) return BEYOND;
  return "Nobody may do it: look at its crew, qualification, pin, equipment and the keep-outs at its place.";
}

/** What the ascent blast keeps from a task that leaves an instrument; null where the rule does not bind it. */
function tooNear(plan: Plan, task: Task): string | null {
  const { blast } = plan.rules;
  if (!leavesInstrument(task) || blast.level !== "breach") return null;
  const outM = inBlastM(plan, task);
  const leastM = metres(blast.leastM, "up");
  if (outM !== null && outM < blast.leastM)
    return `It leaves an instrument ${metres(outM, "down")} from the lander; at least ${leastM} is asked for.`;
  return `Its instrument must stand at least ${leastM} from the lander, outside every hot keep-out, and somebody allowed must do it.`;
}

/** What keeps any crew from a task: how many they are, their suits, the way home, walks inside it, or what they carry. */
function impossibleForCrew(problem: Problem, a: number): string | null {
  const { plan } = problem;
  const task = plan.tasks[a]!;
  const largest = Math.max(0, ...plan.evas.map((eva) => eva.crew.length));
  if (largest < task.crew.count)
    return `It needs ${task.crew.count} crew members at once; no EVA has more than ${largest}.`;
  const shared = plan.evas.map((eva) => sharingSuits(plan, eva).length > 0);
  if (shared.length > 0 && shared.every(Boolean)) return suitWords(plan, plan.evas[0]!);
  const tooFar = beyondReach(problem, a);
  if (tooFar !== null) return tooFar;
  const inside = insideOf(problem.ways, task, plan.rules.walking.speedMs);
  if (task.duration.likelyS < inside.leastS)
    return `It walks ${metres(inside.walkM, "up")}, which takes ${lasting(inside.leastS, "up")} as planned; it is given ${lasting(task.duration.likelyS, "down")}.`;
  const { carry } = plan.rules;
  const carriesKg = carriedKg(carry.greatestN, plan.body.gravityMs2, task.crew.count);
  if (carry.level === "breach" && task.massOutKg > carriesKg)
    return `It carries out ${mass(task.massOutKg, "given")}; ${counted(task.crew.count, "crew member")} may carry ${mass(carriesKg, "down")} here.`;
  return null;
}

/** Why nobody comes home from a task on emergency oxygen; null where somebody does. */
function beyondReach(problem: Problem, a: number): string | null {
  const { plan } = problem;
  const task = plan.tasks[a]!;
  const place = problem.ways.index.get(task.endPlace ?? task.place!)!;
  const backS = Math.max(problem.homeS[place]!, problem.innerPeakS[a]!);
  const { level, emergencyReserveS } = plan.rules.walkback;
  const keptS = level === "breach" ? emergencyReserveS : 0;
  const reachS = Math.max(...plan.suits.map((suit) => suit.emergencyOxygenS - keptS));
  if (backS < 0) return "No way leads home from its place.";
  if (backS > reachS)
    return `The walk back from its place takes ${lasting(backS, "up")}; emergency oxygen allows ${lasting(reachS, "down")}.`;
  return null;
}

/** What of the sky a task asks for that is not known, so that it can never be said to hold; null when all is known. */
function unknownSky(plan: Plan, task: Task): string | null {
  const sky = taskSky(heavensOf(plan), { ...plan.stay, places: plan.site.places }, task);
  const skyless = skyUnknownWords(plan);
  const why = skyless ? ` ${skyless}` : ": no heights are known";
  if (sky.sun === null || sky.sunAngle === null)
    return `It asks for the sun, and where that stands is unknown${skyless ? why : ""}.`;
  if (sky.light === null)
    return `It asks for ground in the sun or in shadow; which it is there is unknown${why}.`;
  if (sky.isEarthUnknown)
    return `It needs the relay; no pass is long enough, and whether the Earth is in view is unknown${why}.`;
  return null;
}

/** Equipment of which there is less than it uses at once; null when there is enough of all. */
function lacking(plan: Plan, { equipment, duration: { likelyS } }: Task): string | null {
  if (likelyS === 0) return null;
  for (const { id, name, count } of plan.equipment) {
    const needed = equipment.reduce((sum, use) => sum + (use.equipment === id ? use.count : 0), 0);
    if (needed > 0 && count === 0) return `${name} is missing: there are 0 of the ${needed} that it needs.`;
    if (needed > count)
      return `It uses ${needed} of ${name} at once; there ${count === 1 ? "is 1" : `are ${count}`}.`;
  }
  return null;
}

export const BEYOND = "A leg on its way is given shorter or faster than anybody can walk: put the leg right.";

/** True when the way out to `a`, home from it or inside it goes by a given leg that nobody can walk. */
export function isBeyond(
  { beyond, crewCount, beginsAt, endsAt, lander, places }: Problem,
  a: number,
): boolean {
  if (!beyond || crewCount[a] === 0) return false;
  const ways = [
    lander * places + beginsAt[a]!,
    beginsAt[a]! * places + endsAt[a]!,
    endsAt[a]! * places + lander,
  ];
  return ways.some((at) => beyond[at] === 1);
}
