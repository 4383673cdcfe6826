import { createStore, type StoreApi } from "zustand/vanilla";
import type { Change, ChancesReport, Recall, Verdict } from "../answers/index.ts";
import { recallOf } from "../check/index.ts";
import type { Engine } from "../engine/calls.ts";
import { instant } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import {
  type Call,
  callFaults,
  type DayStanding,
  type Debrief,
  debriefOf,
  MOST_CALLS,
  nextCall,
  played,
  type ReadOut,
  readOuts,
  readRehearsal,
  type Rehearsal,
  rehearsalFrom,
  rehearsalText,
  standingOf,
  type RehearsedWays,
  withReadings,
} from "../rehearsal/index.ts";
import { scheduleChanges } from "../words/index.ts";
import type { Desk } from "./desk.ts";
import { wordsOf } from "./files.ts";
import { keeperOf, type KeeperPorts } from "./rehearsalkeeper.ts";
import { type Leaves, leavingOf } from "./leaving.ts";
import type { JudgeFor } from "./ports.ts";

/** What is called out, without its time: that is the clock's. */
export type CallOut = Call extends infer Each ? (Each extends Call ? Omit<Each, "atS"> : never) : never;

/** A day under rehearsal. It keeps the plan as it was when it began, whatever becomes of the open one. */
export interface Rehearsed {
  readonly plan: Plan;
  readonly rehearsal: Rehearsal;
  /** The judge's word on the plan as it was. */
  readonly planned: Verdict;
  readonly standing: DayStanding;
  /** The plan as the day goes, with what gauges said in it, and the judge's word on it. */
  readonly now: Plan;
  readonly verdict: Verdict;
  readonly reads: readonly ReadOut[];
  /** Each EVA that is out: how soon and how late all can be inside, and when each must start home. */
  readonly recalls: readonly Recall[];
}

/** A schedule for what is to come that waits for a yes or no. */
export interface Proposal {
  readonly how: "mend" | "pack";
  readonly schedule: Schedule;
  readonly verdict: Verdict;
  /** What changes, what is lost first. */
  readonly changes: readonly Change[];
  /** When it was asked for: older than this it no longer fits. */
  readonly askedS: number;
  /** Of the day as it would go on and with the proposal; null while they are counted, or where they cannot be. */
  readonly chances: { readonly before: ChancesReport; readonly after: ChancesReport } | null;
  /** Must-do tasks that were given up already: no chance counts them. */
  readonly givenUp: readonly string[];
}

export interface RehearsalState {
  readonly day: Rehearsed | null;
  /** The clock runs. */
  readonly running: boolean;
  /** Mission seconds a second. */
  readonly speed: number;
  /** Who says when a task begins and ends: the crew by itself, or whoever leads the rehearsal. */
  readonly caller: "crew" | "trainer";
  readonly planning: "mend" | "pack" | null;
  readonly proposal: Proposal | null;
  readonly trouble: string | null;
  /** Why the rehearsal is not kept in the browser and lasts only as long as the page, unless it is saved as a file; null where it is. */
  readonly unkept: string | null;
  /** When to leave on the day as it goes on; null where the judge has not tested that. */
  readonly leaves: Leaves | null;
}

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

