import { createStore, type StoreApi } from "zustand/vanilla";
import type { Recall, Verdict } from "../answers/index.ts";
import { recallOf } from "../check/index.ts";
import type { Engine } from "../engine/calls.ts";
import { instant } from "../kernel/index.ts";
import type { Plan } from "../plan/index.ts";
import {
  type Call,
  callFault,
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
import type { Session } from "./session.ts";
import { leavingOf } from "./leaving.ts";
import type { JudgeFor } from "./ports.ts";
import { type RehearsalClock, rehearsalClock } from "./rehearsalclock.ts";
import { type Keeper, keeperOf, type KeeperPorts } from "./rehearsalkeeper.ts";
import type { Proposal, Rehearsed, RehearsalState } from "./rehearsalstate.ts";
import { type Replanning, replanningOf } from "./replanning.ts";

/** What is called out, without its time: that is the clock's. */
export type CallOut = Call extends infer Each ? (Each extends Call ? Omit<Each, "atS"> : never) : never;

export interface RehearsalWork {
  readonly state: Pick<StoreApi<RehearsalState>, "getState" | "getInitialState" | "subscribe">;
  /** Brings back what was under way when the page was left; nothing happens where a day is under rehearsal. */
  restore(): Promise<void>;
  /** Begins with the open plan, a quarter of an hour before the first egress; another rehearsal under way is given up. */
  begin(seed: number): void;
  end(): void;
  /** Makes a call at the clock's time; the answer is why it cannot be made, in a sentence, or null. */
  call(call: CallOut): string | null;
  /** Why a call cannot be made now, in a sentence, or null. */
  whyNot(call: CallOut): string | null;
  /** Takes back the last call, and the clock to its time. */
  undoCall(): void;
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

export function rehearsalWork(session: Session, ports: RehearsalPorts): RehearsalWork {
  const stage = stageOf(session, ports);
  const { state, clock, replanning, keeper, fileText } = stage;

  return {
    state,
    restore: () => restore(stage, ports),
    begin(seed) {
      const { plan, verdict } = session.state.getState();
      const egress = verdict.outings.map((outing): number => outing.span.startS);
      const fromS = egress.length === 0 ? 0 : Math.max(0, Math.min(...egress) - BEFORE_S);
      stage.start(plan, rehearsalFrom(fromS, seed));
      keeper.keep();
    },
    end: stage.end,
    call: stage.call,
    whyNot(made) {
      const { day } = state.getState();
      return day && whyNot(day, madeNow(day, made));
    },
    undoCall: stage.undoCall,
    run: () => clock.run(),
    hold() {
      clock.halt();
      keeper.keep();
    },
    setSpeed: (speed) => state.setState({ speed }),
    setCaller: (caller) => state.setState({ caller }),
    goOn(by) {
      if (!state.getState().day) return;
      clock.goOn(by);
      keeper.keep();
    },
    planAnew: (how) => replanning.anew(how),
    take: () => replanning.take(),
    leave: () => replanning.drop(),
    debrief() {
      const { day } = state.getState();
      return day && debriefOf(day.plan, day.standing, day.planned.outings);
    },
    fileText,
    open(text) {
      const found = readRehearsal(text);
      if (!found.ok) return found.error;
      const { plan, rehearsal } = found.value;
      const faults = callFaults(plan, rehearsal);
      if (faults.length > 0) return faults.join(" ");
      stage.start(plan, rehearsal);
      keeper.keep();
      return null;
    },
  };
}

/** The day under rehearsal, with all that goes along with it: its clock, what is kept of it, and the plan for what is to come. */
interface Stage extends Pick<RehearsalWork, "call" | "undoCall" | "end" | "fileText"> {
  readonly state: StoreApi<RehearsalState>;
  readonly clock: RehearsalClock;
  readonly replanning: Replanning;
  readonly keeper: Keeper;
  start(plan: Plan, rehearsal: Rehearsal): void;
}

function stageOf(session: Session, ports: RehearsalPorts): Stage {
  const state = createStore<RehearsalState>()(() => NOTHING);
  const leaving = leavingOf(ports, (leaves) => state.setState({ leaves }));
  const fileText = textOf(() => state.getState().day);

  const show = (day: Rehearsed): void =>
    state.setState({ day, trouble: null, leaves: leaving.of(day.now, day.standing.nowS) });
  const put = (rehearsal: Rehearsal): void => {
    const { day } = state.getState();
    if (day) show(rehearsedOf(ports, day.plan, day.planned, rehearsal));
  };

  const keeper = keeperOf(ports, {
    now: () => state.getState().day,
    text: fileText,
    sayUnkept: (unkept) => {
      if (state.getState().unkept !== unkept) state.setState({ unkept });
    },
  });
  const clock = rehearsalClock(ports, state, put, keeper);
  const call = (made: CallOut): string | null => {
    const { day } = state.getState();
    if (!day) return null;
    const next = madeNow(day, made);
    const why = whyNot(day, next);
    if (why !== null) return why;
    put({ ...day.rehearsal, calls: [...day.rehearsal.calls, next] });
    keeper.keep();
    return null;
  };
  const replanning = replanningOf(session, ports, state, (schedule) => call({ kind: "replanned", schedule }));
  const halt = (): void => {
    clock.halt();
    replanning.drop();
  };

  return {
    state,
    clock,
    replanning,
    keeper,
    fileText,
    call,
    start(plan, rehearsal) {
      halt();
      show(rehearsedOf(ports, plan, ports.judgeFor(plan)(plan.schedule), rehearsal));
    },
    undoCall() {
      const { day } = state.getState();
      const last = day?.rehearsal.calls.at(-1);
      if (!day || !last) return;
      clock.halt();
      put({ ...day.rehearsal, nowS: last.atS, calls: day.rehearsal.calls.slice(0, -1) });
      keeper.keep();
    },
    end() {
      halt();
      leaving.drop();
      state.setState({ day: null, trouble: null, unkept: null, leaves: null });
      keeper.forget();
    },
  };
}

/** A call at the clock's time. */
function madeNow({ rehearsal }: Rehearsed, made: CallOut): Call {
  return { ...made, atS: rehearsal.nowS } as Call;
}

/** Why a call cannot be made, in a sentence, or null. */
function whyNot({ plan, rehearsal: { calls } }: Rehearsed, next: Call): string | null {
  if (calls.length >= MOST_CALLS)
    return `A rehearsal has ${MOST_CALLS} calls at the most, and this one has them.`;
  const fault = callFault(plan, calls, next);
  return fault === null ? null : `This call ${fault}.`;
}

/** No day is under rehearsal. */
const NOTHING: RehearsalState = {
  day: null,
  running: false,
  speed: 60,
  caller: "crew",
  planning: null,
  proposal: null,
  trouble: null,
  unkept: null,
  leaves: null,
};

/** The day as it stands after the calls, with what gauges said in it, judged. */
function rehearsedOf(
  ports: Pick<RehearsalPorts, "judgeFor" | "walksOf">,
  plan: Plan,
  planned: Verdict,
  rehearsal: Rehearsal,
): Rehearsed {
  const standing = standingOf(plan, rehearsal, ports.walksOf(plan));
  const first = ports.judgeFor(standing.plan)(standing.plan.schedule);
  const reads = readOuts(standing.facts.readings, first.margins);
  const now = withReadings(standing.plan, reads);
  const verdict = now === standing.plan ? first : ports.judgeFor(now)(now.schedule);
  return { plan, rehearsal, planned, standing, now, verdict, reads, recalls: recallsOf(standing, now) };
}

/** The rehearsal as a file's text; null where there is none. The plan stays the same while calls come: its text is made once. */
function textOf(day: () => Rehearsed | null): () => string | null {
  let texted: { readonly plan: Plan; readonly text: string } | null = null;
  return () => {
    const now = day();
    if (!now) return null;
    if (texted?.plan !== now.plan) texted = { plan: now.plan, text: JSON.stringify(now.plan) };
    return rehearsalText(now.rehearsal, texted.text);
  };
}

async function restore(
  { state, start, keeper }: Stage,
  { archive, memory }: Pick<RehearsalPorts, "archive" | "memory">,
): Promise<void> {
  const older = memory.get(MEMORY);
  // Where the store cannot be used, that is said of the plan.
  const kept = await archive.readRehearsal().catch(() => null);
  const found = kept ? readRehearsal(kept.text) : older ? readRehearsal(older) : null;
  if (state.getState().day || !found) return;
  if (!found.ok)
    return state.setState({
      trouble: `The rehearsal that was under way when the page was left cannot be read: ${found.error}.`,
    });
  const { plan, rehearsal } = found.value;
  const clock = kept?.clock?.calls === rehearsal.calls.length ? kept.clock.nowS : rehearsal.nowS;
  start(plan, { ...rehearsal, nowS: instant(Math.max(rehearsal.nowS, clock)) });
  if (kept || !older) return;
  keeper.keep();
  memory.set(MEMORY, "");
}

/** The EVAs under way, recalled at the clock's time. */
function recallsOf({ facts, nowS }: DayStanding, now: Plan): readonly Recall[] {
  return now.evas.flatMap(({ id }) => {
    if (!facts.outS.has(id) || facts.inS.has(id)) return [];
    const recall = recallOf(now, now.schedule, id, nowS);
    return recall ? [recall] : [];
  });
}
