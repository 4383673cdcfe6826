import { pulse } from "../../kernel/index.ts";
import type { PackerRule } from "../../rules/index.ts";
import type { Placement, Schedule } from "../../plan/index.ts";
import { Board } from "./board.ts";
import { isOpen } from "../problem/starts.ts";
import type { Problem } from "../problem/problem.ts";
import { backS, egressS, outS } from "./rules/outing.ts";
import { keepFromEgress } from "./rules/fromegress.ts";
import { keepCool } from "./rules/heat.ts";
import { pairHolds } from "./rules/pairs.ts";
import { keepRests } from "./rules/rests.ts";
import { Together } from "./rules/together.ts";
import { totalsHold } from "./rules/totals.ts";
import { keepWayBack } from "./rules/walkback.ts";

/**
 * The maker's own check of a schedule as it stands, start by start: every rule that binds, in the fast forms that the search
 * uses. It shares nothing with the judge but RULES.md; tests tie the two.
 */

/** A rule that does not hold, and what it is about: an activity, link, route, EVA, container or equipment by number. */
export interface Fault {
  readonly rule: PackerRule;
  readonly about: number;
}

/** Hears of a fault; gives true to hear more. */
type Hearer = (rule: PackerRule, about: number) => boolean;

/** A placement in numbers. */
export interface PlacedActivity {
  readonly activity: number;
  readonly choice: number;
  readonly startS: number;
}

/** The placements that can be read, in numbers; the others are faults (task-crew, pin). */
export function read(problem: Problem, schedule: Schedule): { placings: PlacedActivity[]; unread: Fault[] } {
  const index = new Map(problem.plan.tasks.map((task, a) => [task.id, a]));
  const unread: Fault[] = [];
  const placings = schedule.placements.flatMap((placement): PlacedActivity[] => {
    const activity = index.get(placement.task) ?? -1;
    const choice = activity < 0 ? -1 : choiceOf(problem, activity, placement);
    if (choice < 0) {
      unread.push({ rule: "task-crew", about: activity });
      return [];
    }
    return [{ activity, choice, startS: placement.startS }];
  });
  return { placings, unread };
}

/** What is on `schedule`, where every placement can be read and every rule holds at the starts as they are; else null. */
export function readSound(problem: Problem, schedule: Schedule): PlacedActivity[] | null {
  const { placings, unread } = read(problem, schedule);
  return unread.length === 0 && new Verifier(problem).holds(placings) ? placings : null;
}

/** The crew choice that a placement names; -1 when it is none of the activity's. */
function choiceOf(problem: Problem, a: number, placement: Placement): number {
  const { plan } = problem;
  const crew = problem.crewCount[a]!;
  const distinct = new Set(placement.crew);
  if (crew !== distinct.size) return -1;
  for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1) {
    let same = crew > 0 || placement.eva === null;
    for (let k = 0; k < crew && same; k += 1) {
      const r = problem.choiceRoutes[problem.choiceAt[c]! + k]!;
      same =
        plan.evas[problem.evaOfRoute[r]!]!.id === placement.eva &&
        distinct.has(plan.crew[problem.memberOfRoute[r]!]!.id);
    }
    if (same) return c;
  }
  return -1;
}

export class Verifier {
  readonly problem: Problem;
  private readonly board: Board;
  private readonly together: Together | null;

  constructor(problem: Problem) {
    this.problem = problem;
    this.board = new Board(problem);
    this.together = Number.isFinite(problem.limits.apartM) ? new Together(problem) : null;
  }

  /** True when every rule holds. */
  holds(placings: readonly PlacedActivity[]): boolean {
    return this.test(placings, () => false);
  }

  /** Every fault, each once. */
  faults(placings: readonly PlacedActivity[]): Fault[] {
    const list: Fault[] = [];
    this.test(placings, (rule, about) => {
      if (!list.some((one) => one.rule === rule && one.about === about)) list.push({ rule, about });
      return true;
    });
    return list;
  }

  /** Tells `hear` of every fault until it has heard enough; true when there is none. */
  test(placings: readonly PlacedActivity[], hear: Hearer): boolean {
    pulse();
    let sound = true;
    const tell: Hearer = (rule, about) => {
      sound = false;
      return hear(rule, about);
    };
    this.clear();
    if (!this.load(placings, tell)) return false;
    return this.testLoaded(tell) && sound;
  }

