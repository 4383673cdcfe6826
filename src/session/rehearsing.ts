import { createStore, type StoreApi } from "zustand/vanilla";
import type { Recall, Verdict } from "../answers/index.ts";
import { recallOf } from "../check/index.ts";
import type { Engine } from "../engine/calls.ts";
import { instant } from "../kernel/index.ts";
import type { Plan } from "../plan/index.ts";
import {
  type Call,
  callFaults,
  type DayStanding,
  type Debrief,
  debriefOf,
  MOST_CALLS,
  readOuts,
  readRehearsal,
  type Rehearsal,
  rehearsalFrom,
  rehearsalText,
  standingOf,
  type RehearsedWays,
  withReadings,
} from "../rehearsal/index.ts";
import type { Desk } from "./desk.ts";
import { leavingOf } from "./leaving.ts";
import type { JudgeFor } from "./ports.ts";
import { rehearsalClock } from "./rehearsalclock.ts";
import { keeperOf, type KeeperPorts } from "./rehearsalkeeper.ts";
import type { Proposal, Rehearsed, RehearsalState } from "./rehearsalstate.ts";
import { replanningOf } from "./replanning.ts";

/** What is called out, without its time: that is the clock's. */
export type CallOut = Call extends infer Each ? (Each extends Call ? Omit<Each, "atS"> : never) : never;

export interface RehearsalWork {
  readonly state: Pick<StoreApi<RehearsalState>, "getState" | "getInitialState" | "subscribe">;
  /** Brings back what was under way when the page was left; nothing happens where a day is under rehearsal. */
  restore(): Promise<void>;
  /** Begins with the open plan, a quarter of an hour before the first egress; another rehearsal under way is given up. */
  begin(seed: number): void;
  end(): void;
  call(call: CallOut): void;
  /** Takes back the last call, and the clock to its time. */
  takeBack(): void;
  run(): void;
  hold(): void;
  setSpeed(speed: number): void;
  setCaller(caller: RehearsalState["caller"]): void;
  /** Moves the clock on: by so many seconds, or to the next call of a crew playing by itself. */
  goOn(by: number | "next call"): void;
  /** Asks for a schedule of what is to come: with the fewest changes, or with the most worth. */
  planAnew(how: Proposal["how"]): Promise<void>;
  take(): void;
  leave(): void;
  debrief(): Debrief | null;
  /** The rehearsal with its plan, as a file's text. */
  fileText(): string | null;
  /** Opens such a file; the answer is why not, or null. */
  open(text: string): string | null;
}

export interface RehearsalPorts extends KeeperPorts {
  readonly engine: Pick<Engine, "mend" | "pack" | "printed">;
  readonly judgeFor: JudgeFor;
  readonly walksOf: (plan: Plan) => RehearsedWays;
  /** Where an earlier version of this program kept it. */
  readonly memory: { get(key: string): string | null; set(key: string, value: string): boolean };
}

/** The rehearsal begins so long before the first egress, s. */
const BEFORE_S = 900;
const MEMORY = "rehearsal";

