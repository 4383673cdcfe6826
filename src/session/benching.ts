import type { Core } from "./core.ts";

/** How long the plan must stand still before the packer is asked why tasks are on the bench, ms. */
const QUIET_MS = 150;

/** Asks for the bench reasons after every change of the plan; answers for an older plan are dropped. */
export function keepBenchReasons(core: Core): void {
  const { state, ports } = core;
  let callOff: (() => void) | null = null;
  let current: AbortController | null = null;

  core.onPlan((plan) => {
    callOff?.();
    current?.abort();
    callOff = ports.clock.after(QUIET_MS, () => {
      const mine = new AbortController();
      current = mine;
      ports.engine.benchReasons(plan, { schedule: plan.schedule }, { signal: mine.signal }).then(
        (reasons) => {
          if (state.getState().plan !== plan) return;
          state.setState({
            benchReasons: new Map(reasons.map((reason) => [reason.task, reason])),
            benchAsOf: plan,
          });
        },
        (error: unknown) => {
          if (current !== mine || mine.signal.aborted) return;
          state.setState({ benchReasons: new Map() });
          const why = error instanceof Error ? error.message : "unknown";
          core.notice("problem", `Why tasks are on the bench could not be found out: ${why}`);
        },
      );
    });
  });
}
