import type { Schedule } from "../../plan/index.ts";
import { type ProjectProblem, scheduleOf, startsOf } from "./compile.ts";
import type { PackSettings } from "../settings.ts";
import { Portfolio } from "./portfolio.ts";

/** How far a run has come. */
export interface ProjectProgress {
  readonly seconds: number;
  readonly iterations: number;
  readonly worth: number;
  readonly placed: number;
  readonly mustPlaced: number;
  readonly mustTotal: number;
  /** Goes up by one with each better schedule. */
  readonly improvements: number;
  /** End of the last task, s; null while there is no schedule. */
  readonly finishS: number | null;
  /** Proved: no schedule ends earlier, s; Infinity when it is proved that there is none at all. */
  readonly floorS: number;
  readonly stopped: null | "time" | "iterations" | "proved";
}

/** A run that is driven slice by slice, so that its caller can stop it between two. */
export interface ProjectRun {
  /** Searches for at most `sliceS` seconds of the clock; false when the run is finished. */
  step(sliceS: number): boolean;
  /** The best schedule so far; without placements while there is none. */
  best(): Schedule;
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
        improvements,
        finishS: search.best ? search.finish * unitS : null,
        floorS: search.floor * unitS,
        stopped,
      };
    },
  };
}
