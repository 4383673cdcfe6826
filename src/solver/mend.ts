import { instant, random, type Random } from "../kernel/index.ts";
import type { Placement, Plan, Schedule } from "../plan/index.ts";
import { compile } from "./compile/index.ts";
import { Day } from "./day.ts";
import { lay, linkAll, scheduleOf } from "./placing.ts";
import { held } from "./pinned.ts";
import { nearby } from "./nearby.ts";
import type { Problem } from "./problem.ts";
import { Recreate } from "./recreate.ts";
import { read, type Stand, Verifier } from "./verify.ts";
import { placeGroup } from "./why/inserting.ts";
import { neededFor } from "./why/trial.ts";
import { met, minutes, named } from "./words.ts";

export interface MendSettings {
  readonly seed: number;
  readonly seconds?: number | undefined;
  readonly iterations?: number | undefined;
  /** Tasks that are dropped only where nothing else makes the day sound. */
  readonly keep?: readonly string[] | undefined;
  /** The caller's clock, seconds from anywhere. */
  readonly clock: () => number;
}

export interface Mended {
  readonly schedule: Schedule;
  /** One sentence for each change, in the plan's order of tasks. */
  readonly changes: readonly { readonly task: string; readonly sentence: string }[];
}

/** A run that is driven slice by slice, so that its caller can stop it between two. */
export interface MendRun {
  /** Goes on for at most about `sliceS` seconds of the clock; false when the run is finished. */
  step(sliceS: number): boolean;
  /** The nearest sound schedule so far; the empty one while there is none. */
  best(): Mended;
}

/** Rounds when the caller sets no limit of iterations. */
const ROUNDS = 40;
/** Up to this many placements every pair is tried. */
const MOST_FOR_PAIRS = 14;
/** Places tried for what goes on a day that slides. */
const MOST_TRIES = 200;
/** Schedules looked at between two breaths. */
const BREATH = 16;
/** Passes over a mended schedule to bring it nearer. */
const PASSES = 3;

/** A mend from beginning to end; see mendRun. */
export function mend(plan: Plan, schedule: Schedule, settings: MendSettings): Mended {
  const run = mendRun(plan, schedule, settings);
  while (run.step(Infinity)) continue;
  return run.best();
}

/**
 * A schedule without breach as near to `schedule` as the search finds: fewest tasks dropped, then fewest moved, then fewest
 * minutes moved. A sound schedule comes back as it is.
 *
 * One task alone is tried first, each in turn to the nearest start that is sound; then everything in its order, sliding later, with
 * one task or none put elsewhere; and in a small schedule each pair. Else placements
 * are let go one by one, always the one without which least is broken, until the rest is sound where it stands; the loose ones are
 * put back, with the rest held where it is, or held from where it is so that it may slide later; and what moved is brought back
 * as near as it goes. Rounds differ by chance in what is let go. Not proved to be the fewest, but where one move is enough.
 */
export function mendRun(plan: Plan, schedule: Schedule, settings: MendSettings): MendRun {
  const { clock } = settings;
  const work = new Mending(plan, schedule, settings);
  const going = work.all();
  const startS = clock();
  const mostS = settings.seconds ?? Infinity;
  let running = true;
  return {
    step: (sliceS) => {
      const endS = clock() + sliceS;
      while (running) {
        if (going.next().done) running = false;
        const nowS = clock();
        // However short the time, something sound is given.
        if (work.found && nowS - startS > mostS) running = false;
        else if (nowS >= endS) break;
      }
      return running;
    },
    best: () => work.best(),
  };
}

class Mending {
  private readonly plan: Plan;
  private readonly schedule: Schedule;
  private readonly settings: MendSettings;
  private readonly verifier: Verifier;
  private readonly stands: readonly Stand[];
  private readonly strays: readonly number[];
  /** Start in the schedule by activity. */
  private readonly wasS: ReadonlyMap<number, number>;
  /** Activities to be kept. */
  private readonly keep: ReadonlySet<number>;
  private nearest: { schedule: Schedule; cost: readonly number[] } | null = null;

