import { sameFrame, sameSchedule } from "../plan/index.ts";
import type { OddsChoice, OddsDay, OddsWork, ShedWork } from "./answers.ts";
import type { Core } from "./core.ts";
import { wordsOf } from "./files.ts";
import { sameDay } from "./sameday.ts";
import type { DeskState } from "./state.ts";
import type { VariantCommands } from "./variants.ts";

/** Stands for the open day where odds are kept by variant. */
export const PRESENT = "present";

/** Commands that set simulated days and the shed order to work. */
export interface OddsCommands {
  /** Works out the odds of the open day (PRESENT) or of a variant; one run at a time, the one before gives way. */
  askOdds(which: string, options: OddsChoice): Promise<void>;
  stopOdds(): void;
  /** Works out what to drop when late, and what to get ahead with when early. */
  askShed(): Promise<void>;
  stopShed(): void;
}

export function oddsCommands(core: Core, variants: VariantCommands): OddsCommands {
  const { state, ports } = core;
  let odds: { readonly which: string; readonly control: AbortController } | null = null;
  let shed: AbortController | null = null;

  const noteOdds = (which: string, part: Partial<OddsWork>): void =>
    state.setState((now) => {
      const one = now.odds.get(which);
      return one ? { odds: new Map(now.odds).set(which, { ...one, ...part }) } : {};
    });
  const endOdds = (how: "stopped" | "overtaken"): void => {
    const stopped = odds;
    if (!stopped) return;
    odds = null;
    noteOdds(stopped.which, { running: false, end: how });
    stopped.control.abort();
  };
  const noteShed = (part: Partial<ShedWork>): void =>
    state.setState((now) => (now.shed ? { shed: { ...now.shed, ...part } } : {}));
  const endShed = (how: "stopped" | "overtaken"): void => {
    const stopped = shed;
    if (!stopped) return;
    shed = null;
    noteShed({ running: false, end: how });
    stopped.abort();
  };

  core.onPlan(() => {
    const now = state.getState();
    const work = odds && now.odds.get(odds.which);
    if (odds && work && !isOfToday(work, now, odds.which)) endOdds("overtaken");
    if (shedIsStale(now)) endShed("overtaken");
  });

  return {
    async askOdds(which, options) {
      endOdds("overtaken");
      const { plan: base, odds: known } = state.getState();
      const variant = which === PRESENT ? null : variants.variantDay(which);
      if (which !== PRESENT && !variant) return;
      const plan = variant ? { ...variant.plan, schedule: variant.schedule } : base;
      const control = new AbortController();
      odds = { which, control };
      const fresh: OddsWork = {
        base,
        plan,
        options,
        running: true,
        progress: null,
        report: known.get(which)?.report ?? null,
        reported: known.get(which)?.reported ?? null,
        end: null,
        message: null,
      };
      state.setState((now) => ({ odds: new Map(now.odds).set(which, fresh) }));
      const mine = (): boolean => odds?.control === control;
      try {
        const report = await ports.engine.odds(
          plan,
          { schedule: plan.schedule, ...options },
          {
            report: (progress) => {
              if (mine()) noteOdds(which, { progress });
            },
            signal: control.signal,
          },
        );
        if (!mine()) return;
        odds = null;
        noteOdds(which, { running: false, report, reported: { base, plan }, end: "answered" });
      } catch (error) {
        if (!mine()) return;
        odds = null;
        noteOdds(which, { running: false, end: "failed", message: wordsOf(error) });
      }
    },
    stopOdds: () => endOdds("stopped"),
    async askShed() {
      endShed("stopped");
      const { plan, shed: last } = state.getState();
      const mine = new AbortController();
      shed = mine;
      const before = last?.report?.complete
        ? { plan: last.plan, report: last.report }
        : (last?.before ?? null);
      state.setState({
        shed: { plan, running: true, progress: null, report: null, before, end: null, message: null },
      });
      try {
        const report = await ports.engine.shed(
          plan,
          { schedule: plan.schedule },
          {
            report: (progress) => {
              if (shed === mine) noteShed({ progress, report: progress.report });
            },
            signal: mine.signal,
          },
        );
        if (shed !== mine) return;
        shed = null;
        noteShed({ running: false, report, end: "answered" });
      } catch (error) {
        if (shed !== mine) return;
        shed = null;
        noteShed({ running: false, end: "failed", message: wordsOf(error) });
      }
    },
    stopShed: () => endShed("stopped"),
  };
}

/** True when the odds that are there are of another day than the open one or the variant as it is now. */
export function oddsAreStale(state: DeskState, which: string): boolean {
  const work = state.odds.get(which);
  return work !== undefined && !isOfToday(work.reported ?? work, state, which);
}

/**
 * True when odds are missing, or those that are there or were tried are of another day, and nothing speaks against working
 * them out: no run is under way, the packer rests, something is placed. What was stopped or has failed is not due again
 * until the day changes.
 */
export function oddsAreDue(state: DeskState, which: string): boolean {
  if (state.run?.running || placedOn(state, which) === 0) return false;
  const work = state.odds.get(which);
  if (!work) return true;
  return !work.running && (work.end === "overtaken" || !isOfToday(work, state, which));
}

/** How many tasks the open day or a variant has placed; none of an unknown variant. */
export function placedOn({ plan }: DeskState, which: string): number {
  const of = which === PRESENT ? plan : plan.variants.find((one) => one.id === which);
  return of?.schedule.placements.length ?? 0;
}

function isOfToday(day: OddsDay, { plan }: DeskState, which: string): boolean {
  if (which === PRESENT) return sameDay(day.base, plan);
  const variant = plan.variants.find((one) => one.id === which);
  return (
    variant !== undefined && sameFrame(day.base, plan) && sameSchedule(day.plan.schedule, variant.schedule)
  );
}

/** True when the shed order that is there is of another day than the open one. */
export function shedIsStale({ shed, plan }: DeskState): boolean {
  return shed !== null && !sameDay(shed.plan, plan);
}
