import type { Plan, Schedule } from "../plan/index.ts";
import { Anneal } from "./search/anneal.ts";
import { Board } from "./network/board.ts";
import { compile } from "./problem/compile.ts";
import { withStartsOf } from "./problem/known.ts";
import { Day } from "./network/day.ts";
import { loadSchedule, scheduleOf } from "./network/placing.ts";
import { missingOver } from "./problem/groups.ts";
import type { Problem } from "./problem/problem.ts";
import { projectOf, projectRun } from "./project/index.ts";
import { Refine } from "./search/refine.ts";
import { Proof } from "./bound/index.ts";
import { type PackRun, type PackSettings, type RunProgress, TURNS_A_SECOND } from "./search/run.ts";

/** Time between two looks at the clock, and iterations at most. */
const LOOK_S = 0.002;
const MOST_IN_BURST = 32;
/** Where iterations are counted a burst is always as long, so that the clock decides nothing. */
const COUNTED_BURST = 4;
/** Part of the search that is kept for all that decides beside must-do work and worth, where more than slack counts. */
const REFINED = 0.04;
/** Part of the search after which the proof has a first go, and part of the proof that this is: easy plans are done at once. */
const FIRST_GO = 0.1;

/**
 * A run on `plan`. Every rule of RULES.md holds in every schedule it gives; its EVAs are flown in the order of `settings.from`. Where nobody goes out and everything must be
 * done, only the finish is left to better: that is project scheduling, and has a search of its own.
 */
export function packRun(plan: Plan, settings: PackSettings): PackRun {
  const project = projectOf(plan);
  return project ? projectRun(project, settings) : runOn(packed(plan, settings.from), settings);
}

/**
 * The problem of a pack that begins with `from`: starts on the plan's grid, so that what is packed can be told in its steps; those
 * that `from` has beside it may be kept only where it cannot be laid on the grid as it is.
 */
function packed(plan: Plan, from: Schedule | undefined): Problem {
  const problem = compile(plan, from);
  if (!from) return problem;
  const asGiven = withStartsOf(problem, from);
  if (asGiven === problem) return problem;
  return loadSchedule(new Day(problem), from) <= loadSchedule(new Day(asGiven), from) ? problem : asGiven;
}

/**
 * A run on a compiled problem: search for must-do work and worth, proof as far as it is asked for, and what is left of the time, or all once
 * everything is placed or nothing is worth more, for the rest of the score.
 */
export function runOn(problem: Problem, settings: PackSettings): PackRun {
  const { clock } = settings;
  const startS = clock();
  const search = new Anneal(problem, settings.seed, settings.from ?? null);
  const proof = new Proof(problem);
  const begun = new Board(problem);
  begun.copy(search.best);
  let refine: Refine | null = null;
  const best = (): Board => refine?.best ?? proof.found ?? search.best;
  const proving = proof.run(best);
  const budget = budgetOf(settings);
  const mustTotal = problem.must.reduce((sum, one) => sum + one, 0) + missingOver(problem, () => false);
  const counted = budget.iterations < Infinity;
  let burst = counted ? COUNTED_BURST : 1;
  let iterations = 0;
  let turns = 0;
  let provingS = 0;
  let exhausted = (settings.proveSeconds ?? 0) <= 0;
  let improvements = 1;
  let stopped: RunProgress["stopped"] = null;
  /** Why nothing is worth more; null while something may be. */
  let settled: "all placed" | "proved" | null = null;
  const kept = problem.checkLevel === "slack" ? 0 : REFINED;

  /** Part of the search that is done; counted in iterations where they are limited, though the clock ends it too. */
  const searched = (nowS: number): number => {
    const byClock = budget.seconds < Infinity ? (nowS - startS - provingS) / budget.seconds : 0.5;
    if (budget.iterations === Infinity || byClock >= 1) return byClock;
    return iterations / budget.iterations;
  };
  const proven = (): number =>
    exhausted ? 1 : budget.turns < Infinity ? turns / budget.turns : provingS / budget.proveSeconds;

  const iterate = (nowS: number): void => {
    const byClock = searched(nowS);
    let k = 0;
    for (; k < burst && iterations < budget.iterations && settled === null; k += 1) {
      const { worth, mustOut, endsS } = search.bestValue;
      search.iterate(Math.min(1, (counted ? searched(nowS) : byClock) / (1 - kept)));
      iterations += 1;
      const now = search.bestValue;
      if (now.worth !== worth || now.mustOut !== mustOut || now.endsS !== endsS) improvements += 1;
      if (search.best.count === problem.activities) settled = "all placed";
    }
    if (!counted) {
      const inTime = Math.floor((LOOK_S * k) / Math.max(1e-9, clock() - nowS));
      burst = Math.max(1, Math.min(MOST_IN_BURST, 2 * burst, inTime));
    }
    proof.look(best());
    if (proof.proved) settled ??= "proved";
  };
  /** A few steps of betterment by the rest of the score. */
  const better = (): void => {
    refine ??= new Refine(problem, settings.seed, [best(), begun]);
    for (
      let k = 0;
      k < COUNTED_BURST && iterations < budget.iterations && !(settled && refine.isDone);
      k += 1
    ) {
      if (refine.iterate()) improvements += 1;
      iterations += 1;
    }
    if (refine.isDone) stopped = settled;
  };
  const prove = (nowS: number): void => {
    const before = proof.found?.worth;
    exhausted = proving.next().done === true;
    turns += 1;
    provingS += clock() - nowS;
    if (proof.found?.worth !== before) {
      improvements += 1;
      refine = null;
    }
    if (proof.proved) settled = "proved";
  };

  return {
    step: (sliceS) => {
      const sliceEndS = clock() + sliceS;
      // However short the slice, each call gets somewhere.
      for (let worked = false; ; worked = true) {
        const nowS = clock();
        if (stopped) return false;
        if (best().count === problem.activities) settled ??= "all placed";
        if (worked && nowS >= sliceEndS) return true;
        const share = searched(nowS);
        const done = settled ? 1 : proven();
        if (share >= 1 && done >= 1)
          stopped = settled ?? (iterations >= budget.iterations ? "iterations" : "time");
        else if (done < 1 && (share >= 1 || (share >= FIRST_GO && done < FIRST_GO))) prove(nowS);
        else if (settled || share >= 1 - kept) better();
        else iterate(nowS);
      }
    },
    best: () => scheduleOf(best()),
    progress: () => {
      const board = best();
      const done = board.count === problem.activities;
      return {
        seconds: clock() - startS,
        iterations,
        worth: board.worth,
        placed: board.count,
        mustPlaced: mustTotal - board.mustOut,
        mustTotal,
        bound: done ? board.worth : Number.isFinite(proof.worth) ? proof.worth : null,
        improvements,
        stopped,
      };
    },
  };
}

function budgetOf(
  settings: PackSettings,
): Record<"iterations" | "seconds" | "turns" | "proveSeconds", number> {
  const { iterations = Infinity, seconds = Infinity, proveSeconds = 0 } = settings;
  return {
    iterations,
    seconds,
    turns: iterations < Infinity ? proveSeconds * TURNS_A_SECOND : Infinity,
    proveSeconds,
  };
}