  constructor(plan: Plan, schedule: Schedule, settings: MendSettings) {
    this.plan = plan;
    this.schedule = schedule;
    this.settings = settings;
    this.verifier = new Verifier(compile(plan, schedule));
    // A task placed twice stands once: the second placement is not kept.
    const once = schedule.placements.filter(
      (one, k) => schedule.placements.findIndex((two) => two.task === one.task) === k,
    );
    const { stands } = read(this.verifier.problem, { placements: once });
    this.stands = stands;
    const index = new Map(plan.tasks.map((task, a) => [task.id, a]));
    this.wasS = new Map(
      once.flatMap((one) => (index.has(one.task) ? [[index.get(one.task)!, one.startS as number]] : [])),
    );
    this.keep = new Set((settings.keep ?? []).flatMap((id) => index.get(id) ?? []));
    this.strays = [...this.wasS.keys()].filter((a) => !stands.some((stand) => stand.activity === a));
  }

  get found(): boolean {
    return this.nearest !== null;
  }

  best(): Mended {
    const schedule = this.nearest?.schedule ?? { placements: [] };
    return { schedule, changes: changesOf(this.plan, this.schedule, schedule) };
  }

  *all(): Generator<void, void> {
    const { verifier, stands, strays, settings } = this;
    const whole = this.schedule.placements.length === stands.length;
    if (whole && verifier.holds(stands)) {
      this.nearest = { schedule: this.schedule, cost: [0, 0, 0] };
      return;
    }
    yield;
    yield* this.single();
    if (this.isNear(1)) return;
    yield* this.slid();
    const stream = random(settings.seed);
    const most = settings.iterations ?? ROUNDS;
    for (let round = 0; round < most; round += 1) {
      const noise = round < 2 ? 0 : 1;
      const { kept, loose } = yield* letGo(verifier, stands, stream, noise, this.keep);
      const how = round % 2 === 0 ? "at" : "from";
      const made = putBack(verifier, kept, [...loose, ...strays], stream, how);
      yield;
      // The loose ones each where they stand nearest, when the board's earliest starts are far off.
      yield* this.settle(made ? read(verifier.problem, made).stands : kept);
      if (made) yield* this.settle(kept);
      if (round === 1 && !this.isNear(2)) yield* this.pairs();
      if (this.isNear(2)) return;
    }
  }

  /** True when nothing is dropped and no more than `moves` tasks move. */
  private isNear(moves: number): boolean {
    return this.nearest !== null && this.nearest.cost[0] === 0 && this.nearest.cost[1]! <= moves;
  }

  /** One task to its nearest sound start, everything else where it stands. */
  private *single(): Generator<void, void> {
    const { verifier, stands, strays } = this;
    if (strays.length > 1) return;
    for (const a of strays.length === 1 ? strays : stands.map((stand) => stand.activity)) {
      const rest = stands.filter((stand) => stand.activity !== a);
      const there = verifier.holds(rest) ? yield* nearby(verifier, rest, a, this.wasS.get(a)!) : null;
      if (there) this.offer([...rest, there]);
      yield;
    }
  }

  /**
   * Everything in its order and no earlier than it is, or all but one task that goes wherever there is room; what the placed tasks
   * need and is not there is put on as well.
   */
  private *slid(): Generator<void, void> {
    const { verifier, stands, strays } = this;
    // The slack test alone would leave on the board what it could not place.
    const { problem: whole } = verifier;
    const problem: Problem = whole.reach === "slack" ? { ...whole, reach: "network" } : whole;
    const standing = new Set(this.wasS.keys());
    const missing = [...standing].flatMap((a) => problem.needs[a]!.filter((b) => !standing.has(b)));
    const added = [...new Set(missing.flatMap((b) => neededFor(problem, b, standing)))];
    let nearest: { stands: readonly Stand[]; cost: readonly number[] } | null = null;
    for (const loose of [-1, ...stands.map((stand) => stand.activity)]) {
      const order = stands
        .filter((stand) => stand.activity !== loose)
        .sort((x, y) => x.startS - y.startS || x.activity - y.activity);
      const day = new Day(problem);
      const laid = linkAll(day, order);
      for (const { activity, startS } of order) day.board.floorS[activity] = startS;
      yield;
      if (!laid || !day.settle()) continue;
      const group = [...added, ...strays, ...(loose < 0 ? [] : [loose])];
      if ((yield* placeGroup(day, group, { tries: MOST_TRIES })) !== true) continue;
      const made = scheduleOf(day.board);
      const cost = costOf(this.schedule, made, this.settings.keep);
      const { stands: now } = read(problem, made);
      if ((!nearest || less(cost, nearest.cost)) && verifier.holds(now)) nearest = { stands: now, cost };
      yield;
    }
    if (!nearest) return;
    this.offer(nearest.stands);
    yield* this.settle(nearest.stands);
  }

