import "fake-indexeddb/auto";
import type {
  BenchReason,
  ChancesReport,
  FitBand,
  GridReport,
  MendReport,
  OddsProgress,
  OddsReport,
  PackProgress,
  PackReport,
  PrintedDay,
  PrintingProgress,
  LateProgress,
  LateReport,
  WhyReport,
} from "../../src/answers/index.ts";
import { judgeFor } from "../../src/check/index.ts";
import { type Engine, EngineError } from "../../src/engine/calls.ts";
import { instant } from "../../src/kernel/index.ts";
import { parse, type Plan, type Schedule } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";
import { createSession, type Session } from "../../src/session/index.ts";
import type { StoredPlan } from "../../src/session/shelf/records.ts";
import type { Archive } from "../../src/session/shelf/records.ts";
import type { SessionPorts } from "../../src/session/ports.ts";
import type { Clock } from "../../src/session/ports.ts";
import { browserArchive } from "../../src/session/shelf/archive.ts";

/** A small day: one EVA, two crew members, three tasks of 15 min, the first placed an hour after the egress bound. */
export const smallInput: PlanInput = {
  format: "lopeline-plan",
  version: 3,
  title: "A small day",
  site: {
    name: "Site",
    latDeg: 10,
    lonDeg: 20,
    places: [
      { id: "lander", name: "Lander", kind: "lander", eastM: 0, northM: 0 },
      { id: "ridge", name: "Ridge", kind: "station", eastM: 90, northM: 0 },
    ],
  },
  stay: { touchdownUtc: "2031-04-05T06:07:00Z", lengthS: 80_000 },
  crew: ["ev1", "ev2"].map((id, k) => ({
    id,
    name: id.toUpperCase(),
    bodyMassKg: 75,
    suit: k === 0 ? "suit" : "other-suit",
  })),
  suits: ["suit", "other-suit"].map((id, k) => ({
    id,
    name: k === 0 ? "Suit" : "Other suit",
    massKg: 90,
    oxygenKg: 0.9,
    co2Kg: 1,
    waterKg: 4.5,
    batteryWh: 500,
    emergencyOxygenS: 1800,
  })),
  evas: [
    {
      id: "eva-1",
      name: "EVA 1",
      crew: ["ev1", "ev2"],
      earliestEgressS: 3600,
      latestIngressS: 30_000,
      longestS: 25_000,
      egressWorkS: 600,
      ingressWorkS: 600,
    },
  ],
  tasks: ["one", "two", "three"].map((id) => ({
    id,
    name: `Task ${id}`,
    kind: "sampling" as const,
    place: "ridge",
    duration: { likelyS: 900 },
    worth: 10,
  })),
  schedule: { placements: [{ task: "one", eva: "eva-1", crew: ["ev1"], startS: 7200 }] },
};

