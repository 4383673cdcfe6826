import type { OddsChoice, OddsWork, ShedWork } from "./answers.ts";
import type { Core } from "./core.ts";
import { wordsOf } from "./files.ts";
import { sameSchedule } from "./placing.ts";
import { sameDay, sameFrame } from "./sameday.ts";
import type { DeskState } from "./state.ts";
import type { VariantCommands } from "./variants.ts";

/** Stands for the open day where odds are kept by variant. */
export const PRESENT = "present";

/** Commands that set simulated days and the shed order to work. */
export interface OddsCommands {
  /** Works out the odds of the open day (PRESENT) or of a variant; one run at a time. */
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
    if (odds && oddsAreStale(now, odds.which)) endOdds("overtaken");
    if (shedIsStale(now)) endShed("overtaken");
  });

  return {
    async askOdds(which, options) {
      endOdds("stopped");
      const { plan: base } = state.getState();
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
        report: null,
        end: null,
        message: null,
      };
      state.setState((now) => ({ odds: new Map(now.odds).set(which, fresh) }));
      const mine = (): boolean => odds?.control === control;
      try {
        const report = await ports.engine.odds(
          plan,
          plan.schedule,
          options,
          (progress) => {
            if (mine()) noteOdds(which, { progress });
          },
          control.signal,
        );
        if (!mine()) return;
        odds = null;
        noteOdds(which, { running: false, report, end: "answered" });
      } catch (error) {
        if (!mine()) return;
        odds = null;
        noteOdds(which, { running: false, end: "failed", message: wordsOf(error) });
      }
    },
    stopOdds: () => endOdds("stopped"),
    async askShed() {
      endShed("stopped");
      const { plan } = state.getState();
      const mine = new AbortController();
      shed = mine;
      state.setState({
        shed: { plan, running: true, progress: null, report: null, end: null, message: null },
      });
      try {
        const report = await ports.engine.shed(
          plan,
          plan.schedule,
          {},
          (progress) => {
            if (shed === mine) noteShed({ progress });
          },
          mine.signal,
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
export function oddsAreStale({ odds, plan }: DeskState, which: string): boolean {
  const work = odds.get(which);
  if (!work) return false;
  if (which === PRESENT) return !sameDay(work.base, plan);
  const variant = plan.variants.find((one) => one.id === which);
  return !variant || !sameFrame(work.base, plan) || !sameSchedule(work.plan.schedule, variant.schedule);
}

/** True when the shed order that is there is of another day than the open one. */
export function shedIsStale({ shed, plan }: DeskState): boolean {
  return shed !== null && !sameDay(shed.plan, plan);
}