  /** Two tasks, one after the other, each to its nearest sound start. */
  private *pairs(): Generator<void, void> {
    const { verifier, stands, strays } = this;
    if (stands.length > MOST_FOR_PAIRS || strays.length > 2) return;
    const all = [...this.wasS.keys()];
    for (const a of all) {
      for (const b of all) {
        if (a === b || strays.some((stray) => stray !== a && stray !== b)) continue;
        const rest = stands.filter((stand) => stand.activity !== a && stand.activity !== b);
        if (!verifier.holds(rest)) continue;
        const first = yield* nearby(verifier, rest, a, this.wasS.get(a)!);
        const second = first && (yield* nearby(verifier, [...rest, first], b, this.wasS.get(b)!));
        if (second) yield* this.settle([...rest, first, second]);
      }
      yield;
    }
  }

  /** From a sound schedule nearer to the one to be mended: what is missing put on, what moved brought back, as long as that helps. */
  private *settle(sound: readonly Stand[]): Generator<void, void> {
    const { verifier, wasS } = this;
    let now = [...sound];
    if (!verifier.holds(now)) return;
    for (let pass = 0; pass < PASSES; pass += 1) {
      let better = false;
      const byWorth = [...wasS.keys()].sort((a, b) => this.rank(b) - this.rank(a) || a - b);
      for (const a of byWorth) {
        const old = now.find((stand) => stand.activity === a);
        const own = this.stands.find((stand) => stand.activity === a);
        if (old && own && old.startS === own.startS && old.choice === own.choice) continue;
        const rest = now.filter((stand) => stand.activity !== a);
        if (!verifier.holds(rest)) continue;
        const back = own && verifier.holds([...rest, own]) ? own : null;
        const there: Stand | null = back ?? (yield* nearby(verifier, rest, a, wasS.get(a)!));
        yield;
        if (!there) continue;
        const away = (stand: Stand): number => Math.abs(stand.startS - wasS.get(a)!);
        if (old && !back && away(there) >= away(old)) continue;
        now = [...rest, there];
        better = true;
      }
      if (!better) break;
    }
    this.offer(now);
  }

  private rank(a: number): number {
    const { must, worth } = this.verifier.problem;
    return must[a]! * 1e9 + worth[a]!;
  }

  private offer(stands: readonly Stand[]): void {
    const { problem } = this.verifier;
    const made = scheduleFrom(problem, inOrder(stands));
    const cost = costOf(this.schedule, made, this.settings.keep);
    if (!this.nearest || less(cost, this.nearest.cost)) this.nearest = { schedule: made, cost };
  }
}

/** More than all that one placement may break, so that those to be kept go last. */
const DEAR = 1000;

function inOrder(stands: readonly Stand[]): Stand[] {
  return [...stands].sort((a, b) => a.activity - b.activity);
}

/** Lets placements go until the rest is sound; must-do tasks and worthy ones last, and those to be kept only where no other is left. */
function* letGo(
  verifier: Verifier,
  stands: readonly Stand[],
  stream: Random,
  noise: number,
  keep: ReadonlySet<number>,
): Generator<void, { kept: Stand[]; loose: number[] }> {
  const { worth, must } = verifier.problem;
  const dearest = worth.reduce((most, one) => Math.max(most, one), 1);
  let kept = [...stands];
  const loose: number[] = [];
  for (let faults = verifier.faults(kept).length; faults > 0;) {
    let best = { cost: Infinity, at: 0, faults: 0 };
    for (const [at, stand] of kept.entries()) {
      if (at % BREATH === BREATH - 1) yield;
      const left = verifier.faults(kept.filter((_, k) => k !== at)).length;
      const dear = keep.has(stand.activity) ? stands.length * DEAR : 0;
      const price = dear + worth[stand.activity]! / dearest / 2 + (must[stand.activity] === 1 ? 0.45 : 0);
      const cost = left + price + noise * stream.next();
      if (cost < best.cost) best = { cost, at, faults: left };
    }
    loose.push(kept[best.at]!.activity);
    kept = kept.filter((_, k) => k !== best.at);
    faults = best.faults;
    yield;
  }
  return { kept, loose };
}

