import { sameFrame, sameSchedule } from "../plan/index.ts";
import type { OddsChoice, OddsDay, OddsWork, LateTableWork } from "./answers.ts";
import type { Core } from "./core.ts";
import { wordsOf } from "./files.ts";
import { oneCall } from "./onecall.ts";
import { sameDay } from "./sameday.ts";
import type { SessionState } from "./state.ts";
import type { VariantCommands } from "./variants.ts";

/** Stands for the open day where odds are kept by variant. */
export const PRESENT = "present";

/** Commands that set simulated days and the late table to work. */
export interface OddsCommands {
  /** Works out the odds of the open day (PRESENT) or of a variant; one run at a time, the one before gives way. */
  askOdds(which: string, options: OddsChoice): Promise<void>;
  stopOdds(): void;
  /** Works out what to drop when late, and what to get ahead with when early. */
  askLateTable(): Promise<void>;
  stopLateTable(): void;
}

export function oddsCommands(core: Core, variants: VariantCommands): OddsCommands {
  return { ...oddsRuns(core, variants), ...lateTableRuns(core) };
}

function oddsRuns(
  { state, ports, onPlan }: Core,
  variants: VariantCommands,
): Pick<OddsCommands, "askOdds" | "stopOdds"> {
  const call = oneCall();
  /** What the call under way is about. */
  let about = PRESENT;

  const note = (which: string, part: Partial<OddsWork>): void =>
    state.setState((now) => {
      const one = now.odds.get(which);
      return one ? { odds: new Map(now.odds).set(which, { ...one, ...part }) } : {};
    });
  const end = (how: "stopped" | "overtaken"): void => {
    if (call.end()) note(about, { running: false, end: how });
  };
  onPlan(() => {
    const now = state.getState();
    const work = now.odds.get(about);
    if (work && !isOfToday(work, now, about)) end("overtaken");
  });

  return {
    async askOdds(which, options) {
      end("overtaken");
      const { plan: base, odds: known } = state.getState();
      const variant = which === PRESENT ? null : variants.variantDay(which);
      if (which !== PRESENT && !variant) return;
      const plan = variant ? { ...variant.plan, schedule: variant.schedule } : base;
      const { report = null, reported = null } = known.get(which) ?? {};
      about = which;
      const fresh = { base, plan, options, running: true, progress: null, report, reported };
      const works = new Map(known).set(which, { ...fresh, end: null, message: null });
      state.setState({ odds: works });
      await call.ask(
        (signal, whileLive) =>
          ports.engine.odds(
            plan,
            { schedule: plan.schedule, ...options },
            {
              report: whileLive((progress) =>
                note(which, {
                  progress,
                  ...(progress.report && { report: progress.report, reported: { base, plan } }),
                }),
              ),
              signal,
            },
          ),
        {
          answered: (answer) =>
            note(which, { running: false, report: answer, reported: { base, plan }, end: "answered" }),
          failed: (error) => note(which, { running: false, end: "failed", message: wordsOf(error) }),
        },
      );
    },
    stopOdds: () => end("stopped"),
  };
}

function lateTableRuns({ state, ports, onPlan }: Core): Pick<OddsCommands, "askLateTable" | "stopLateTable"> {
  const call = oneCall();
  const note = (part: Partial<LateTableWork>): void =>
    state.setState((now) => (now.lateTable ? { lateTable: { ...now.lateTable, ...part } } : {}));
  const end = (how: "stopped" | "overtaken"): void => {
    if (call.end()) note({ running: false, end: how });
  };
  onPlan(() => {
    if (lateTableIsStale(state.getState())) end("overtaken");
  });

  return {
    askLateTable() {
      end("stopped");
      const { plan, lateTable: last } = state.getState();
      const before = last?.report?.complete
        ? { plan: last.plan, report: last.report }
        : (last?.before ?? null);
      state.setState({
        lateTable: { plan, running: true, progress: null, report: null, before, end: null, message: null },
      });
      return call.ask(
        (signal, whileLive) =>
          ports.engine.lateTable(
            plan,
            { schedule: plan.schedule },
            {
              report: whileLive((progress) => note({ progress, report: progress.report })),
              signal,
            },
          ),
        {
          answered: (report) => note({ running: false, report, end: "answered" }),
          failed: (error) => note({ running: false, end: "failed", message: wordsOf(error) }),
        },
      );
    },
    stopLateTable: () => end("stopped"),
  };
}

/** True when the odds that are there are of another day than the open one or the variant as it is now. */
export function oddsAreStale(state: SessionState, which: string): boolean {
  const work = state.odds.get(which);
  return work !== undefined && !isOfToday(work.reported ?? work, state, which);
}

/**
 * True when odds are missing, or those that are there or were tried are of another day, and nothing speaks against working
 * them out: no run is under way, the packer rests, something is placed. What was stopped or has failed is not due again
 * until the day changes.
 */
export function oddsAreDue(state: SessionState, which: string): boolean {
  if (state.run?.running || placedOn(state, which) === 0) return false;
  const work = state.odds.get(which);
  if (!work) return true;
  return !work.running && (work.end === "overtaken" || !isOfToday(work, state, which));
}

/** How many tasks the open day or a variant has placed; none of an unknown variant. */
export function placedOn({ plan }: SessionState, which: string): number {
  const of = which === PRESENT ? plan : plan.variants.find((one) => one.id === which);
  return of?.schedule.placements.length ?? 0;
}

function isOfToday(day: OddsDay, { plan }: SessionState, which: string): boolean {
  if (which === PRESENT) return sameDay(day.base, plan);
  const variant = plan.variants.find((one) => one.id === which);
  return (
    variant !== undefined && sameFrame(day.base, plan) && sameSchedule(day.plan.schedule, variant.schedule)
  );
}

/** True when the late table that is there is of another day than the open one. */
export function lateTableIsStale({ lateTable, plan }: SessionState): boolean {
  return lateTable !== null && !sameDay(lateTable.plan, plan);
}