export function rehearsalWork(desk: Desk, ports: RehearsalPorts): RehearsalWork {
  const state = createStore<RehearsalState>()(() => ({
    day: null,
    running: false,
    speed: 60,
    caller: "crew",
    planning: null,
    proposal: null,
    trouble: null,
    unkept: null,
    leaves: null,
  }));
  const leaving = leavingOf(ports, (leaves) => state.setState({ leaves }));
  let texted: { readonly plan: Plan; readonly text: string } | null = null;

  const stand = (plan: Plan, planned: Verdict, rehearsal: Rehearsal): Rehearsed => {
    const standing = standingOf(plan, rehearsal, ports.walksOf(plan));
    const first = ports.judgeFor(standing.plan)(standing.plan.schedule);
    const reads = readOuts(standing.facts.readings, first.margins);
    const now = withReadings(standing.plan, reads);
    const verdict = now === standing.plan ? first : ports.judgeFor(now)(now.schedule);
    return { plan, rehearsal, planned, standing, now, verdict, reads, recalls: recallsOf(standing, now) };
  };

  const show = (day: Rehearsed): void =>
    state.setState({ day, trouble: null, leaves: leaving.of(day.now, day.standing.nowS) });

  const put = (rehearsal: Rehearsal): void => {
    const { day } = state.getState();
    if (day) show(stand(day.plan, day.planned, rehearsal));
  };

  const keeper = keeperOf(ports, {
    now: () => state.getState().day,
    text: () => fileText(),
    told: (unkept) => {
      if (state.getState().unkept !== unkept) state.setState({ unkept });
    },
  });
  const { keep } = keeper;
  const clock = rehearsalClock(ports, state, put, keeper);
  const replanning = replanningOf(desk, ports, state, (schedule) => callOut({ kind: "replanned", schedule }));

  const start = (plan: Plan, rehearsal: Rehearsal): void => {
    clock.halt();
    replanning.drop();
    const planned = ports.judgeFor(plan)(plan.schedule);
    show(stand(plan, planned, rehearsal));
  };

  function callOut(call: CallOut): void {
    const { day } = state.getState();
    if (!day || day.rehearsal.calls.length >= MOST_CALLS) return;
    const { rehearsal } = day;
    put({ ...rehearsal, calls: [...rehearsal.calls, { ...call, atS: rehearsal.nowS } as Call] });
    keep();
  }

  function fileText(): string | null {
    const { day } = state.getState();
    if (!day) return null;
    // The plan stays the same while calls come: its text is made once.
    if (texted?.plan !== day.plan) texted = { plan: day.plan, text: JSON.stringify(day.plan) };
    return rehearsalText(day.rehearsal, texted.text);
  }

  function open(text: string): string | null {
    const found = readRehearsal(text);
    if (!found.ok) return found.error;
    const { plan, rehearsal } = found.value;
    const faults = callFaults(plan, rehearsal);
    if (faults.length > 0) return faults.join(" ");
    start(plan, rehearsal);
    keep();
    return null;
  }

  return {
    state,
    async restore() {
      const older = ports.memory.get(MEMORY);
      // Where the store cannot be used, that is said of the plan.
      const kept = await ports.archive.readRehearsal().catch(() => null);
      const found = kept ? readRehearsal(kept.text) : older ? readRehearsal(older) : null;
      if (state.getState().day || found?.ok !== true) return;
      const { plan, rehearsal } = found.value;
      const clock = kept?.clock?.calls === rehearsal.calls.length ? kept.clock.nowS : rehearsal.nowS;
      start(plan, { ...rehearsal, nowS: instant(Math.max(rehearsal.nowS, clock)) });
      if (kept || !older) return;
      keep();
      ports.memory.set(MEMORY, "");
    },
    begin(seed) {
      const { plan, verdict } = desk.state.getState();
      const egress = verdict.outings.map((outing): number => outing.span.startS);
      const fromS = egress.length === 0 ? 0 : Math.max(0, Math.min(...egress) - BEFORE_S);
      start(plan, rehearsalFrom(fromS, seed));
      keep();
    },
    end() {
      clock.halt();
      replanning.drop();
      leaving.drop();
      state.setState({ day: null, trouble: null, unkept: null, leaves: null });
      keeper.forget();
    },
    call: callOut,
    takeBack() {
      const { day } = state.getState();
      const last = day?.rehearsal.calls.at(-1);
      if (!day || !last) return;
      clock.halt();
      put({ ...day.rehearsal, nowS: last.atS, calls: day.rehearsal.calls.slice(0, -1) });
      keep();
    },
    run: () => clock.run(),
    hold() {
      clock.halt();
      keep();
    },
    setSpeed: (speed) => state.setState({ speed }),
    setCaller: (caller) => state.setState({ caller }),
    goOn(by) {
      if (!state.getState().day) return;
      clock.goOn(by);
      keep();
    },
    planAnew: (how) => replanning.anew(how),
    take: () => replanning.take(),
    leave: () => replanning.drop(),
    debrief() {
      const { day } = state.getState();
      return day && debriefOf(day.plan, day.standing, day.planned.outings);
    },
    fileText,
    open,
  };
}

/** The EVAs under way, recalled at the clock's time. */
function recallsOf({ facts, nowS }: DayStanding, now: Plan): readonly Recall[] {
  return now.evas.flatMap(({ id }) => {
    if (!facts.outS.has(id) || facts.inS.has(id)) return [];
    const recall = recallOf(now, now.schedule, id, nowS);
    return recall ? [recall] : [];
  });
}
