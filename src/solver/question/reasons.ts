import type { BenchReason, Fit } from "../../answers/index.ts";
import { instant, random } from "../../kernel/index.ts";
import { carriedKg } from "../../physics/index.ts";
import { leavesInstrument, type Plan, type Schedule, sharingSuits, type Task } from "../../plan/index.ts";
import { heavensOf, insideOf, taskSky } from "../../terrain/index.ts";
import {
  counted,
  digits,
  gridName,
  lasting,
  listed,
  mass,
  metres,
  skyUnknownWords,
  volume,
} from "../../words/index.ts";
import { Bands } from "./bands.ts";
import { Board } from "../network/board.ts";
import { tooFast } from "../problem/choices.ts";
import { compiled } from "../problem/known.ts";
import { Day } from "../network/day.ts";
import { firstFit } from "./firstfit.ts";
import { Insertion } from "../search/insertion.ts";
import { nearestMiss } from "./miss.ts";
import { loadSchedule } from "../network/placing.ts";
import type { Problem } from "../problem/problem.ts";
import { read, Verifier } from "../network/verify.ts";
import { placeGroup } from "./why/inserting.ts";
import { suitWords } from "./why/words.ts";
import { paceWords } from "../problem/words.ts";

/** Above this many tasks the bands of every bench task would take too long: only sliding fits are looked for. */
const MOST_FOR_BANDS = 80;

const BROKEN = "The schedule breaks rules as it stands; mend it first.";
/** The order of a sound schedule need not hold at earliest starts, from which sliding is worked out. */
const UNKNOWN_SLIDING =
  "It fits nowhere with the others where they are; whether they could make room by sliding is unknown.";

const FITS_ELSEWHERE = "It fits if others start at other times; Why not? says which.";
const NONE_FOUND = "Other places and later starts were tried; none was found.";
const UNTRIED = "Other places and later starts were not tried.";
/** Places, and orders with starts held back on purpose, that are tried for one task. */
const TRIES = 60;
const WAITS = 40;

/** A reason for every task of `plan` that `schedule` does not place. */
export function benchReasons(plan: Plan, schedule: Schedule): BenchReason[] {
  const problem = compiled(plan, schedule);
  const placed = new Set(schedule.placements.map((one) => one.task));
  const day = new Day(problem);
  const leftOut = loadSchedule(day, schedule);
  const sound = leftOut > 0 && isSound(problem, schedule);
  const insertion = new Insertion(day, random(0));
  const bands = problem.activities <= MOST_FOR_BANDS ? new Bands(problem, schedule) : null;
  const finer = fitsToTheSecond(problem, schedule);
  return plan.tasks.flatMap((task, a) => {
    if (placed.has(task.id)) return [];
    const reason = (sentence: string, fitsAt: Fit | null = null, slides = false): BenchReason[] => [
      { task: task.id, sentence, fitsAt, slides },
    ];
    const never = impossible(problem, a);
    if (never !== null) return reason(never);
    const missing = problem.needs[a]!.filter((b) => !placed.has(plan.tasks[b]!.id));
    if (missing.length > 0)
      return reason(
        `It needs ${listed(missing.map((b) => plan.tasks[b]!.name))}, which ${missing.length > 1 ? "are" : "is"} on the bench too.`,
      );
    const full = overfull(problem, day, a);
    if (full !== null) return reason(full);
    const now = bands && firstFit(bands, problem, a);
    if (now) return reason("It fits as things stand.", now);
    if (leftOut > 0) return reason(sound ? UNKNOWN_SLIDING : BROKEN);
    if (insertion.place(a, 0)) {
      const fit = fitOf(day, a);
      day.unlink(a);
      return reason("It fits when others slide in their order.", fit, true);
    }
    const beyond = isBeyond(problem, a) ? `${BEYOND} ` : "";
    const grid = `It fits with starts to the second, not with starts on ${gridName(problem.gridS)}: make the plan's grid of starts finer.`;
    if (!insertion.look(a, 0)) return reason(finer(a) ? grid : `${beyond}${nearestMiss(day, a)}`);
    const against = ruleWords(problem, day.broke);
    if (bands !== null && fitsElsewhere(day, a)) return reason(FITS_ELSEWHERE);
    if (finer(a)) return reason(grid);
    return reason(`${beyond}${against} ${bands === null ? UNTRIED : NONE_FOUND}`);
  });
}

/** Where a task lies on the day. */
function fitOf({ problem, board }: Day, a: number): Fit {
  const { plan } = problem;
  const first = problem.slotStart[a]!;
  const e = board.evaOf[a]!;
  return {
    eva: e < 0 ? null : plan.evas[e]!.id,
    crew: Array.from(
      { length: problem.crewCount[a]! },
      (_, k) => plan.crew[problem.memberOfRoute[board.lane[first + k]!]!]!.id,
    ),
    startS: instant(board.earliest[a]!),
  };
}

/** Says of a task whether it fits when others slide in their order and every start may be at any second; false where there is no grid. */
function fitsToTheSecond(problem: Problem, schedule: Schedule): (a: number) => boolean {
  let laid: { readonly day: Day; readonly insertion: Insertion } | null | undefined;
  return (a) => {
    if (problem.gridS === 1) return false;
    if (laid === undefined) {
      const day = new Day({ ...problem, gridS: 1, ...problem.windows });
      laid = loadSchedule(day, schedule) === 0 ? { day, insertion: new Insertion(day, random(0)) } : null;
    }
    if (!laid?.insertion.place(a, 0)) return false;
    laid.day.unlink(a);
    return true;
  };
}

