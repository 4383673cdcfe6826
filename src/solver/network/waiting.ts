import { gridFrom, gridTo } from "../../kernel/index.ts";
import { Board } from "./board.ts";
import type { Day } from "./day.ts";
import type { Problem } from "../problem/problem.ts";
import { Propagation } from "./propagate.ts";
import { keepCool } from "./rules/heat.ts";
import { egressS } from "./rules/outing.ts";
import { keepRests } from "./rules/rests.ts";
import { Together } from "./rules/together.ts";
import { keepWayBack } from "./rules/walkback.ts";

/** Orders with starts held back that may be tried yet. */
export interface Waits {
  waits: number;
}

/** Starts are held back so many times, one after the other. */
const DEEPEST = 3;
/** No start is looked for earlier than by so much than the one that was found to do, s. */
const MOST_BACK_S = 14_400;
/** Orders tried between two breaths. */
const BREATH = 8;

/** Least starts by activity; NO_FLOOR without one. */
type Floors = Int32Array;

/**
 * Waiting on purpose. Earliest starts are not always the best ones: who goes out later on one task is outside for less long (S3), somebody
 * who waits a little longer has rested, and two who leave together stay near each other. Where an order does not hold at its earliest starts,
 * starts are held back: a whole outing towards its end, so that waiting falls away; before a task, or before all are back, until the
 * pause is a rest; until a task ends with the other's. Tried breadth first; finding nothing proves nothing.
 */
export class Waiting {
  private readonly problem: Problem;
  private readonly plain: Board;
  private readonly propagation: Propagation;
  private readonly together: Together | null;

  constructor(problem: Problem) {
    this.problem = problem;
    this.plain = new Board(problem);
    this.propagation = new Propagation(this.plain);
    this.together = Number.isFinite(problem.limits.apartM) ? new Together(problem) : null;
  }

  /**
   * Holds starts back until the order on the board of `day` holds: true with the day settled; false with the floors as they were
   * and its times spoilt, or with no tries left.
   */
  *settle(day: Day, budget: Waits): Generator<void, boolean> {
    const { board } = day;
    const before = board.floorS.slice();
    const seen = new Set([before.join()]);
    let level: Floors[] = [before];
    for (let depth = 0; depth < DEEPEST && level.length > 0; depth += 1) {
      const next: Floors[] = [];
      for (const later of this.newOnesFrom(board, level, seen)) {
        if (budget.waits <= 0) {
          board.floorS.set(before);
          return false;
        }
        budget.waits -= 1;
        if (budget.waits % BREATH === 0) yield;
        board.floorS.set(later);
        if (day.settle()) {
          this.release(day, before);
          return true;
        }
        next.push(later);
      }
      level = next;
    }
    board.floorS.set(before);
    return false;
  }

  /** What is held back further than each of `level`, each floors once. */
  private *newOnesFrom(board: Board, level: readonly Floors[], seen: Set<string>): Generator<Floors> {
    for (const floors of level)
      for (const later of this.heldBack(board, floors)) {
        const key = later.join();
        if (seen.has(key)) continue;
        seen.add(key);
        yield later;
      }
  }

  /**
   * Lets those go that the day holds without, from the last start on, and the others as far as it holds, by halving on the grid: what is held
   * back is then later than it has to be by no start alone, as far as halving tells.
   */
  private release(day: Day, before: Floors): void {
    const { board } = day;
    const raised = [...before.keys()]
      .filter((a) => board.placed[a] === 1 && board.floorS[a] !== before[a])
      .sort((a, b) => board.earliest[b]! - board.earliest[a]!);
    for (const a of raised) {
      const floorS = board.floorS[a]!;
      board.floorS[a] = before[a]!;
      if (!day.settle()) board.floorS[a] = this.leastFloorS(day, a, floorS);
    }
    day.settle();
  }

  /** The least start on the grid for `a` found by halving down from `mostS`, at which the day holds. */
  private leastFloorS(day: Day, a: number, mostS: number): number {
    const { board, problem } = day;
    const { gridS } = problem;
    let failsS = gridTo(Math.max(board.floorS[a]!, mostS - MOST_BACK_S), gridS);
    let holdsS = mostS;
    while (holdsS - failsS > gridS) {
      const middleS = gridFrom(Math.floor((failsS + holdsS) / 2), gridS);
      if (middleS >= holdsS) break;
      board.floorS[a] = middleS;
      if (day.settle()) holdsS = middleS;
      else failsS = middleS;
    }
    return holdsS;
  }