export function planOf(input: PlanInput): Plan {
  const read = parse(input);
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

/** The small plan's schedule with `task` at `startS` as well, done by `crew`. */
export function scheduleWith(plan: Plan, task: string, startS: number, crew = ["ev1"]): Schedule {
  const others = plan.schedule.placements.filter((one) => one.task !== task);
  return { placements: [...others, { task, eva: "eva-1", crew, startS: instant(startS) }] };
}

/** A clock that stands still until it is moved on. */
export class HandClock implements Clock {
  private time = Date.UTC(2031, 0, 1);
  private waiting: { at: number; run: () => void }[] = [];

  nowMs(): number {
    return this.time;
  }

  after(ms: number, run: () => void): () => void {
    const entry = { at: this.time + ms, run };
    this.waiting.push(entry);
    return () => {
      this.waiting = this.waiting.filter((one) => one !== entry);
    };
  }

  moveOn(ms: number): void {
    this.time += ms;
    const due = this.waiting.filter((one) => one.at <= this.time);
    this.waiting = this.waiting.filter((one) => one.at > this.time);
    for (const one of due) one.run();
  }
}

/** One call that waits for the test to answer it; a signal that aborts rejects it as the real engine does. */
export interface Call<Answer, Progress = never> {
  readonly plan: Plan;
  answer(answer: Answer): Promise<void>;
  fail(message: string): Promise<void>;
  report(progress: Progress): void;
  readonly cancelled: () => boolean;
}

/** An engine whose answers the test gives, when it likes. With `deaf`, an abort settles nothing: a late answer comes. */
export class HandEngine implements Engine {
  readonly packs: Call<PackReport, PackProgress>[] = [];
  readonly mends: Call<MendReport>[] = [];
  readonly grids: Call<GridReport>[] = [];
  readonly bands: Call<readonly FitBand[]>[] = [];
  readonly reasons: Call<readonly BenchReason[]>[] = [];
  readonly glances: (Call<ChancesReport> & { readonly schedule: Schedule; readonly days: number })[] = [];
  readonly oddses: Call<OddsReport, OddsProgress>[] = [];
  readonly lateTables: Call<LateReport, LateProgress>[] = [];
  readonly prints: Call<PrintedDay, PrintingProgress>[] = [];
  readonly whys: Call<WhyReport, WhyReport>[] = [];
  deaf = false;

  check = unasked("the desk judges by itself");
  ways = unasked("no ways are asked for here");
  curve = unasked("no curve is asked for here");
  fromWhat = unasked("no figure is asked for here");
  siteGround = unasked("not asked for in these tests");
  siteLight = unasked("not asked for in these tests");
  siteRings = unasked("not asked for in these tests");
  siteWalks = unasked("not asked for in these tests");

  pack: Engine["pack"] = (plan, _, hearing) => this.call(this.packs, plan, hearing);
  mend: Engine["mend"] = (plan, _, hearing) => this.call(this.mends, plan, hearing);
  gridded: Engine["gridded"] = (plan, _, hearing) => this.call(this.grids, plan, hearing);
  printed: Engine["printed"] = (plan, _, hearing) => this.call(this.prints, plan, hearing);
  fitBands: Engine["fitBands"] = (plan, _, hearing) => this.call(this.bands, plan, hearing);
  benchReasons: Engine["benchReasons"] = (plan, _, hearing) => this.call(this.reasons, plan, hearing);
  chances: Engine["chances"] = (plan, { schedule, days }, hearing) => {
    const list: Call<ChancesReport>[] = [];
    const answer = this.call(list, plan, hearing);
    this.glances.push({ ...list[0]!, schedule, days });
    return answer;
  };
  odds: Engine["odds"] = (plan, _, hearing) => this.call(this.oddses, plan, hearing);
  lateTable: Engine["lateTable"] = (plan, _, hearing) => this.call(this.lateTables, plan, hearing);
  why: Engine["why"] = (plan, _, hearing) => this.call(this.whys, plan, hearing);

  close(): void {
    throw new Error("not closed in these tests");
  }

  call<Answer, Progress>(
    list: Call<Answer, Progress>[],
    plan: Plan,
    {
      report = () => undefined,
      signal,
    }: {
      readonly report?: ((progress: Progress) => void) | undefined;
      readonly signal?: AbortSignal | undefined;
    } = {},
  ): Promise<Answer> {
    return new Promise((resolve, reject) => {
      if (!this.deaf) {
        signal?.addEventListener("abort", () => reject(new EngineError("cancelled", "cancelled")));
      }
      list.push({
        plan,
        report,
        cancelled: () => signal?.aborted ?? false,
        answer: async (answer) => {
          resolve(answer);
          await settled();
        },
        fail: async (message) => {
          reject(new EngineError("failed", message));
          await settled();
        },
      });
    });
  }
}

function unasked(words: string): () => never {
  return () => {
    throw new Error(words);
  };
}

/** Lets everything run that waits for a settled promise. */
export async function settled(): Promise<void> {
  for (let turn = 0; turn < 5; turn += 1) await Promise.resolve();
}

/** Lets the store's requests, which come back by timers, run. */
export function stored(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 20));
}

let shelf = 0;

/** A fresh archive's name. */
export function freshShelf(): string {
  shelf += 1;
  return `desk-test-${shelf}`;
}

/** The record of the plan that was open last, as it lies in the store. */
export async function openRecord(archive: Archive): Promise<StoredPlan | undefined> {
  const slot = await archive.lastOpen();
  return slot === null ? undefined : ((await archive.readPlan(slot)) as StoredPlan | undefined);
}

/** Puts a record where `openRecord` finds it, whatever lies there. */
export async function putOpen(archive: Archive, record: StoredPlan, slot = "slot"): Promise<void> {
  const last = (await archive.lastOpen()) ?? slot;
  const found = (await archive.readPlan(last)) as Partial<StoredPlan> | undefined;
  const card = { slot: last, title: "Put here", savedAtMs: record.savedAtMs, bytes: record.text.length };
  const counts = { tasks: 0, placed: 0, picture: null, binnedAtMs: null };
  await archive.writePlan({ ...card, ...counts }, record, found?.writer ?? null);
  await archive.setLastOpen(last);
}

/** A desk with the small plan open and an empty history. */
export function sessionWith(ports: Partial<SessionPorts> = {}): {
  session: Session;
  engine: HandEngine;
  clock: HandClock;
} {
  const engine = new HandEngine();
  const clock = new HandClock();
  let ids = 0;
  const session = createSession({
    engine,
    spare: () => engine,
    judgeFor,
    archive: browserArchive(freshShelf()),
    clock,
    newId: () => `n${(ids += 1)}`,
    readyText: () => Promise.resolve(JSON.stringify(smallInput)),
    ...ports,
  });
  session.open(JSON.stringify(smallInput));
  return { session, engine, clock };
}

/** A pack report on `schedule`, as the engine would give it. */
export function packReport(plan: Plan, schedule: Schedule): PackReport {
  const verdict = judgeFor(plan)(schedule);
  return {
    schedule,
    verdict,
    iterations: 10,
    seconds: 1,
    greedy: verdict.score,
    bound: null,
    stopped: "time",
  };
}
