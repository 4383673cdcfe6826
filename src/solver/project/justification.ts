import { Generation, mirrored } from "./generation.ts";
import { Ordering } from "./ordering.ts";
import type { Project } from "./problem.ts";

/** One schedule: an order that generates it, its starts, its finish, and by how much it misses openings. */
export interface Candidate {
  readonly order: Int32Array;
  readonly start: Int32Array;
  finish: number;
  late: number;
}

/** A candidate still to be generated from `order`. */
export function candidate(order: Int32Array): Candidate {
  return { order, start: new Int32Array(order.length), finish: 0, late: 0 };
}

/** Negative when `a` is the better schedule: openings met first, then the earlier finish. */
export function compareCandidates(a: Candidate, b: Candidate): number {
  return a.late - b.late || a.finish - b.finish;
}

/**
 * Double justification (Valls, Ballestin & Quintanilla 2005, "Justification and RCPSP: a technique that pays"): a
 * schedule is generated, pushed to the right in order of its ends, and back to the left in order of the new starts.
 * It never gets longer where nothing but lags and resources binds, and mostly gets shorter.
 */
export class Justification {
  /** Sorts activities so that the lag network is respected. */
  readonly ordering: Ordering;
  readonly #forward: Generation;
  readonly #backward: Generation;
  readonly #backwardOrdering: Ordering;
  readonly #length: Int32Array;
  readonly #key: Int32Array;
  readonly #pushed: Int32Array;
  readonly #order: Int32Array;

  /** For a project whose lags go in no circles; null otherwise. */
  static of(project: Project): Justification | null {
    const mirror = mirrored(project);
    const ordering = Ordering.of(project);
    const backward = Ordering.of(mirror);
    return ordering && backward ? new Justification(project, mirror, ordering, backward) : null;
  }

  private constructor(project: Project, mirror: Project, ordering: Ordering, backward: Ordering) {
    this.ordering = ordering;
    this.#forward = new Generation(project);
    this.#backward = new Generation(mirror);
    this.#backwardOrdering = backward;
    this.#length = project.length;
    this.#key = new Int32Array(project.activities);
    this.#pushed = new Int32Array(project.activities);
    this.#order = new Int32Array(project.activities);
  }

  /** Schedules generated so far. */
  get count(): number {
    return this.#forward.count + this.#backward.count;
  }

  /** Generates `one` from its order and justifies it; its order becomes that of its starts. */
  apply(one: Candidate): void {
    const length = this.#length;
    const key = this.#key;
    const { order, start } = one;
    this.#generate(one);
    for (let a = 0; a < length.length; a += 1) key[a] = -(start[a]! + length[a]!);
    this.#backwardOrdering.sort(key, this.#order);
    this.#backward.run(this.#order, this.#pushed);
    for (let a = 0; a < length.length; a += 1) key[a] = -(this.#pushed[a]! + length[a]!);
    this.ordering.sort(key, order);
    this.#generate(one);
    this.ordering.sort(start, order);
  }

  #generate(one: Candidate): void {
    one.finish = this.#forward.run(one.order, one.start);
    one.late = this.#forward.late;
  }
}
