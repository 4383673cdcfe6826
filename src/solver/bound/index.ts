import type { Board } from "../network/board.ts";
import type { Problem } from "../problem/problem.ts";
import { Ascent } from "./ascent.ts";
import { RouteBound } from "./bound.ts";
import { crewTimeBound } from "./crewtime.ts";
import { Exact, MOST_ACTIVITIES } from "./exact.ts";
import { layClasses, type RouteClass } from "./routes.ts";

/** Pairs of activities on like routes, all classes together, beyond which routes are not priced: it would lead nowhere in time. */
export const MOST_PAIRS = 200_000;

/** Visits on a route from which on it is long. */
const LONG = 10;

/** A bound on worth and the work that lowers it. */
interface Work {
  readonly bound: { readonly worth: number };
  readonly going: Generator<void>;
}

/**
 * What is proved about a plan: how much worth is possible at most, and whether the best day so far is the best of all. Nothing is claimed
 * before it is proved.
 */
export class Proof {
  /** No schedule with as many must-do tasks is worth more; Infinity while nothing is known. */
  worth = Infinity;
  /** True once no schedule can be better in must-do tasks and worth than the best known. */
  proved = false;
  /** A day better than the one looked at, found on the way. */
  found: Board | null = null;
  private readonly problem: Problem;
  private bound = Infinity;
  private boundMusts = false;

  constructor(problem: Problem) {
    this.problem = problem;
  }

  /** Proves as long as it is asked to go on; `best` is asked for the best day anew each time. */
  *run(best: () => Board): Generator<void> {
    const { problem } = this;
    const musts = best().mustOut === 0;
    const classes = yield* layClasses(problem);
    this.bound = crewTimeBound(problem, classes, musts);
    this.boundMusts = musts;
    this.view(best());
    if (this.proved) return;
    yield;
    const enough = (): number => best().worth;
    const works: Work[] = [];
    if (classes.reduce((sum, one) => sum + one.count ** 2, 0) <= MOST_PAIRS) {
      const bound = new RouteBound(problem, musts, classes);
      bound.worth = this.bound;
      bound.learn(best());
      works.push({ bound, going: bound.run(enough) });
    }
    // Routes of many visits are dear to price, and prices of tasks alone say more for long.
    const priced: Work[] = [];
    if (problem.checkLevel !== "slack") {
      const ascent = new Ascent(problem, musts, classes);
      priced.push({ bound: ascent, going: ascent.run(enough) });
    }
    const few = problem.activities <= MOST_ACTIVITIES;
    const long = !few && classes.some((one) => visitsOn(one) >= LONG);
    yield* this.watch(long ? [...works, ...priced] : works, best);
    if (this.proved || long) return;
    if (!few) return yield* this.watch(priced, best);
    const exact = new Exact(problem);
    for (const turn of exact.run(best())) {
      if (exact.found) this.found = exact.best;
      yield turn;
    }
    if (exact.found) this.found = exact.best;
    this.proved = exact.proved;
    if (exact.proved) this.worth = (this.found ?? best()).worth;
    else yield* this.watch(priced, best);
  }

  /** Works by turns until all are done. */
  private *watch(works: readonly Work[], best: () => Board): Generator<void> {
    const open = new Set(works);
    while (open.size > 0) {
      for (const work of open) {
        const { done } = work.going.next();
        this.bound = Math.min(this.bound, work.bound.worth);
        this.view(best());
        if (this.proved) return;
        if (done === true) open.delete(work);
        else yield;
      }
    }
  }

  /** Takes what the bound says about `board` now, which counts for days with as many must-do tasks as it was made for. */
  view(board: Board): void {
    if (this.bound === Infinity || this.boundMusts !== (board.mustOut === 0)) return;
    this.worth = Math.min(this.worth, Math.max(this.bound, board.worth));
    this.proved = this.boundMusts && this.worth <= board.worth;
  }
}

/** How many activities of middling length, each with the shortest way to it, a route has time for. */
function visitsOn({ count, legS, lastsS, outS, backByS, leaveS }: RouteClass): number {
  let wholeS = 0;
  for (let j = 0; j < count; j += 1) {
    let wayS = Infinity;
    for (let i = 0; i <= count; i += 1) if (i !== j) wayS = Math.min(wayS, legS[i * (count + 1) + j]!);
    wholeS += lastsS[j]! + wayS;
  }
  const longestS = Math.min(outS, backByS - leaveS);
  return wholeS === 0 ? count : Math.min(count, (longestS * count) / wholeS);
}