  /** Floors that hold something back from the earliest starts under `floors`; none where times alone allow no such order. */
  private heldBack(board: Board, floors: Floors): Floors[] {
    const { plain, propagation, problem } = this;
    plain.copy(board);
    plain.floorS.set(floors);
    plain.dropHolds(-1);
    plain.restS.fill(0);
    if (!propagation.earliestOfAll()) return [];
    const broken = Array.from({ length: problem.evas }, (_, e) => this.brokenOn(e));
    const list: Floors[] = [];
    const raised = (pairs: readonly (readonly [number, number])[]): void => {
      const later = floors.slice();
      for (const [a, startS] of pairs) later[a] = Math.max(later[a]!, startS);
      list.push(later);
    };
    broken.forEach((what, e) => {
      if (!what) return;
      this.pauses(e).forEach((pairs) => raised(pairs));
      if (what.apart) this.ends(e).forEach((pair) => raised([pair]));
    });
    if (!propagation.latestOfAll(true)) return list;
    broken.forEach((what, e) => {
      if (!what) return;
      const routes = this.routesOf(e);
      const back = (rs: readonly number[]): (readonly [number, number])[] =>
        rs.flatMap((r) => this.tasksOn(r).map((a) => [a, plain.latest[a]!] as const));
      // The whole outing first: it is what helps most often.
      const later = [routes, ...(routes.length > 1 ? routes.map((r) => [r]) : [])].map(back);
      const at = list.length;
      later.forEach((pairs) => raised(pairs));
      list.unshift(...list.splice(at));
    });
    return list;
  }

  /** What does not hold on EVA `e` at the times of the plain board; null when all does. */
  private brokenOn(e: number): { readonly apart: boolean } | null {
    const { plain, problem, together } = this;
    if (plain.onEva[e] === 0) return null;
    const outS = egressS(plain, e);
    const apart = together !== null && together.keep(plain, null, e) !== "holds";
    const single = this.routesOf(e).some(
      (r) =>
        (Number.isFinite(problem.limits.workS) && keepRests(plain, null, r, outS) !== "holds") ||
        (problem.heat !== null && keepCool(plain, null, r, outS) !== "holds") ||
        (problem.draws.walkbackBinds.includes(1) && keepWayBack(plain, null, r, outS) !== "holds"),
    );
    return apart || single ? { apart } : null;
  }

  /** Starts held back until the pause before a task is a rest; before all are back, that of others who come back last. */
  private pauses(e: number): (readonly [number, number])[][] {
    const { plain, problem } = this;
    const { workS, restS } = problem.limits;
    const list: (readonly [number, number])[][] = [];
    if (!Number.isFinite(workS)) return list;
    for (const r of this.routesOf(e))
      for (let p = plain.next[plain.head + r]!; p < plain.head; p = plain.next[p]!) {
        const q = plain.next[p]!;
        const node = plain.nodeOf[q]!;
        const restedS = plain.earliest[plain.nodeOf[p]!]! + plain.gapS(p, q) + restS;
        if (plain.earliest[node]! >= restedS) continue;
        if (q < plain.head) list.push([[node, restedS]]);
        else list.push(...this.othersBackBy(e, r, restedS).map((pair) => [pair]));
      }
    return list;
  }

  /** Last starts on the routes of EVA `e` but `but`, held back until their crew members are back at `atS`. */
  private othersBackBy(e: number, but: number, atS: number): (readonly [number, number])[] {
    const { plain } = this;
    return this.routesOf(e).flatMap((r) => {
      const last = plain.prev[plain.tail + r]!;
      if (r === but || last >= plain.head) return [];
      return [[plain.nodeOf[last]!, atS - plain.gapS(last, plain.tail + r)] as const];
    });
  }

  /** Starts held back until a task ends when one of somebody else does: both leave together. */
  private ends(e: number): (readonly [number, number])[] {
    const { plain, problem } = this;
    const routes = this.routesOf(e);
    return routes.flatMap((r) =>
      routes.flatMap((other) =>
        other === r
          ? []
          : this.tasksOn(r).flatMap((a) =>
              this.tasksOn(other).flatMap((b) => {
                const startS = plain.earliest[b]! + problem.lengthS[b]! - problem.lengthS[a]!;
                return startS > plain.earliest[a]! ? [[a, startS] as const] : [];
              }),
            ),
      ),
    );
  }

  private routesOf(e: number): number[] {
    const { routeStart } = this.problem;
    return Array.from({ length: routeStart[e + 1]! - routeStart[e]! }, (_, k) => routeStart[e]! + k);
  }

  private tasksOn(r: number): number[] {
    const { plain } = this;
    const list: number[] = [];
    for (let s = plain.next[plain.head + r]!; s < plain.head; s = plain.next[s]!) list.push(plain.nodeOf[s]!);
    return list;
  }
}
