import { type ProjectProblem, scheduleOf, startsOf } from "./compile.ts";
import type { PackRun, PackSettings, RunProgress } from "../search/run.ts";
import { Portfolio } from "./portfolio.ts";

/**
 * How far a project run has come. "proved" where tasks last no whole steps of the grid: no schedule ends a step earlier.
 */
interface ProjectProgress extends RunProgress {
  /** End of the last task, s; null while there is no schedule. */
  readonly finishS: number | null;
  /** Proved: no schedule ends earlier, s; Infinity when it is proved that there is none at all. */
  readonly floorS: number;
}

/** A run on a project. */
export interface ProjectRun extends PackRun {
  progress(): ProjectProgress;
}

/** A run on `problem`: all of its tasks placed, every rule held, the finish as early as can be found. */
export function projectRun(problem: ProjectProblem, settings: PackSettings): ProjectRun {
  const { clock, seed } = settings;
  const { plan, unitS } = problem;
  const beganS = clock();
  const mostS = settings.seconds ?? Infinity;
  const most = settings.iterations ?? Infinity;
  const search = new Portfolio(problem, seed, settings.from ? startsOf(problem, settings.from) : null);
  // A finish in whole steps of the grid is up to so much later than the finish.
  const { startGridS } = plan.rules;
  const spareS = plan.tasks.every((task) => task.duration.likelyS % startGridS === 0) ? 0 : startGridS - 1;
  const worth = plan.tasks.reduce((sum, task) => sum + task.worth, 0);
  let iterations = 0;
  let improvements = search.best ? 1 : 0;
  let stopped: ProjectProgress["stopped"] = null;

  return {
    step: (sliceS) => {
      const sliceEndS = clock() + sliceS;
      for (;;) {
        const nowS = clock();
        if (search.proved) stopped = "proved";
        else if (iterations >= most) stopped = "iterations";
        else if (nowS - beganS >= mostS) stopped = "time";
        if (stopped) return false;
        if (nowS >= sliceEndS) return true;
        const { finish } = search;
        search.iterate();
        iterations += 1;
        if (search.finish < finish) improvements += 1;
      }
    },
    best: () => (search.best ? scheduleOf(problem, search.best) : { placements: [] }),
    progress: () => {
      const placed = search.best ? plan.tasks.length : 0;
      return {
        seconds: clock() - beganS,
        iterations,
        worth: search.best ? worth : 0,
        placed,
        mustPlaced: placed,
        mustTotal: plan.tasks.length,
        bound: search.best ? worth : null,
        improvements,
        finishS: search.best ? finishS(problem, search.best) : null,
        floorS: search.floor * unitS - spareS,
        stopped,
      };
    },
  };
}

/** When the last task of a schedule (units, by activity) ends. */
function finishS({ plan, unitS }: ProjectProblem, start: Int32Array): number {
  return plan.tasks.reduce((lastS, task, a) => Math.max(lastS, start[a]! * unitS + task.duration.likelyS), 0);
}
