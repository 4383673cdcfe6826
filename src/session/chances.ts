import type { ChancesReport } from "../answers/index.ts";
import { sameFrame, sameSchedule, type Schedule } from "../plan/index.ts";
import type { InSight } from "./answers.ts";
import type { Core } from "./core.ts";
import type { AskedDay } from "./fromwhat.ts";
import { shownPlan, shownSchedule } from "./selectors.ts";
import type { DeskState } from "./state.ts";

export interface ChanceCommands {
  /**
   * Keeps `state.chances` up with the shown day until the answer is called: few days at once, after every change and while something is
   * in hand, and once it rests as many as the odds count.
   */
  watchChances(): () => void;
  /** Chances of another day, in spare time, one day after the other; null where nothing is placed, they could not be
   * worked out, or nobody wants them any more. */
  chancesOf(day: AskedDay, signal?: AbortSignal): Promise<ChancesReport | null>;
}

/** Common days while the day changes, and once it rests. */
export const FEW_DAYS = 300;
export const MANY_DAYS = 2000;
/** A day that has not changed for so long rests, ms. */
const REST_MS = 200;

export function chanceCommands({ state, ports }: Core): ChanceCommands {
  let watchers = 0;
  let unsubscribe = (): void => undefined;
  let running: { readonly of: AskedDay; readonly days: number; readonly control: AbortController } | null =
    null;
  let pending = false;
  let restless: (() => void) | null = null;
  const known = new WeakMap<Schedule, InSight>();
  let line: Promise<unknown> = Promise.resolve();

  /** The day to be played next and on how many days; null while nothing is due. */
  const due = (): { readonly of: AskedDay; readonly days: number } | null => {
    const now = state.getState();
    const of = { plan: shownPlan(now), schedule: shownSchedule(now) };
    if (of.schedule.placements.length === 0) return null;
    const { chances } = now;
    if (!chances || !isOf(chances, of)) return { of, days: FEW_DAYS };
    const rests = now.preview === null && restless === null;
    return chances.report && chances.report.days < MANY_DAYS && rests ? { of, days: MANY_DAYS } : null;
  };

  const next = (): void => {
    const wanted = watchers > 0 ? due() : null;
    if (running) {
      // Few days are through soon; many give way to a change.
      if (running.days === MANY_DAYS && !(wanted && isOf(running.of, wanted.of))) running.control.abort();
      return;
    }
    if (!wanted) return;
    const { of, days } = wanted;
    const control = new AbortController();
    running = { of, days, control };
    ports.engine
      .chances(of.plan, { schedule: of.schedule, days }, { signal: control.signal })
      .catch(() => null)
      .then((report) => {
        running = null;
        if (!control.signal.aborted) state.setState({ chances: { ...of, report } });
        next();
      });
  };

  /** Once for all that changes in one go: what was in hand is first let go, then put down. */
  const soon = (): void => {
    if (pending) return;
    pending = true;
    void Promise.resolve().then(() => {
      pending = false;
      next();
    });
  };

  const changed = (now: DeskState, before: DeskState): void => {
    if (shownPlan(now) === shownPlan(before) && shownSchedule(now) === shownSchedule(before)) {
      if (now.preview === null && before.preview !== null) soon();
      return;
    }
    restless?.();
    restless = ports.clock.after(REST_MS, () => {
      restless = null;
      next();
    });
    soon();
  };

  return {
    watchChances() {
      if (watchers === 0) unsubscribe = state.subscribe(changed);
      watchers += 1;
      next();
      return () => {
        watchers -= 1;
        if (watchers > 0) return;
        unsubscribe();
        restless?.();
        restless = null;
        next();
      };
    },
    chancesOf(day, signal) {
      const found = known.get(day.schedule);
      if (found && sameFrame(found.plan, day.plan)) return Promise.resolve(found.report);
      if (day.schedule.placements.length === 0) return Promise.resolve(null);
      const mine = line.then(async () => {
        if (signal?.aborted) return null;
        const report = await (ports.spare?.() ?? ports.engine)
          .chances(day.plan, { schedule: day.schedule, days: MANY_DAYS }, { signal })
          .catch((): ChancesReport | null => null);
        if (report) known.set(day.schedule, { ...day, report });
        return report;
      });
      line = mine;
      return mine;
    },
  };
}

/** True when the chances that are there are of the shown day. */
export function chancesStand(state: DeskState): boolean {
  const { chances } = state;
  return chances !== null && isOf(chances, { plan: shownPlan(state), schedule: shownSchedule(state) });
}

function isOf(a: AskedDay, b: AskedDay): boolean {
  return sameFrame(a.plan, b.plan) && sameSchedule(a.schedule, b.schedule);
}

/** The chances of the shown day; null while they are of another one or unknown. */
export function chancesNow(state: DeskState): ChancesReport | null {
  return chancesStand(state) ? (state.chances?.report ?? null) : null;
}

/** Chances of the open day while nothing is in hand; null while they are not known. */
export function chancesAtRest(state: DeskState): ChancesReport | null {
  return state.preview === null ? chancesNow(state) : null;
}