/** True when `a` finds a place with the others sliding, or with starts held back on purpose; the day stays as it is. */
function fitsElsewhere(day: Day, a: number): boolean {
  // The slack test has had the last word there.
  if (day.problem.checkLevel === "slack") return false;
  const before = new Board(day.problem);
  before.copy(day.board);
  const going = placeGroup(day, [a], { tries: TRIES, waits: WAITS });
  for (;;) {
    const step = going.next();
    if (!step.done) continue;
    day.board.copy(before);
    return step.value === true;
  }
}

/** True when every placement can be read and every rule holds at the starts as they are. */
function isSound(problem: Problem, schedule: Schedule): boolean {
  const { stands, unread } = read(problem, schedule);
  return unread.length === 0 && new Verifier(problem).holds(stands);
}

/** What makes a task impossible in any schedule; null when nothing does. */
function impossible(problem: Problem, a: number): string | null {
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
  if (leavesInstrument(task) && plan.rules.blast.level === "breach")
    return `Its instrument must stand at least ${metres(plan.rules.blast.leastM, "up")} from the lander, outside every hot keep-out, and somebody allowed must do it.`;
  if (isBeyond(problem, a)) return BEYOND;
  return "Nobody may do it: look at its crew, qualification, pin, equipment and the keep-outs at its place.";
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
    const asked = equipment.reduce((sum, use) => sum + (use.equipment === id ? use.count : 0), 0);
    if (asked > 0 && count === 0) return `${name} is missing: there are 0 of the ${asked} that it needs.`;
    if (asked > count)
      return `It uses ${asked} of ${name} at once; there ${count === 1 ? "is 1" : `are ${count}`}.`;
  }
  return null;
}

const BEYOND = "A leg on its way is given shorter or faster than anybody can walk: put the leg right.";

/** True when the way out to `a`, home from it or inside it goes by a given leg that nobody can walk. */
function isBeyond({ beyond, crewCount, beginsAt, endsAt, lander, places }: Problem, a: number): boolean {
  if (!beyond || crewCount[a] === 0) return false;
  const ways = [
    lander * places + beginsAt[a]!,
    beginsAt[a]! * places + endsAt[a]!,
    endsAt[a]! * places + lander,
  ];
  return ways.some((at) => beyond[at] === 1);
}

/** A group that has all that it may have, or a container or the ascent vehicle without room for its sample; null when all have. */
function overfull(problem: Problem, day: Day, a: number): string | null {
  const { loads, plan } = problem;
  const g = day.board.fullGroup(a);
  if (g >= 0) {
    const { name, most } = plan.groups[g]!;
    const there = plan.tasks.filter(
      (_, b) => problem.groups!.of[b]!.includes(g) && day.board.placed[b] === 1,
    );
    const instead =
      there.length === 0 ? "" : `, and there is already ${listed(there.map((task) => task.name))}`;
    return `Of ${name} at most ${most} may be done${instead}.`;
  }
  if (day.board.holdsSample(a)) return null;
  const c = loads.container[a]!;
  const { board } = day;
  const kg = (grams: number): string => mass(grams / 1000, "given");
  const overG = board.grams[c]! + loads.grams[a]! - loads.holdsGrams[c]!;
  const overMl = board.millilitres[c]! + loads.millilitres[a]! - loads.holdsMillilitres[c]!;
  const { name } = plan.containers[c]!;
  if (overG > 0) return `Its sample is ${kg(overG)} more than ${name} still takes.`;
  if (overMl > 0) return `Its sample is ${volume(overMl / 1000, "given")} more than ${name} still takes.`;
  const box = board.inContainer[c] === 0 ? loads.emptyGrams[c]! : 0;
  return `With it ${kg(board.returnGrams + loads.grams[a]! + box - loads.returnGrams)} too much would go back on the ascent vehicle.`;
}

/** What stands against a task for which the time would be there. */
function ruleWords(problem: Problem, rule: Day["broke"]): string {
  const { separation, work, heat, duty, distance } = problem.plan.rules;
  switch (rule) {
    case "crew-separation":
      return `There is time, but crew members would be more than ${metres(separation.greatestM, "down")} apart: ask for them together, or for work near it.`;
    case "egress-window":
      return "There is time, but not inside the windows that are counted from egress.";
    case "work-and-rest":
      return `There is time, but not for the rest of ${lasting(work.restS, "up")} that is due after ${lasting(work.longestS, "down")} of work.`;
    case "heat-storage":
      return `There is time, but a body would store more than ${digits(heat.mostKjKg)} kJ of heat for each kg, and no stand before would let it go.`;
    case "walk-back-consumables":
      return "There is time, but consumables above the reserve would not carry the walk back at every moment.";
    case "totals":
      return `There is time, but not within the stay's sums: ${lasting(duty.stayS, "down")} of EVA, ${metres(distance.stayM, "down")} walked, the lander's stores.`;
    default:
      return "There is room at single places, but others would be pushed past their windows, links, EVA bounds or reserves.";
  }
}
