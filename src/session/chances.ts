import type { ChancesReport } from "../answers/index.ts";
import { type Plan, sameFrame, sameSchedule, type Schedule } from "../plan/index.ts";
import type { ChanceChange, InSight } from "./answers.ts";
import type { Core } from "./core.ts";
import type { GivenDay } from "./fromwhat.ts";
import type { Clock } from "./ports.ts";
import { betterDay, shownPlan, shownSchedule } from "./selectors.ts";
import type { SessionState } from "./state.ts";

export interface ChanceCommands {
  /**
   * Keeps `state.chances` up with the shown day until the answer is called: few days at once, after every change and while something is
   * in hand, and once it rests as many as the odds count.
   */
  watchChances(): () => void;
  /** Chances of another day, in spare time, one day after the other; null where nothing is placed, they could not be
   * worked out, or nobody wants them any more. */
  chancesOf(day: GivenDay, signal?: AbortSignal): Promise<ChancesReport | null>;
}

/** Common days while the day changes, and once it rests. */
export const FEW_DAYS = 300;
export const MANY_DAYS = 2000;
/** Of so many days that were shown last the few days are kept, to hold the next one against. */
const KEPT = 8;
/** A day that has not changed for so long rests, ms. */
const REST_MS = 200;
/** In hand a count waits so long after the one before it, ms: one upon the other they would keep a core from drawing the hand. */
const HAND_PAUSE_MS = 150;
/** Forgives the last bits of a difference, such as 0.83 - 0.8. */
const SLACK = 1e-9;

export function chanceCommands(core: Core): ChanceCommands {
  return { watchChances: watching(core), chancesOf: inSpareTime(core) };
}

/** The last few days counted, to hold the next one against; the answer is how the chances of a day differ. */
function fewDays(): (now: SessionState, of: GivenDay, report: ChancesReport) => ChanceChange | null {
  const few: (GivenDay & { readonly report: ChancesReport })[] = [];
  /** The better day that was counted last, and the plan that its run was asked for. */
  let better: { readonly of: GivenDay; readonly plan: Plan } | null = null;

  /** Against the day before the hand, or the better day before, else the open one: on the same few days, so that luck is the same. */
  return (now, of, report) => {
    few.unshift({ ...of, report });
    few.length = Math.min(few.length, KEPT);
    const { plan, preview } = now;
    const run = betterDay(now);
    const last = run && better?.plan === run.plan ? better.of : null;
    const basis = last ?? { plan, schedule: preview?.start ?? plan.schedule };
    if (run) better = { of, plan: run.plan };
    const before = isOf(basis, of) ? null : few.find((one) => isOf(one, basis));
    if (!before || !isCounted(report) || !isCounted(before.report)) return null;
    const by = (which: "home" | "must" | "whole"): number =>
      Math.floor((report[which].share - before.report[which].share) * 100 + SLACK);
    return { from: before.schedule, home: by("home"), must: by("must"), whole: by("whole") };
  };
}

/** The day to be played next and on how many days; null while nothing is due. Many days are for a day that `rests`. */
function due(now: SessionState, rests: boolean): { readonly of: GivenDay; readonly days: number } | null {
  const of = { plan: shownPlan(now), schedule: shownSchedule(now) };
  if (of.schedule.placements.length === 0) return null;
  const { chances } = now;
  if (!chances || !isOf(chances, of)) return { of, days: FEW_DAYS };
  return isCounted(chances.report) && chances.report.days < MANY_DAYS && rests
    ? { of, days: MANY_DAYS }
    : null;
}

