import type { Schedule } from "../../../plan/index.ts";
import type { Board } from "../../network/board.ts";
import type { Problem } from "../../problem/problem.ts";
import { readSound } from "../../network/verify.ts";
import { type Cause, keyOf } from "./cause.ts";
import { neededFor } from "../trial/needs.ts";
import { pairsHold } from "../../network/rules/pairs.ts";
import { Trial } from "../trial/trial.ts";
import { onlyCauses, type RelaxedProblem, provable } from "./relaxedproblem.ts";
import { changed } from "../../problem/changed.ts";

/**
 * fits: here is one that does. fails: proved that none does. none: the search found none, beside placed tasks that it could lay.
 * open: not known, as there were too many places to try or the placed tasks do not stand without those let go (crew members keep
 * each other company).
 */
export type Consistency = "fits" | "fails" | "none" | "open";

/** Places tried in one question before it is left open. */
const MOST_TRIES = 400;

/** Asks how a schedule is taken: its order kept and starts free to slide, or every start as it is. */
export type Scope = "in this order" | "as it stands";

/**
 * The fast question behind a conflict: with the placed tasks in their order, on their EVAs and with their crew, is there a place
 * for the wanted task and whatever it needs? Asked under any part of the causes; fewer causes never make it harder.
 */
export class ConsistencyCheck {
  readonly relaxed: RelaxedProblem;
  private readonly schedule: Schedule;
  private readonly wanted: number | null;
  private readonly scope: Scope;
  private readonly placed: ReadonlySet<number>;
  private readonly known = new Map<string, Consistency>();

  /** `wanted` null: whether the schedule alone can be flown, in its order or as it stands. */
  constructor(relaxed: RelaxedProblem, schedule: Schedule, wanted: number | null, scope: Scope) {
    this.relaxed = relaxed;
    this.schedule = schedule;
    this.wanted = wanted;
    this.scope = scope;
    const { tasks } = relaxed.problem.plan;
    const placed = new Set(schedule.placements.map((one) => one.task));
    this.placed = new Set(tasks.flatMap((task, a) => (placed.has(task.id) ? [a] : [])));
  }

  /** The answer under `causes`, placements among them; in slices. */
  *ask(causes: readonly Cause[]): Generator<void, Consistency> {
    const key = causes.map(keyOf).sort().join();
    let answer = this.known.get(key);
    if (answer === undefined) {
      answer = yield* this.work(causes);
      yield;
      this.known.set(key, answer);
    }
    return answer;
  }

  private *work(causes: readonly Cause[]): Generator<void, Consistency> {
    const holds = onlyCauses(causes);
    const problem = this.relaxed.under(holds);
    const { tasks } = problem.plan;
    const staying = new Set(
      causes.flatMap(({ kind, about }) => (kind === "placement" ? [tasks[about]!.id] : [])),
    );
    const kept = { placements: this.schedule.placements.filter((one) => staying.has(one.task)) };
    if (this.scope === "as it stands") return this.asItStands(problem, kept);
    const provablePart = provable(problem);
    const asIs = problem.checkLevel === "network" && provablePart.chains === problem.chains;
    const proof = yield* this.inOrder(provablePart, kept);
    if (proof !== "fits" || asIs) return proof;
    const answer = yield* this.inOrder(problem, kept);
    return answer === "fails" ? "none" : answer;
  }

  /** The maker's own check of the starts as they are: exact, so the answer is always known. */
  private asItStands(problem: Problem, kept: Schedule): Consistency {
    return readSound(changed(problem, { needs: this.missing(problem) }), kept) ? "fits" : "fails";
  }

  /** Needs that are on the bench: one that is placed counts as met even where a part of the causes lets it go. */
  private missing(problem: Problem): number[][] {
    return problem.needs.map((list) => list.filter((b) => !this.placed.has(b)));
  }

  /** What is kept stands in its order and slides; what is wanted goes wherever there is room. */
  private *inOrder(problem: Problem, kept: Schedule): Generator<void, Consistency> {
    const trial = Trial.of(problem, kept);
    if (!trial) return this.wanted === null || problem.checkLevel === "network" ? "fails" : "open";
    const { board } = trial.day;
    if (!pairsHold(board) || !loadsHold(board)) return "fails";
    if (this.missing(problem).some((list, a) => board.placed[a] === 1 && list.length > 0)) return "fails";
    if (this.wanted === null) return "fits";
    const group = neededFor(problem, this.wanted, this.placed);
    const found = yield* trial.placeGroup(group, { tries: MOST_TRIES, waits: 0 });
    return found === null ? "open" : found ? "fits" : "fails";
  }
}

/** container and return-mass of what is placed. */
function loadsHold(board: Board): boolean {
  const { loads } = board.problem;
  return (
    board.returnGrams <= loads.returnGrams &&
    board.grams.every((grams, c) => grams <= loads.holdsGrams[c]!) &&
    board.millilitres.every((millilitres, c) => millilitres <= loads.holdsMillilitres[c]!)
  );
}
