import type { MendReport, PackProgress } from "../answers/index.ts";
import type { PackOptions } from "../engine/calls.ts";
import { sameSchedule, type Schedule } from "../plan/index.ts";
import type { Core } from "./core.ts";
import type { EditCommands } from "./editing.ts";
import type { DeskState, Run } from "./state.ts";

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

/** What the last mend made of the day, as long as the schedule is what it made and something changed; null else. */
export function mendOutcome({ run, plan }: DeskState): MendReport | null {
  if (!run?.mended || !run.made || run.mended.changes.length === 0) return null;
  if (!sameSchedule(run.made, plan.schedule)) return null;
  return run.mended;
}

type Report = (progress: PackProgress) => void;

export function runCommands(core: Core, edits: EditCommands): RunCommands {
  const { state, ports } = core;
  let current: AbortController | null = null;

  const note = (part: Partial<Run>): void =>
    state.setState((now) => (now.run ? { run: { ...now.run, ...part } } : {}));

  const betterDay = (best: Schedule, seconds: number): Partial<Run> => {
    const bestVerdict = core.judge(best);
    const steps = [...(state.getState().run?.steps ?? []), { seconds, score: bestVerdict.score }];
    return { best, bestVerdict, steps };
  };

  const stop = (end: NonNullable<Run["end"]>): void => {
    if (!current) return;
    const stopped = current;
    current = null;
    note({ running: false, end });
    stopped.abort();
  };
  core.onPlan(() => stop("overtaken"));

  /** Runs `work`; `finish` takes its answer over, only when nothing has overtaken the run. */
  const run = async <Answer>(
    kind: Run["kind"],
    seconds: number,
    work: (report: Report, signal: AbortSignal) => Promise<Answer>,
    finish: (answer: Answer) => void,
  ): Promise<void> => {
    stop("stopped");
    const mine = new AbortController();
    current = mine;
    state.setState({
      run: {
        kind,
        plan: state.getState().plan,
        running: true,
        seconds,
        progress: null,
        best: null,
        bestVerdict: null,
        steps: [],
        packed: null,
        mended: null,
        made: null,
        end: null,
      },
    });
    try {
      const answer = await work((progress) => {
        if (current !== mine) return;
        const better = progress.schedule;
        note({ progress, ...(better ? betterDay(better, progress.seconds) : {}) });
      }, mine.signal);
      if (current !== mine) return;
      current = null;
      finish(answer);
    } catch (error) {
      if (current !== mine) return;
      current = null;
      note({ running: false, end: "failed" });
      core.notice("problem", `The ${kind} failed: ${error instanceof Error ? error.message : "unknown"}`);
    }
  };

  const take = (name: string, schedule: Schedule, caution?: number): void => {
    const { plan } = state.getState();
    edits.reschedule(name, { placements: [...schedule.placements] }, caution);
    if (state.getState().plan === plan) {
      core.notice("news", `${name} found nothing better than the day as it stands.`);
    }
  };

  return {
    pack: (options) =>
      run(
        "pack",
        options.seconds,
        (report, signal) => ports.engine.pack(state.getState().plan, options, { report, signal }),
        (packed) => {
          if (packed.stopped === "cancelled") return note({ running: false, end: "stopped" });
          const { schedule: best, verdict: bestVerdict } = packed;
          note({ running: false, packed, best, bestVerdict, end: "taken" });
          take("Pack", best, packed.wished?.caution);
        },
      ),
    mend: (options) =>
      run(
        "mend",
        options.seconds,
        (_report, signal) => {
          const { plan } = state.getState();
          return ports.engine.mend(plan, { schedule: plan.schedule, ...options }, { signal });
        },
        (mended) => {
          const { schedule: best, verdict: bestVerdict } = mended;
          note({ running: false, mended, best, bestVerdict, end: "taken" });
          take("Mend", best);
          note({ made: state.getState().plan.schedule });
        },
      ),
    closeRun() {
      if (!current) state.setState({ run: null });
    },
    async putOnGrid() {
      const { plan } = state.getState();
      try {
        const { schedule, sentence } = await ports.engine.gridded(plan, { schedule: plan.schedule });
        if (state.getState().plan !== plan) return;
        edits.reschedule("Starts on the grid", { placements: [...schedule.placements] });
        core.notice("news", sentence);
      } catch (error) {
        core.notice("problem", `The starts stay: ${error instanceof Error ? error.message : "unknown"}`);
      }
    },
    stopPack(how = "leave") {
      const best = state.getState().run?.best ?? null;
      if (!current) return;
      if (how === "take best" && best) {
        stop("taken");
        take("Pack", best);
      } else {
        stop("stopped");
      }
    },
  };
}
