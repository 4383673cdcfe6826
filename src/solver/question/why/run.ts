import type { TriedRelaxation, WhyReport } from "../../../answers/index.ts";
import type { Plan, Schedule } from "../../../plan/index.ts";
import { crewName } from "../../../words/index.ts";
import { compiled } from "../../problem/known.ts";
import type { Problem } from "../../problem/problem.ts";
import { readSound } from "../../network/verify.ts";
import { asItStands } from "./asitstands.ts";
import { causesOf } from "./cause.ts";
import { type Conflict, conflictOf } from "./conflict.ts";
import { exchange } from "./exchange.ts";
import { RelaxedProblem } from "./relaxedproblem.ts";
import { cycleInOnlyPlace, ownCycle } from "./onlyplace.ts";
import { relaxationsOf } from "./relaxations.ts";
import { compareCosts, fewestSteps } from "./fewest.ts";
import { rearranged } from "./rearranged.ts";
import { blank, guardedIn, sayConflict } from "./report.ts";
import { elsewhere, solve, WAITS_A_CHANGE } from "./solve.ts";
import { neededFor } from "../trial/needs.ts";

export interface WhySettings {
  readonly seed: number;
  /** The caller's clock, seconds from anywhere; it only stops the run. */
  readonly clock: () => number;
  /** Seconds of `clock` after which the run ends. */
  readonly seconds?: number | undefined;
  /** Iterations of search for each change that is tried. */
  readonly iterations?: number | undefined;
}

/** A run that is driven slice by slice, so that its caller can stop it between two. */
export interface WhyRun {
  /** Goes on for at most about `sliceS` seconds of the clock; false when the run is finished. */
  step(sliceS: number): boolean;
  /** What is known so far; another object whenever something was added. */
  report(): WhyReport<TriedRelaxation>;
}

/** Search behind each change that is tried, and behind the question whether rearranging alone is enough. */
const ITERATIONS = 24;
const REARRANGING = 4;
/** Orders with starts held back on purpose that are tried of the day as it is. */
const WAITS = 600;
const UNKNOWN: Conflict = { causes: [], certainty: "searched", scope: "in this order", minimal: false };

/**
 * Why `task` is not on the day of `schedule`, or, with `task` null, what is wrong with the schedule: first whether it fits after all,
 * then a minimal conflict, then what could be given up, cheapest first, each tried out. Nothing is said to be missing but what such a trial found. A task asked about on a broken schedule is
 * answered with what is wrong with the schedule. Same arguments, same report, but for where the clock stops it.
 */
export function whyRun(plan: Plan, schedule: Schedule, task: string | null, settings: WhySettings): WhyRun {
  const { clock } = settings;
  const beganS = clock();
  const most = settings.seconds ?? Infinity;
  const work = new Why(plan, schedule, task, settings);
  const going = work.all();
  return {
    step: (sliceS) => {
      const endS = clock() + sliceS;
      for (;;) {
        if (work.report.stopped) return false;
        if (going.next().done) {
          work.end("done");
          return false;
        }
        const nowS = clock();
        if (nowS - beganS >= most) work.end("time");
        else if (nowS >= endS) return true;
      }
    },
    report: () => work.report,
  };
}

class Why {
  report: WhyReport<TriedRelaxation>;
  private readonly plan: Plan;
  private readonly schedule: Schedule;
  private readonly settings: WhySettings;

  constructor(plan: Plan, schedule: Schedule, task: string | null, settings: WhySettings) {
    this.plan = plan;
    this.schedule = schedule;
    this.settings = settings;
    this.report = blank(task);
  }

  end(stopped: "done" | "time"): void {
    this.add({ stopped });
  }

  *all(): Generator<void, void> {
    const { plan, schedule } = this;
    const problem = compiled(plan, schedule);
    yield;
    const sound = readSound(problem, schedule) !== null;
    yield;
    const task = this.report.task;
    if (!sound) return yield* this.broken(problem);
    if (task === null) return this.add({ state: "sound", sentence: "The schedule keeps every rule." });
    const wanted = plan.tasks.findIndex((one) => one.id === task);
    if (wanted < 0) throw new Error(`the plan has no task "${task}"`);
    if (schedule.placements.some((one) => one.task === task))
      return this.add({ state: "placed", sentence: `${plan.tasks[wanted]!.name} is on the day.` });
    return yield* this.left(problem, wanted);
  }

