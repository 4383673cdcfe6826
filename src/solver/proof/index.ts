import type { Board } from "../board.ts";
import type { Problem } from "../problem.ts";
import { Ascent } from "./ascent.ts";
import { RouteBound } from "./bound.ts";
import { crewTimeBound } from "./crewtime.ts";
import { Exact, MOST_ACTIVITIES } from "./exact.ts";
import { routeClasses } from "./routes.ts";

/** Pairs of activities on like routes, all classes together, beyond which routes are not priced: it would lead nowhere in time. */
const MOST_PAIRS = 200_000;

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
    const classes = routeClasses(problem);
    this.bound = crewTimeBound(problem, classes, musts);
    this.boundMusts = musts;
    this.look(best());
    if (this.proved) return;
    yield;
    const enough = (): number => best().worth;
    // Where routes do not depend on each other they are priced soon; else prices of tasks alone say more at once.
    const ascent = problem.reach === "slack" ? null : new Ascent(problem, musts, classes);
    if (ascent) yield* this.watch([{ bound: ascent, going: ascent.rough(enough) }], best);
    if (this.proved) return;
    const works: Work[] = [];
    if (classes.reduce((sum, one) => sum + one.count ** 2, 0) <= MOST_PAIRS) {
      const bound = new RouteBound(problem, musts, classes);
      bound.worth = this.bound;
      bound.learn(best());
      works.push({ bound, going: bound.run(enough) });
    }
    if (ascent) works.push({ bound: ascent, going: ascent.fine(enough) });
    yield* this.watch(works, best);
    if (this.proved || problem.activities > MOST_ACTIVITIES) return;
    const exact = new Exact(problem);
    for (const turn of exact.run(best())) {
      if (exact.found) this.found = exact.best;
      yield turn;
    }
    if (exact.found) this.found = exact.best;
    this.proved = exact.proved;
    if (exact.proved) this.worth = (this.found ?? best()).worth;
  }

  /** Works by turns until the first is done and what comes after it may begin, or all are. */
  private *watch(works: readonly Work[], best: () => Board): Generator<void> {
    const last = this.problem.activities > MOST_ACTIVITIES;
    const open = new Set(works);
    while (open.size > 0) {
      for (const work of open) {
        const { done } = work.going.next();
        this.bound = Math.min(this.bound, work.bound.worth);
        this.look(best());
        if (this.proved) return;
        if (done !== true) yield;
        else if (!last && work === works[0]) return;
        else open.delete(work);
      }
    }
  }

  /** Takes what the bound says about `board` now, which counts for days with as many must-do tasks as it was made for. */
  look(board: Board): void {
    if (this.bound === Infinity || this.boundMusts !== (board.mustOut === 0)) return;
    this.worth = Math.min(this.worth, Math.max(this.bound, board.worth));
    this.proved = this.boundMusts && this.worth <= board.worth;
  }
}