/** How often the clock is moved while it runs, ms. */
const TICK_MS = 250;
/** The rehearsal begins so long before the first egress, s. */
const BEFORE_S = 900;
const PLAN_S = 5;
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
  let stopTick: (() => void) | null = null;
  let asking: AbortController | null = null;
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

  const start = (plan: Plan, rehearsal: Rehearsal): void => {
    halt();
    dropQuestion();
    const planned = ports.judgeFor(plan)(plan.schedule);
    show(stand(plan, planned, rehearsal));
  };

  const halt = (): void => {
    stopTick?.();
    stopTick = null;
    state.setState({ running: false });
  };

  const dropQuestion = (): void => {
    asking?.abort();
    asking = null;
    state.setState({ planning: null, proposal: null });
  };

  /** The clock at `nowS`, with all that a crew playing by itself has called until then. */
  const at = (day: Rehearsed, nowS: number): Rehearsal =>
    state.getState().caller === "crew"
      ? played(day.plan, day.rehearsal, nowS, ports.walksOf(day.plan))
      : { ...day.rehearsal, nowS: instant(Math.max(day.rehearsal.nowS, nowS)) };

  const tick = (sinceMs: number, carryS: number): void => {
    const { day, speed } = state.getState();
    if (!day) return;
    const nowMs = ports.clock.nowMs();
    const passedS = carryS + ((nowMs - sinceMs) / 1000) * speed;
    const wholeS = Math.floor(passedS);
    if (wholeS > 0) put(at(day, day.rehearsal.nowS + wholeS));
    const after = state.getState().day;
    if (after && after.rehearsal.calls.length !== day.rehearsal.calls.length) keep();
    else keeper.keepClock();
    if (after && isOver(after)) {
      halt();
      keep();
      return;
    }
    stopTick = ports.clock.after(TICK_MS, () => tick(nowMs, passedS - wholeS));
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
      halt();
      dropQuestion();
      leaving.drop();
      state.setState({ day: null, trouble: null, unkept: null, leaves: null });
      keeper.forget();
    },
    call: callOut,
    takeBack() {
      const { day } = state.getState();
      const last = day?.rehearsal.calls.at(-1);
      if (!day || !last) return;
      halt();
      put({ ...day.rehearsal, nowS: last.atS, calls: day.rehearsal.calls.slice(0, -1) });
      keep();
    },
    run() {
      const { day, running } = state.getState();
      if (!day || running || isOver(day)) return;
      state.setState({ running: true });
      const nowMs = ports.clock.nowMs();
      stopTick = ports.clock.after(TICK_MS, () => tick(nowMs, 0));
    },
    hold() {
      halt();
      keep();
    },
    setSpeed: (speed) => state.setState({ speed }),
    setCaller: (caller) => state.setState({ caller }),
    goOn(by) {
      const { day } = state.getState();
      if (!day) return;
      const { rehearsal, plan } = day;
      if (by !== "next call") put(at(day, rehearsal.nowS + by));
      else {
        const next = nextCall(plan, rehearsal, ports.walksOf(plan));
        if (next) put(at(day, next.atS));
      }
      keep();
    },
    async planAnew(how) {
      const { day } = state.getState();
      if (!day) return;
      dropQuestion();
      const mine = new AbortController();
      asking = mine;
      state.setState({ planning: how, trouble: null });
      const { now, standing, rehearsal } = day;
      const plan = { ...standing.ahead, suits: now.suits, crew: now.crew };
      const toCome = new Set(standing.spots.flatMap((spot) => (spot.state === "to come" ? [spot.task] : [])));
      const keep = plan.schedule.placements.flatMap((one) => (toCome.has(one.task) ? [] : [one.task]));
      const options = { seed: rehearsal.seed, seconds: PLAN_S, from: plan.schedule, keep };
      try {
        const answer =
          how === "mend"
            ? await ports.engine.mend(plan, { schedule: plan.schedule, ...options }, { signal: mine.signal })
            : await ports.engine.pack(plan, { ...options, aim: "wish" }, { signal: mine.signal });
        if (asking !== mine) return;
        const { schedule, verdict } = answer;
        if (missing(standing.spots, schedule)) {
          const broken = ports
            .judgeFor(plan)(plan.schedule)
            .findings.find((one) => one.level === "breach");
          state.setState({
            planning: null,
            trouble:
              `No sound plan was found that keeps what has already happened. ${broken?.sentence ?? ""}`.trim(),
          });
          return;
        }
        const changes = scheduleChanges(plan, plan.schedule, schedule);
        state.setState({
          planning: null,
          proposal: {
            how,
            schedule,
            verdict,
            changes,
            askedS: rehearsal.nowS,
            chances: null,
            givenUp: day.plan.tasks.flatMap(({ id, must }) =>
              must && plan.tasks.every((task) => task.id !== id) ? [id] : [],
            ),
          },
        });
        const counted = (of: Schedule): Promise<ChancesReport | null> =>
          desk.chancesOf({ plan, schedule: of }, mine.signal);
        const [before, after] = await Promise.all([counted(plan.schedule), counted(schedule)]);
        const { proposal } = state.getState();
        if (asking === mine && proposal && before && after)
          state.setState({ proposal: { ...proposal, chances: { before, after } } });
      } catch (error) {
        if (asking !== mine) return;
        state.setState({ planning: null, trouble: wordsOf(error) });
      }
    },
    take() {
      const { day, proposal } = state.getState();
      if (!day || !proposal) return;
      const lost = missing(day.standing.spots, proposal.schedule);
      dropQuestion();
      if (lost) {
        state.setState({
          trouble: "The new schedule is older than what has begun since. Ask for another one.",
        });
        return;
      }
      const tasks = new Set(day.plan.tasks.map((task) => task.id));
      const placements = proposal.schedule.placements.filter((one) => tasks.has(one.task));
      callOut({ kind: "replanned", schedule: { placements } });
    },
    leave: dropQuestion,
    debrief() {
      const { day } = state.getState();
      return day && debriefOf(day.plan, day.standing, day.planned.outings);
    },
    fileText,
    open,
  };
}

/** True when a schedule lacks something that has begun. */
function missing(spots: DayStanding["spots"], schedule: Schedule): boolean {
  const there = new Set(schedule.placements.map((one) => one.task));
  return spots.some((spot) => spot.state !== "to come" && !there.has(spot.task));
}

/** The EVAs under way, recalled at the clock's time. */
function recallsOf({ facts, nowS }: DayStanding, now: Plan): readonly Recall[] {
  return now.evas.flatMap(({ id }) => {
    if (!facts.outS.has(id) || facts.inS.has(id)) return [];
    const recall = recallOf(now, now.schedule, id, nowS);
    return recall ? [recall] : [];
  });
}

/** True when nobody is out and nothing is to come, or the stay is over. */
export function isOver({ plan, rehearsal, standing }: Rehearsed): boolean {
  const { facts, spots } = standing;
  if (rehearsal.nowS >= plan.stay.lengthS) return true;
  return (
    spots.every((spot) => spot.state === "done") && [...facts.outS.keys()].every((eva) => facts.inS.has(eva))
  );
}