/** The kept placements held, the loose ones put back where they fit; null when that is not sound. */
function putBack(
  verifier: Verifier,
  kept: readonly Stand[],
  loose: readonly number[],
  stream: Random,
  how: "at" | "from",
): Schedule | null {
  const { problem } = verifier;
  const day = new Day(held(problem, kept, how));
  const recreate = new Recreate(day, stream);
  if (lay(day, scheduleFrom(problem, kept)) > 0) return null;
  for (const a of loose) recreate.place(a, 0);
  dropUnmet(day);
  const schedule = scheduleOf(day.board);
  return verifier.holds(read(problem, schedule).stands) ? schedule : null;
}

function scheduleFrom(problem: Problem, stands: readonly Stand[]): Schedule {
  const { plan } = problem;
  return {
    placements: stands.map(({ activity, choice, startS }) => {
      const at = problem.choiceAt[choice]!;
      const routes = Array.from(
        { length: problem.crewCount[activity]! },
        (_, k) => problem.choiceRoutes[at + k]!,
      );
      return {
        task: plan.tasks[activity]!.id,
        eva: routes.length === 0 ? null : plan.evas[problem.evaOfRoute[routes[0]!]!]!.id,
        crew: routes.map((r) => plan.crew[problem.memberOfRoute[r]!]!.id),
        startS: instant(startS),
      };
    }),
  };
}

/** Takes off what needs something that is not there. */
function dropUnmet(day: Day): void {
  const { problem, board } = day;
  for (let again = true; again;) {
    again = false;
    for (let a = 0; a < problem.activities; a += 1) {
      if (board.placed[a] === 0 || problem.needs[a]!.every((b) => board.placed[b] === 1)) continue;
      day.unlink(a);
      again = true;
    }
  }
}

/** Dropped, moved to other people or another EVA or in time, seconds moved. */
function costOf(before: Schedule, after: Schedule, keep: readonly string[] = []): number[] {
  const now = new Map(after.placements.map((one) => [one.task, one]));
  let dropped = keep.filter((task) => !now.has(task)).length * (before.placements.length + 1);
  let moved = 0;
  let seconds = 0;
  for (const one of before.placements) {
    const there = now.get(one.task);
    if (!there) dropped += 1;
    else if (differs(one, there)) {
      moved += 1;
      seconds += Math.abs(there.startS - one.startS);
    }
  }
  return [dropped, moved, seconds];
}

function differs(a: Placement, b: Placement): boolean {
  return (
    a.startS !== b.startS || a.eva !== b.eva || [...a.crew].sort().join(" ") !== [...b.crew].sort().join(" ")
  );
}

function less(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((value, k) => value !== b[k]);
  return at >= 0 && a[at]! < b[at]!;
}

function changesOf(plan: Plan, before: Schedule, after: Schedule): Mended["changes"] {
  const was = new Map(before.placements.map((one) => [one.task, one]));
  const now = new Map(after.placements.map((one) => [one.task, one]));
  const who = (one: Placement): string =>
    named(one.crew.map((id) => plan.crew.find((member) => member.id === id)?.name ?? id));
  return plan.tasks.flatMap((task) => {
    const old = was.get(task.id);
    const there = now.get(task.id);
    if (!old && there)
      return [
        { task: task.id, sentence: `${task.name} is put on at ${met(there.startS)}: placed tasks need it.` },
      ];
    if (!old) return [];
    if (!there) return [{ task: task.id, sentence: `${task.name} goes back to the bench.` }];
    if (!differs(old, there)) return [];
    const parts: string[] = [];
    if (old.eva !== there.eva)
      parts.push(`moves to ${plan.evas.find((eva) => eva.id === there.eva)?.name ?? "no EVA"}`);
    if ([...old.crew].sort().join() !== [...there.crew].sort().join()) parts.push(`goes to ${who(there)}`);
    const byS = there.startS - old.startS;
    if (byS !== 0)
      parts.push(
        `starts at ${met(there.startS)}, ${minutes(Math.abs(byS), "up")} ${byS > 0 ? "later" : "earlier"}`,
      );
    return [{ task: task.id, sentence: `${task.name} ${named(parts)}.` }];
  });
}
