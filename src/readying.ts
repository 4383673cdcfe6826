import type { Engine } from "./engine/calls.ts";
import type * as judge from "./judging.ts";
import type { Plan } from "./plan/index.ts";
import type { Making } from "./screens/viewstate.ts";

type Judging = typeof judge;

/** Makes plans ready to be judged by the page without the page standing still. */
export interface Readying {
  /** Has what is dear of a plan worked out by the engine and takes it over; false where it was broken off, by the planner or another plan. */
  makeReady(plan: Plan): Promise<boolean>;
  /** The judge and what it stands on, which are there once a plan was made ready. */
  judging(): Judging;
}

/**
 * `show` shows a plan that is being made ready, and the end of that (null), and answers when it is on screen: only then the judge's code
 * is fetched and the worker started.
 */
export function readying(
  engine: Engine,
  show: (plan: Plan, making: Making | null) => Promise<void>,
): Readying {
  let loaded: Judging | null = null;
  let underWay: AbortController | null = null;

  return {
    async makeReady(plan) {
      underWay?.abort();
      const mine = new AbortController();
      underWay = mine;
      const { signal } = mine;
      const tell = (progress: Making["progress"]): Promise<void> =>
        show(plan, { title: plan.title, progress, stop: () => mine.abort() });
      await tell(null);
      // Between no places there is nothing to work out, and no worker to wait for that is still at something else.
      const ways =
        plan.site.places.length > 1
          ? engine.ways(plan, {}, { report: (now) => void tell(now), signal })
          : Promise.resolve(null);
      // A worker that fails says so itself; the page then does the work.
      const [judging, worked] = await Promise.all([loaded ?? import("./judging.ts"), ways.catch(() => null)]);
      loaded = judging;
      if (underWay === mine) {
        underWay = null;
        await show(plan, null);
      }
      if (signal.aborted) return false;
      if (worked) judging.takeWorkedWays(plan, worked);
      return true;
    },
    judging() {
      if (!loaded) throw new Error("a plan is judged before it was made ready");
      return loaded;
    },
  };
}
