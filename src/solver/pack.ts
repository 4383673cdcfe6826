import type { Plan } from "../plan/index.ts";
import { Anneal } from "./anneal.ts";
import { compile } from "./compile/index.ts";
import { scheduleOf } from "./placing.ts";
import type { Problem } from "./problem.ts";
import { projectOf, projectRun } from "./project/index.ts";
import type { PackRun, PackSettings, RunProgress } from "./run.ts";

/** Between two looks at the clock. */
const BURST = { slack: 16, network: 4, rules: 1 } as const;

/**
 * A run on `plan`. Every rule of RULES.md holds in every schedule it gives. Where nobody goes out and everything must be
 * done, only the finish is left to better: that is project scheduling, and has a search of its own.
 */
export function packRun(plan: Plan, settings: PackSettings): PackRun {
  const project = projectOf(plan);
  return project ? projectRun(project, settings) : runOn(compile(plan), settings);
}

/** A run on a compiled problem. */
export function runOn(problem: Problem, settings: PackSettings): PackRun {
  const { clock } = settings;
  const startS = clock();
  const mostS = settings.seconds ?? Infinity;
  const most = settings.iterations ?? Infinity;
  const search = new Anneal(problem, settings.seed, settings.from ?? null);
  const mustTotal = problem.must.reduce((sum, one) => sum + one, 0);
  const burst = BURST[problem.reach];
  let iterations = 0;
  let improvements = 1;
  let stopped: RunProgress["stopped"] = null;

  const share = (nowS: number): number =>
    Number.isFinite(most) ? iterations / most : Number.isFinite(mostS) ? (nowS - startS) / mostS : 0.5;

  return {
    step: (sliceS) => {
      const sliceEndS = clock() + sliceS;
      // However short the slice, each call gets somewhere.
      let worked = false;
      for (;;) {
        const nowS = clock();
        if (iterations >= most) stopped = "iterations";
        else if (nowS - startS >= mostS) stopped = "time";
        else if (search.best.count === problem.activities) stopped = "all placed";
        if (stopped) return false;
        if (worked && nowS >= sliceEndS) return true;
        worked = true;
        const done = share(nowS);
        for (let k = 0; k < burst && iterations < most; k += 1) {
          const { worth, mustOut, endsS } = search.bestValue;
          search.iterate(done);
          iterations += 1;
          const now = search.bestValue;
          if (now.worth !== worth || now.mustOut !== mustOut || now.endsS !== endsS) improvements += 1;
        }
      }
    },
    best: () => scheduleOf(search.best),
    progress: () => ({
      seconds: clock() - startS,
      iterations,
      worth: search.bestValue.worth,
      placed: search.best.count,
      mustPlaced: mustTotal - search.bestValue.mustOut,
      mustTotal,
      improvements,
      stopped,
    }),
  };
}