  /**
   * A task on the bench of a sound day: first whether it fits with nothing else moved, or with others started later or earlier, waiting on
   * purpose where that is what it takes; only then what stands against it.
   */
  private *left(problem: Problem, wanted: number): Generator<void, void> {
    const { plan, schedule, settings } = this;
    const { name } = plan.tasks[wanted]!;
    const placed = new Set(schedule.placements.map((one) => one.task));
    const standing = new Set(plan.tasks.flatMap((one, a) => (placed.has(one.id) ? [a] : [])));
    const group = neededFor(problem, wanted, standing);
    const extra = group.map((a) => plan.tasks[a]!.id);
    const along = group.length > 1 ? ` It brings ${group.length - 1} more that it needs.` : "";
    const made =
      (yield* asItStands(problem, schedule, group)) ??
      (yield* solve(plan, schedule, extra, { seed: settings.seed, iterations: 0, waits: WAITS }));
    yield;
    if (made) {
      const way = rearranged(plan, schedule, made, extra);
      const moves = way.moves.length === 0 ? "as the day stands" : "when others start at other times";
      this.add({ state: "fits", sentence: `${name} fits ${moves}.${along}`, relaxations: [way] });
      return;
    }
    const relaxed = new RelaxedProblem(problem);
    const cycle = cycleInOnlyPlace(relaxed, schedule, wanted);
    yield;
    const conflict = yield* conflictOf(relaxed, schedule, wanted, group, cycle);
    // Where the trial found a place and no whole schedule came of it, nothing is known against it.
    this.tell(problem, conflict ?? UNKNOWN, along);
    yield* this.relax(problem, extra, group, conflict);
  }

  /** A schedule that breaks rules. */
  private *broken(problem: Problem): Generator<void, void> {
    const { schedule } = this;
    const relaxed = new RelaxedProblem(problem);
    this.add({ task: null });
    const conflict =
      (yield* conflictOf(relaxed, schedule, null, [], ownCycle(relaxed, schedule))) ??
      (yield* conflictOf(relaxed, schedule, null, [], null, "as it stands"));
    if (conflict) this.tell(problem, conflict, "");
    yield* this.relax(problem, [], [], conflict);
  }

  private tell(problem: Problem, conflict: Conflict, along: string): void {
    const where = placesOf(this.plan, this.schedule);
    const worded = sayConflict(problem, conflict, this.report.task, where);
    this.add({
      state: "conflict",
      conflict: worded,
      sentence: `${worded.sentence}${along}`,
      guarded: guardedIn(problem, conflict.causes),
    });
  }

  /** What could be given up: nothing where rearranging is enough, else every relaxation in turn. */
  private *relax(
    problem: Problem,
    extra: readonly string[],
    group: readonly number[],
    conflict: Conflict | null,
  ): Generator<void, void> {
    const { plan, schedule, settings } = this;
    yield;
    const iterations = settings.iterations ?? ITERATIONS;
    const effort = { seed: settings.seed, iterations, waits: WAITS_A_CHANGE };
    for (const one of [effort, { ...effort, iterations: REARRANGING * iterations }]) {
      const made = yield* solve(plan, schedule, extra, one);
      if (!made) continue;
      this.add({ state: "rearranged", relaxations: [rearranged(plan, schedule, made, extra)] });
      return;
    }
    const moved = yield* elsewhere(plan, schedule, extra, WAITS / 4);
    if (moved) {
      this.add({ state: "rearranged", relaxations: [rearranged(plan, schedule, moved, extra)] });
      return;
    }
    const causes = conflict?.causes ?? causesOf(problem, schedule, group);
    const candidates = relaxationsOf(problem, schedule, group, causes);
    this.add({ offers: candidates.length });
    const found: TriedRelaxation[] = [];
    const exchanged = yield* exchange(plan, schedule, extra, effort);
    if (exchanged) {
      found.push(exchanged);
      this.add({ relaxations: found });
    }
    for (const candidate of candidates) {
      const taken = found.some(
        (one) => one.subject === candidate.subject && candidate.unless?.includes(one.kind as never),
      );
      const one = taken ? null : yield* fewestSteps(plan, schedule, extra, candidate, effort);
      // One task alone may be what the exchange came to.
      if (one && !found.some((old) => sameDrop(old, one))) found.push(one);
      this.add({
        tried: this.report.tried + 1,
        ...(one ? { relaxations: [...found].sort(compareCosts) } : {}),
      });
    }
  }

  private add(more: Partial<WhyReport<TriedRelaxation>>): void {
    this.report = { ...this.report, ...more };
  }
}

function sameDrop(a: TriedRelaxation, b: TriedRelaxation): boolean {
  return (
    a.dropped.length > 0 &&
    a.dropped.length === b.dropped.length &&
    a.dropped.every((id) => b.dropped.includes(id))
  );
}

/** Says on which EVA and by whom a task is placed. */
function placesOf(plan: Plan, schedule: Schedule): (task: string) => string {
  return (task) => {
    const one = schedule.placements.find((placement) => placement.task === task);
    if (!one) return "";
    const eva = plan.evas.find((each) => each.id === one.eva);
    const crew = one.crew.map((id) => crewName(plan, id));
    return `${eva ? ` on ${eva.name}` : ""}${crew.length > 0 ? ` with ${crew.join(", ")}` : ""}`;
  };
}
