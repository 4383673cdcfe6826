import { spanOf } from "../network.ts";
import { finishOf, type Project } from "../problem.ts";
import { Activities } from "./activities.ts";
import { CLAUSE, DECISION, reasonOf } from "./bounds.ts";
import { Clauses } from "./clauses.ts";
import { Conflict } from "./conflict.ts";
import { type Model, modelOf } from "./model.ts";

/** Numbers of the search. */
export interface LearnerOptions {
  /** How fast old conflicts fade from the activities. */
  readonly decay: number;
  /** Conflicts to the first restart; later ones by Luby's sequence. */
  readonly restart: number;
  /** Clauses kept before the first reduction, and how many more after each. */
  readonly clauses: number;
  readonly clausesMore: number;
}

export const LEARNER: LearnerOptions = { decay: 0.95, restart: 100, clauses: 8000, clausesMore: 500 };

/** found: a schedule. refuted: proved that there is none. open: the conflicts allowed are spent. */
export type Answer = "found" | "refuted" | "open";

/**
 * Exact search that learns from its failures: lazy clause generation on bounds of starts (Ohrimenko, Stuckey & Codish
 * 2009; for projects Schutt, Feydy, Stuckey & Wallace 2011, 2013). Decisions take the most active bound literal, with
 * the sign of the best schedule known; with none left, the activity that can start first starts there.
 */
export class Learner {
  conflicts = 0;
  /** Rises and profile entries looked at so far: a measure of effort that is the same on every machine. */
  work = 0;
  /** Starts of the schedule found last. */
  readonly start: Int32Array;
  readonly #project: Project;
  readonly #options: LearnerOptions;
  readonly #model: Model;
  readonly #clauses: Clauses;
  readonly #conflict: Conflict;
  readonly #activities: Activities;
  readonly #dirty: Uint8Array;
  #sound: boolean;
  #assumed: number | null = null;
  #restarts = 0;
  #untilRestart: number;
  #mostClauses: number;
  #guide: Int32Array | null = null;

  /** Searches for schedules that finish by `atMost`. Null when lags and openings alone contradict each other. */
  static of(project: Project, atMost: number, options = LEARNER): Learner | null {
    const span = spanOf(project);
    return span && new Learner(project, modelOf(project, span, atMost), options);
  }