  /**
   * With everything else laid by the last test: tells `hear` of the faults once `placing` is there too, but for those on other EVAs and
   * between other activities, which it does not change. Its windows, edges to what is placed, neighbours on its routes and equipment
   * are the caller's to see to.
   */
  testWith(placing: PlacedActivity, hear: Hearer): boolean {
    const { problem, board } = this;
    const { activity: a, startS } = placing;
    const crew = problem.crewCount[a]!;
    const at = problem.choiceAt[placing.choice]!;
    const behind: number[] = [];
    for (let s = problem.slotStart[a]!; s < problem.slotStart[a + 1]!; s += 1) {
      const k = s - problem.slotStart[a]!;
      const lane =
        k < crew
          ? problem.choiceRoutes[at + k]!
          : problem.routes + problem.chainStart[problem.slotEquipment[s]!]! + (k - crew);
      let p = board.prev[board.tail + lane]!;
      while (k < crew && p < board.head && board.earliest[board.nodeOf[p]!]! > startS) p = board.prev[p]!;
      behind.push(p);
    }
    board.earliest[a] = startS;
    const eva = crew === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[at]!]!;
    board.link(a, behind, eva);
    if (eva >= 0) this.bounds(eva);
    const sound =
      this.relationsOf(a, 0, hear) &&
      this.edges(hear) &&
      this.loads(hear) &&
      this.groups(hear) &&
      (eva < 0 || this.outing(eva, hear)) &&
      (totalsHold(board) || hear("totals", 0));
    board.unlink(a);
    if (eva >= 0) this.bounds(eva);
    return sound;
  }

  private testLoaded(hear: Hearer): boolean {
    const { problem, board } = this;
    for (let e = 0; e < problem.evas; e += 1) this.bounds(e);
    for (let a = 0; a < problem.activities; a += 1)
      if (board.placed[a] === 1 && !this.relationsOf(a, a, hear)) return false;
    if (!this.edges(hear) || !this.loads(hear) || !this.groups(hear)) return false;
    for (let e = 0; e < problem.evas; e += 1) if (board.onEva[e]! > 0 && !this.outing(e, hear)) return false;
    return totalsHold(board) || hear("totals", 0);
  }

  /** The board that the last test laid. */
  get laid(): Board {
    return this.board;
  }

  private clear(): void {
    const { board } = this;
    for (let a = 0; a < this.problem.activities; a += 1) if (board.placed[a] === 1) board.unlink(a);
  }

  /** Stands everything at its start: windows, one at a time, ways, equipment. */
  private load(placings: readonly PlacedActivity[], tell: Hearer): boolean {
    const { problem, board } = this;
    const { lengthS } = problem;
    const order = [...placings].sort(
      (x, y) => x.startS - y.startS || lengthS[x.activity]! - lengthS[y.activity]! || x.activity - y.activity,
    );
    for (const placing of order) {
      const { activity: a, choice, startS } = placing;
      if (!isOpen(problem.windows, a, startS) && !tell("time-window", a)) return false;
      const behind = this.lastSlots(placing, tell);
      if (!behind) return false;
      const first = problem.choiceRoutes[problem.choiceAt[choice]!]!;
      board.earliest[a] = startS;
      board.link(a, behind, problem.crewCount[a] === 0 ? -1 : problem.evaOfRoute[first]!);
      if (!this.follows(a, startS, tell)) return false;
    }
    return true;
  }

  /** The last slots of the routes of a placement and of units that are free; null once `tell` has heard enough. */
  private lastSlots({ activity: a, choice, startS }: PlacedActivity, tell: Hearer): number[] | null {
    const { problem, board } = this;
    const { slotStart, slotEquipment, chainStart, routes } = problem;
    const crew = problem.crewCount[a]!;
    const at = problem.choiceAt[choice]!;
    const behind: number[] = [];
    for (let k = 0; k < crew; k += 1) behind.push(board.prev[board.tail + problem.choiceRoutes[at + k]!]!);
    for (let s = slotStart[a]! + crew; s < slotStart[a + 1]!; s += 1) {
      const equipment = slotEquipment[s]!;
      const unit = this.freeUnit(equipment, startS, behind, crew);
      if (unit < 0 && !tell("equipment", equipment)) return null;
      behind.push(board.prev[board.tail + routes + Math.max(unit, chainStart[equipment]!)]!);
    }
    return behind;
  }

  /** no-way and one-at-a-time: activity `a` at `startS` after what stands before it on its routes. */
  private follows(a: number, startS: number, tell: Hearer): boolean {
    const { problem, board } = this;
    const first = problem.slotStart[a]!;
    for (let s = first; s < first + problem.crewCount[a]!; s += 1) {
      const p = board.prev[s]!;
      // The first way out only has to exist: egress follows from it.
      if (board.gapS(p, s) > NO_WAY && !tell("no-way", a)) return false;
      if (p >= board.head || board.earliest[board.nodeOf[p]!]! + board.gapS(p, s) <= startS) continue;
      if (!tell("one-at-a-time", a)) return false;
    }
    return true;
  }

  /** A unit that nothing uses at `startS`; -1 when there is none. */
  private freeUnit(equipment: number, startS: number, behind: readonly number[], crew: number): number {
    const { problem, board } = this;
    for (let c = problem.chainStart[equipment]!; c < problem.chainStart[equipment + 1]!; c += 1) {
      const last = board.prev[board.tail + problem.routes + c]!;
      if (behind.indexOf(last, crew) >= 0) continue;
      const i = board.nodeOf[last]!;
      if (i === problem.source || board.earliest[i]! + problem.lengthS[i]! <= startS) return c;
    }
    return -1;
  }

  /** link-needs, link-crew, link-eva, link-apart of activity `a`, with others from number `first` on. */
  private relationsOf(a: number, first: number, tell: Hearer): boolean {
    const { problem, board } = this;
    for (const b of problem.needs[a]!) if (board.placed[b] === 0 && !tell("link-needs", a)) return false;
    for (const { other, relation, link } of problem.pairs[a]!) {
      if (other < first || board.placed[other] === 0 || pairHolds(board, a, other, relation)) continue;
      if (!tell("link", link)) return false;
    }
    return true;
  }

  /** link-lag, hot-keep-out; recharge between EVAs in the order they are flown. */
  private edges(tell: Hearer): boolean {
    const { origin } = this.problem.edges;
    for (let x = 0; x < origin.length; x += 1) {
      if (this.edgeHolds(x)) continue;
      const what = origin[x]!;
      const about = what.rule === "link-lag" ? what.link : what.rule === "recharge" ? what.eva : what.keepOut;
      if (!tell(what.rule, about)) return false;
    }
    return true;
  }

  private edgeHolds(x: number): boolean {
    const { problem, board } = this;
    const { earliest, placed } = board;
    const { from, to, weight, origin } = problem.edges;
    const { lengthS } = problem;
    const i = from[x]!;
    const j = to[x]!;
    if (placed[i] === 0 || placed[j] === 0 || earliest[j]! >= earliest[i]! + weight[x]!) return true;
    if (origin[x]!.rule !== "recharge") return false;
    // The other way round: from all back on the later EVA to egress on this one, with the same rest between.
    const restS = weight[x]! - lengthS[i]!;
    return earliest[i - 1]! >= earliest[j + 1]! + lengthS[j + 1]! + restS;
  }

  /** Egress and all back of EVA `e` as they follow from what is on it. */
  private bounds(e: number): void {
    const { board } = this;
    if (board.onEva[e] === 0) return;
    const egress = this.problem.activities + 2 * e;
    board.earliest[egress] = egressS(board, e);
    board.earliest[egress + 1] = this.backFrom(e);
  }

  private backFrom(e: number): number {
    const { problem, board } = this;
    let latestS = -Infinity;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      if (board.onRoute[r] === 0) continue;
      const last = board.prev[board.tail + r]!;
      latestS = Math.max(latestS, board.earliest[board.nodeOf[last]!]! + board.gapS(last, board.tail + r));
    }
    return latestS;
  }

  /** container, return-mass. */
  private loads(tell: Hearer): boolean {
    const { board } = this;
    const { loads } = this.problem;
    for (let c = 0; c < loads.emptyGrams.length; c += 1) {
      const over =
        board.grams[c]! > loads.holdsGrams[c]! || board.millilitres[c]! > loads.holdsMillilitres[c]!;
      if (board.inContainer[c]! > 0 && over && !tell("container", c)) return false;
    }
    return board.returnGrams <= loads.returnGrams || tell("return-mass", 0);
  }

  /** group-most, of every member of a group with too many, so that each that goes is one fault less. */
  private groups(tell: Hearer): boolean {
    const { board } = this;
    const { groups } = this.problem;
    return (
      groups === null ||
      groups.members.every(
        (list, g) =>
          board.inGroup[g]! <= groups.most[g]! ||
          list.every((a) => board.placed[a] === 0 || tell("group-most", a)),
      )
    );
  }

  /** What concerns the whole outing `e`: bounds, blocks, reserves, rests, stored heat, walk-back, separation. */
  private outing(e: number, tell: Hearer): boolean {
    const { problem, board, together } = this;
    const { lengthS, activities } = problem;
    const startS = egressS(board, e);
    const endS = backS(board, e) + lengthS[activities + 2 * e + 1]!;
    if (endS >= NO_WAY && !tell("no-way", e)) return false;
    if (!this.inGap(e, startS, endS) && !tell("eva-bounds", e)) return false;
    if (outS(board, e) > board.allowedS[e]! && !tell("reserve", e)) return false;
    if (problem.pet && keepFromEgress(board, null, e, startS) !== "holds" && !tell("egress-window", e))
      return false;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1)
      if (!this.route(r, startS, tell)) return false;
    return !together || together.keep(board, null, e) === "holds" || tell("crew-separation", e);
  }

  /** What concerns route `r` alone, whose egress is at `startS`: rests, stored heat, walk-back. */
  private route(r: number, startS: number, tell: Hearer): boolean {
    const { problem, board } = this;
    const isRested = problem.limits.workS === Infinity || keepRests(board, null, r, startS) === "holds";
    if (!isRested && !tell("work-and-rest", r)) return false;
    const isCool = !problem.heat || keepCool(board, null, r, startS) === "holds";
    if (!isCool && !tell("heat-storage", r)) return false;
    const comesBack = !problem.draws.binds || keepWayBack(board, null, r, startS) === "holds";
    return comesBack || tell("walk-back-consumables", r);
  }

  private inGap(e: number, startS: number, endS: number): boolean {
    const { gapStart, gapFromS, gapToS } = this.problem;
    for (let g = gapStart[e]!; g < gapStart[e + 1]!; g += 1)
      if (startS >= gapFromS[g]! && endS <= gapToS[g]!) return true;
    return false;
  }
}

/** No plan is half as long. */
const NO_WAY = 700_000_000;