function watching({ state, ports }: Core): ChanceCommands["watchChances"] {
  let watchers = 0;
  let unsubscribe = (): void => undefined;
  let running: { readonly of: GivenDay; readonly days: number; readonly control: AbortController } | null =
    null;
  const restless = waiting(ports.clock, REST_MS, () => next());
  const pause = waiting(ports.clock, HAND_PAUSE_MS, () => next());
  const changeOf = fewDays();

  const answered = (of: GivenDay, days: number, report: ChancesReport | null): void => {
    const now = state.getState();
    const kept = now.chances && isOf(now.chances, of) ? now.chances.change : null;
    const change = report && days === FEW_DAYS ? changeOf(now, of, report) : kept;
    state.setState({ chances: { ...of, report, change } });
  };

  const next = (): void => {
    const now = state.getState();
    const wanted = watchers > 0 ? due(now, now.preview === null && !restless.on()) : null;
    if (running) {
      // Few days are through soon; many give way to a change.
      if (running.days === MANY_DAYS && !(wanted && isOf(running.of, wanted.of))) running.control.abort();
      return;
    }
    if (!wanted || (pause.on() && now.preview !== null)) return;
    const { of, days } = wanted;
    const control = new AbortController();
    running = { of, days, control };
    ports.engine
      .chances(of.plan, { schedule: of.schedule, days }, { signal: control.signal })
      .catch(() => null)
      .then((report) => {
        running = null;
        if (!control.signal.aborted) {
          // The hand is drawn before its next day is counted.
          if (state.getState().preview !== null) pause.begin();
          answered(of, days, report);
        }
        next();
      });
  };

  // What was in hand is first let go, then put down: both in one go.
  const soon = onceInOneGo(next);

  const changed = (now: SessionState, before: SessionState): void => {
    if (shownPlan(now) === shownPlan(before) && shownSchedule(now) === shownSchedule(before)) {
      if (now.preview === null && before.preview !== null) soon();
      return;
    }
    restless.begin();
    soon();
  };

  return () => {
    if (watchers === 0) unsubscribe = state.subscribe(changed);
    watchers += 1;
    next();
    return () => {
      watchers -= 1;
      if (watchers > 0) return;
      unsubscribe();
      restless.end();
      pause.end();
      next();
    };
  };
}

/** True where days were played: of a day with what cannot be played more of them are no more. */
function isCounted(report: ChancesReport | null): report is ChancesReport {
  return report !== null && report.unplayed.length === 0;
}

/** A wait of `ms`, after which `run` is called; begun anew it waits anew. */
function waiting(clock: Clock, ms: number, run: () => void) {
  let off: (() => void) | null = null;
  const end = (): void => {
    off?.();
    off = null;
  };
  return {
    on: () => off !== null,
    end,
    begin(): void {
      end();
      off = clock.after(ms, () => {
        off = null;
        run();
      });
    },
  };
}

/** `run`, once for all that asks for it in one go. */
function onceInOneGo(run: () => void): () => void {
  let pending = false;
  return () => {
    if (pending) return;
    pending = true;
    void Promise.resolve().then(() => {
      pending = false;
      run();
    });
  };
}

/** One day after the other, each counted once. */
function inSpareTime({ ports }: Core): ChanceCommands["chancesOf"] {
  const known = new WeakMap<Schedule, InSight>();
  let line: Promise<unknown> = Promise.resolve();

  return (day, signal) => {
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
  };
}

/** True when the chances that are there are of the shown day. */
export function chancesStand(state: SessionState): boolean {
  const { chances } = state;
  return chances !== null && isOf(chances, { plan: shownPlan(state), schedule: shownSchedule(state) });
}

function isOf(a: GivenDay, b: GivenDay): boolean {
  const same =
    answered?.planA === a.plan &&
    answered.planB === b.plan &&
    answered.scheduleA === a.schedule &&
    answered.scheduleB === b.schedule;
  if (!same || !answered)
    answered = {
      planA: a.plan,
      planB: b.plan,
      scheduleA: a.schedule,
      scheduleB: b.schedule,
      isOf: sameSchedule(a.schedule, b.schedule) && sameFrame(a.plan, b.plan),
    };
  return answered.isOf;
}

/** The answer given last: several views ask the same of every frame of a drag. */
let answered: {
  readonly planA: Plan;
  readonly planB: Plan;
  readonly scheduleA: Schedule;
  readonly scheduleB: Schedule;
  readonly isOf: boolean;
} | null = null;

/** The chances of the shown day; null while they are of another one or unknown. */
export function chancesNow(state: SessionState): ChancesReport | null {
  return chancesStand(state) ? (state.chances?.report ?? null) : null;
}

/** How the chances of the shown day differ, while something is in hand or the packer is at work; null at rest and while unknown. */
export function chanceChange(state: SessionState): ChanceChange | null {
  const change = chancesStand(state) ? (state.chances?.change ?? null) : null;
  if (!change) return null;
  if (state.preview) return sameSchedule(change.from, state.preview.start) ? change : null;
  return betterDay(state) ? change : null;
}

/** Chances of the open day while nothing is in hand; null while they are not known. */
export function chancesAtRest(state: SessionState): ChancesReport | null {
  return state.preview === null ? chancesNow(state) : null;
}