  private constructor(project: Project, model: Model, options: LearnerOptions) {
    this.#project = project;
    this.#model = model;
    this.#options = options;
    this.start = new Int32Array(project.activities);
    this.#activities = new Activities(model.bounds.low, options.decay);
    this.#clauses = new Clauses(model.bounds);
    this.#conflict = new Conflict(model.bounds, model.arcs, this.#clauses, (bound, value) => {
      this.#activities.bump(bound, value);
    });
    this.#dirty = new Uint8Array(model.timetables.length).fill(1);
    this.#untilRestart = options.restart;
    this.#mostClauses = options.clauses;
    const { low } = model.bounds;
    this.#sound = low.every((value, bound) => value <= -low[bound ^ 1]!) && model.arcs.propagateAll();
    this.#sound &&= this.#propagate();
    if (this.#sound) model.bounds.makeRoot();
  }

  /** No schedule within the limits finishes earlier: proved. Infinity when there is none at all. */
  get lowerBound(): number {
    return this.#sound ? this.#model.bounds.root[2 * this.#model.finish]! : Infinity;
  }

  /** From now on only schedules that finish by `finish` count. */
  limit(finish: number): void {
    this.#backTo(0);
    this.#assumed = null;
    this.#force(2 * this.#model.finish + 1, -finish);
  }

  /** Lets decisions follow this schedule. */
  follow(start: Int32Array): void {
    this.#guide = start.slice();
  }

  /**
   * Goes on searching until an answer, or until `conflicts` more conflicts or `work` more effort. With `assume`, for a
   * finish by that; then "refuted" means there is none by that and the lower bound has risen above it.
   */
  search(assume: number | null, conflicts: number, work = Infinity): Answer {
    const { bounds } = this.#model;
    if (assume !== this.#assumed) this.#backTo(0);
    this.#assumed = assume;
    const until = this.conflicts + conflicts;
    const workUntil = this.work + work;
    while (this.#sound) {
      if (!this.#propagate()) {
        this.conflicts += 1;
        this.#untilRestart -= 1;
        this.#learn();
        continue;
      }
      if (bounds.level === 0) this.#settle();
      if (assume !== null && this.lowerBound > assume) return "refuted";
      if (this.conflicts >= until || this.work >= workUntil) return "open";
      if (this.#untilRestart <= 0 && bounds.level > 0) this.#restart();
      else if (!this.#decide()) return this.#found();
    }
    return "refuted";
  }

  /** Everything that follows from what holds. False on failure, which is then noted in the bounds. */
  #propagate(): boolean {
    const { bounds, timetables } = this.#model;
    for (;;) {
      while (bounds.unseen < bounds.entries) if (!this.#propagateRise(bounds.unseen++)) return false;
      const next = this.#dirty.indexOf(1);
      if (next < 0) return true;
      this.#dirty[next] = 0;
      this.work += timetables[next]!.users.length / 4;
      if (!timetables[next]!.propagate()) return false;
    }
  }

  /** What follows at once from the rise of a bound that is `entry` in the list of rises. */
  #propagateRise(entry: number): boolean {
    const { bounds, arcs, tablesOf, leap } = this.#model;
    const bound = bounds.bound[entry]!;
    for (const table of tablesOf[bound >> 1]!) this.#dirty[table] = 1;
    if (!leap(bound) || !arcs.propagate(bound)) return false;
    if (!this.#clauses.propagate(bound, bounds.before[entry]!, bounds.value[entry]!)) return false;
    this.work += 1;
    return true;
  }

  #learn(): void {
    const { bounds } = this.#model;
    if (bounds.level === 0 || !this.#conflict.analyse()) {
      this.#sound = false;
      return;
    }
    const { clause, backLevel, glue } = this.#conflict;
    this.#activities.decay();
    this.#backTo(backLevel);
    if (clause.length === 2) this.#force(clause[0]!, clause[1]!);
    else bounds.raise(clause[0]!, clause[1]!, reasonOf(CLAUSE, this.#clauses.add(clause, glue)));
  }

  /** Makes a literal true before any decision. */
  #force(bound: number, value: number): void {
    const { bounds } = this.#model;
    if (!bounds.raise(bound, value, DECISION)) this.#sound = false;
  }

  /** Opens a level with the next decision. False when every start is decided. */
  #decide(): boolean {
    const { bounds, finish } = this.#model;
    const { low } = bounds;
    if (bounds.level === 0 && this.#assumed !== null && -low[2 * finish + 1]! > this.#assumed) {
      return this.#take(2 * finish + 1, -this.#assumed);
    }
    const id = this.#activities.pick();
    if (id >= 0) {
      const x = this.#activities.variable[id]!;
      const value = this.#activities.value[id]!;
      return this.#isHigh(x, value) ? this.#take(2 * x, value) : this.#take(2 * x + 1, 1 - value);
    }
    const first = this.#firstOpen();
    return first >= 0 && this.#take(2 * first + 1, -low[2 * first]!);
  }

  /** The activity with an open start that can start first, of equal ones the one that has to; -1 when every start is decided. */
  #firstOpen(): number {
    const { low } = this.#model.bounds;
    let first = -1;
    for (let a = 0; a < this.#project.activities; a += 1) {
      if (low[2 * a] === -low[2 * a + 1]!) continue;
      const sooner = first < 0 ? -1 : low[2 * a]! - low[2 * first]! || low[2 * first + 1]! - low[2 * a + 1]!;
      if (sooner < 0) first = a;
    }
    return first;
  }

  /** Whether the schedule that guides has variable `x` at `value` or above; without one, early is better. */
  #isHigh(x: number, value: number): boolean {
    const guide = this.#guide;
    const { finish, firstOrder, orders } = this.#model;
    if (!guide || x === finish) return false;
    if (x < finish) return guide[x]! >= value;
    const [a, b] = orders[x - firstOrder]!;
    return guide[a]! <= guide[b]!;
  }

  #take(bound: number, value: number): true {
    const { bounds } = this.#model;
    bounds.openLevel();
    this.#activities.openLevel();
    bounds.raise(bound, value, DECISION);
    return true;
  }

  #found(): Answer {
    const { low } = this.#model.bounds;
    for (let a = 0; a < this.#project.activities; a += 1) this.start[a] = low[2 * a]!;
    this.limit(finishOf(this.#project, this.start) - 1);
    this.follow(this.start);
    return "found";
  }

  #restart(): void {
    this.#restarts += 1;
    this.#untilRestart = this.#options.restart * luby(this.#restarts);
    this.#backTo(0);
  }

  /** What holds before any decision holds for good; old clauses go where there are too many. */
  #settle(): void {
    this.#model.bounds.makeRoot();
    if (this.#clauses.count > this.#mostClauses) this.#reduce();
  }

  #reduce(): void {
    this.#clauses.reduce();
    this.#mostClauses = Math.max(this.#mostClauses, this.#clauses.count) + this.#options.clausesMore;
  }

  #backTo(level: number): void {
    this.#model.bounds.backTo(level);
    this.#activities.backTo(level);
  }
}

/** The sequence 1 1 2 1 1 2 4 ... (Luby, Sinclair & Zuckerman 1993), from index 1. */
function luby(index: number): number {
  let power = 1;
  while (2 * power - 1 < index) power *= 2;
  return 2 * power - 1 === index ? power : luby(index - power + 1);
}
