import type { MendReport, PackProgress } from "../answers/index.ts";
import type { PackOptions } from "../engine/calls.ts";
import { type Plan, sameSchedule, type Schedule } from "../plan/index.ts";
import type { Core } from "./core.ts";
import type { EditCommands } from "./editing.ts";
import { oneCall } from "./onecall.ts";
import type { SessionState, Run } from "./state.ts";

/** Commands that set the packer to work. One run at a time; a run ends when the plan it was asked for changes. */
export interface RunCommands {
  /** Fills the day from the bench; the result is one step, "Pack". The promise settles when the run is over. */
  pack(options: PackOptions): Promise<void>;
  /** Repairs the day with few changes; the result is one step, "Mend". */
  mend(options: PackOptions): Promise<void>;
  /** Puts the outcome of the last run away. */
  closeRun(): void;
  /** Puts the starts of the day on the plan's grid as one step, and tells what moved and what could not. */
  putOnGrid(): Promise<void>;
  /** Stops the run. The plan stays as it is, unless `take` asks for the best schedule so far as the step. */
  stopPack(take?: "take best" | "leave"): void;
}

/** What a mend is called in the history. */
const MEND = "Mend";

/** True while the mend is the last step, so that undo takes back the mend and nothing else. */
export function isMendLast({ history }: SessionState): boolean {
  return history.undo.at(-1)?.name === MEND;
}

/** What the last mend made of the day, as long as it was not undone, the schedule is what it made and something changed; null else. */
export function mendOutcome({ run, plan, history }: SessionState): MendReport | null {
  if (!run?.mended || !run.made || run.mended.changes.length === 0) return null;
  // The day from before a move may be the very one that a mend came to: undone back to there, nothing is mended.
  if (!history.undo.some(({ name }) => name === MEND)) return null;
  if (!sameSchedule(run.made, plan.schedule)) return null;
  return run.mended;
}

export function runCommands(core: Core, edits: EditCommands): RunCommands {
  const { state, ports } = core;
  const { call, note, stop, begin, failed, progressed, take } = currentRun(core, edits);

  return {
    pack(options) {
      const plan = begin("pack", options.seconds);
      return call.ask(
        (signal, whileLive) => ports.engine.pack(plan, options, { report: whileLive(progressed), signal }),
        {
          answered(packed) {
            if (packed.stopped === "cancelled") return note({ running: false, end: "stopped" });
            const { schedule: best, verdict: bestVerdict } = packed;
            note({ running: false, packed, best, bestVerdict, end: "taken" });
            take("Pack", best, packed.wished?.caution);
          },
          failed: failed("pack"),
        },
      );
    },
    mend(options) {
      const plan = begin("mend", options.seconds);
      return call.ask(
        (signal) => ports.engine.mend(plan, { schedule: plan.schedule, ...options }, { signal }),
        {
          answered(mended) {
            const { schedule: best, verdict: bestVerdict } = mended;
            note({ running: false, mended, best, bestVerdict, end: "taken" });
            take(MEND, best);
            note({ made: state.getState().plan.schedule });
          },
          failed: failed("mend"),
        },
      );
    },
    closeRun() {
      if (!call.busy()) state.setState({ run: null });
    },
    putOnGrid: () => putOnGrid(core, edits),
    stopPack(how = "leave") {
      const best = state.getState().run?.best ?? null;
      if (!call.busy()) return;
      if (how === "take best" && best) {
        stop("taken");
        take("Pack", best);
      } else {
        stop("stopped");
      }
    },
  };
}

/** The run under way: how it begins, what it tells, how it ends, and how its schedule becomes the day's. */
function currentRun(core: Core, edits: EditCommands) {
  const { state } = core;
  const call = oneCall();

  const note = (part: Partial<Run>): void =>
    state.setState((now) => (now.run ? { run: { ...now.run, ...part } } : {}));
  const stop = (end: NonNullable<Run["end"]>): void => {
    if (call.end()) note({ running: false, end });
  };
  core.onPlan(() => stop("overtaken"));

  const begin = (kind: Run["kind"], seconds: number): Plan => {
    stop("stopped");
    const { plan } = state.getState();
    state.setState({ run: begun(kind, plan, seconds) });
    return plan;
  };
  const failed = (kind: Run["kind"]) => (error: unknown) => {
    note({ running: false, end: "failed" });
    core.notice("problem", `The ${kind} failed: ${error instanceof Error ? error.message : "unknown"}`);
  };
  const progressed = (progress: PackProgress): void => {
    const { schedule: best, seconds } = progress;
    if (!best) return note({ progress });
    const bestVerdict = core.judge(best);
    const steps = [...(state.getState().run?.steps ?? []), { seconds, score: bestVerdict.score }];
    note({ progress, best, bestVerdict, steps });
  };
  const take = (name: string, schedule: Schedule, caution?: number): void => {
    const { plan } = state.getState();
    edits.reschedule(name, { placements: [...schedule.placements] }, caution);
    if (state.getState().plan === plan) {
      core.notice("news", `${name} found nothing better than the day as it stands.`);
    }
  };

  return { call, note, stop, begin, failed, progressed, take };
}

/** A run that has just begun. */
function begun(kind: Run["kind"], plan: Plan, seconds: number): Run {
  const nothing = { progress: null, best: null, bestVerdict: null, packed: null, mended: null, made: null };
  return { kind, plan, running: true, seconds, ...nothing, steps: [], end: null };
}

async function putOnGrid({ state, ports, notice }: Core, edits: EditCommands): Promise<void> {
  const { plan } = state.getState();
  try {
    const { schedule, sentence } = await ports.engine.gridded(plan, { schedule: plan.schedule });
    if (state.getState().plan !== plan) return;
    edits.reschedule("Starts on the grid", { placements: [...schedule.placements] });
    notice("news", sentence);
  } catch (error) {
    notice("problem", `The starts stay: ${error instanceof Error ? error.message : "unknown"}`);
  }
}
