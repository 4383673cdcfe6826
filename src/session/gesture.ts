import { subtract } from "../check/index.ts";
import { type Plan, type Schedule } from "../plan/index.ts";
import type { Core } from "./core.ts";
import type { EditCommands } from "./editing.ts";
import { oneCall } from "./onecall.ts";
import type { Preview } from "./state.ts";

/**
 * A gesture holds a snapshot: each preview is made from the schedule at its begin and one whole change, so that
 * nothing adds up on the way. It ends as one step of the history, or without a trace.
 */
export interface GestureCommands {
  /** Takes hold of tasks. `name` is what the step will be called. A gesture already under way is cancelled. */
  begin(name: string, tasks: readonly string[]): void;
  /** Shows and judges what `change` makes of the schedule at the begin. Without a gesture nothing happens. */
  preview(change: (start: Schedule) => Schedule): void;
  /** As `preview`, for a gesture that changes a task as well, such as its duration. */
  previewPlan(change: (start: Plan) => Plan): void;
  /** Makes what is shown the plan, as one step called `name` or as at the begin; nothing when it is as it was. */
  commit(name?: string): void;
  /** Lets go: everything is as it was at the begin. */
  cancel(): void;
}

export function gestureCommands(core: Core, edits: EditCommands): GestureCommands {
  const { state, ports } = core;
  const bands = bandsOf(core);

  const cancel = (): void => {
    bands.end();
    if (state.getState().preview !== null) state.setState({ preview: null, fitBands: null });
  };
  core.onPlan(cancel);

  /** Shows what is in hand with the judge's word on it. */
  const show = (more: Pick<Preview, "plan" | "schedule" | "verdict">): void => {
    const { preview, verdict: before } = state.getState();
    if (preview)
      state.setState({ preview: { ...preview, ...more, difference: subtract(before, more.verdict) } });
  };

  return {
    begin(name, tasks) {
      cancel();
      const { plan, verdict } = state.getState();
      const start = plan.schedule;
      const difference = subtract(verdict, verdict);
      state.setState({
        preview: { name, tasks, start, schedule: start, plan, verdict, difference },
        fitBands: null,
      });
      const only = tasks.length === 1 ? tasks[0] : undefined;
      if (only !== undefined) bands.ask(plan, start, only);
    },
    preview(change) {
      const { preview, plan } = state.getState();
      if (!preview) return;
      const schedule = change(preview.start);
      if (schedule === preview.schedule && preview.plan.tasks === plan.tasks) return;
      // The plan itself stays the same object, so that what is drawn from it alone is not drawn again.
      show({ schedule, plan, verdict: core.judge(schedule) });
    },
    previewPlan(change) {
      const { preview, plan: start } = state.getState();
      if (!preview) return;
      const plan = change(start);
      if (plan === preview.plan) return;
      const { schedule } = plan;
      show({ schedule, plan, verdict: ports.judgeFor(plan)(schedule) });
    },
    commit(name) {
      const { preview, plan: start } = state.getState();
      if (!preview) return;
      const { plan, schedule } = preview;
      cancel();
      if (plan.tasks === start.tasks) {
        edits.reschedule(name ?? preview.name, schedule);
        return;
      }
      const put = edits.edit(name ?? preview.name, () => ({ tasks: plan.tasks, schedule }));
      if (!put.ok)
        core.notice(
          "problem",
          `It was left as it was: ${put.error[0]?.message ?? "the plan cannot take it"}.`,
        );
    },
    cancel,
  };
}

/** Where the one task in hand would fit, which takes the engine a moment. */
function bandsOf({ state, ports }: Core) {
  const call = oneCall();
  return {
    end: call.end,
    ask: (plan: Plan, start: Schedule, task: string): void =>
      void call.ask((signal) => ports.engine.fitBands(plan, { schedule: start, task }, { signal }), {
        answered(fitBands) {
          if (state.getState().preview?.start === start) state.setState({ fitBands });
        },
        // Bands are help, not an answer: without them the drag still tells what it costs.
        failed: () => undefined,
      }),
  };
}
