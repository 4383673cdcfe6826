import type { Board } from "../board.ts";
import type { Problem } from "../problem.ts";
import { RouteBound } from "./bound.ts";
import { crewTimeBound } from "./crewtime.ts";
import { Exact, MOST_ACTIVITIES } from "./exact.ts";
import { routeClasses } from "./routes.ts";

/** Pairs of activities on like routes, all classes together, beyond which routes are not priced: it would lead nowhere in time. */
const MOST_PAIRS = 200_000;

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
  private bound: { readonly worth: number } | null = null;
  private boundMusts = false;

  constructor(problem: Problem) {
    this.problem = problem;
  }

  /** Proves as long as it is asked to go on; `best` is asked for the best day anew each time. */
  *run(best: () => Board): Generator<void> {
    const { problem } = this;
    const musts = best().mustOut === 0;
    const classes = routeClasses(problem);
    const rough = { worth: crewTimeBound(problem, classes, musts) };
    this.bound = rough;
    this.boundMusts = musts;
    this.look(best());
    if (this.proved) return;
    yield;
    if (classes.reduce((sum, one) => sum + one.count ** 2, 0) <= MOST_PAIRS) {
      const bound = new RouteBound(problem, musts, classes);
      bound.worth = rough.worth;
      this.bound = bound;
      bound.learn(best());
      for (const turn of bound.run(() => best().worth)) {
        this.look(best());
        if (this.proved) return;
        yield turn;
      }
    }
    this.look(best());
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

  /** Takes what the bound says about `board` now, which counts for days with as many must-do tasks as it was made for. */
  look(board: Board): void {
    if (!this.bound || this.boundMusts !== (board.mustOut === 0)) return;
    this.worth = Math.min(this.worth, Math.max(this.bound.worth, board.worth));
    this.proved = this.boundMusts && this.worth <= board.worth;
  }
}
