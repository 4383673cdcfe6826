import { type Lanes, lanesOf } from "./lanes.ts";
import { adjacency } from "./network.ts";
import { openingFrom } from "./network.ts";
import type { Project } from "./problem.ts";
import { Timeline } from "./timeline.ts";

/**
 * Serial schedule generation (Kelley 1963; Kolisch & Hartmann 1999, "Heuristic algorithms for solving the
 * resource-constrained project scheduling problem"): activities in a given order, each at its earliest start that
 * lags, openings and resources leave. For projects whose lags go in no circles; the order must respect them.
 */
export class Generation {
  /** Schedules generated so far. */
  count = 0;
  /** Units by which starts lie past their last opening in the latest schedule; 0 when all are met. */
  late = 0;
  readonly #project: Project;
  readonly #lanes: Lanes;
  readonly #timeline: Timeline;
  readonly #intoStart: Int32Array;
  readonly #intoFrom: Int32Array;
  readonly #intoLag: Int32Array;
  readonly #startStretch: Int32Array;
  readonly #endStretch: Int32Array;
  readonly #first: Int32Array;
  readonly #last: Int32Array;
  #hint = 0;
  /** 1 where an activity has more than one opening. */
  readonly #holes: Uint8Array;

  constructor(project: Project) {
    const { activities, lagFrom, lagTo, lag, openStart, openFrom, openTo } = project;
    this.#project = project;
    this.#lanes = lanesOf(project);
    this.#timeline = new Timeline(this.#lanes, activities);
    const into = adjacency(activities, lagTo);
    this.#intoStart = into.start;
    this.#intoFrom = into.list.map((edge) => lagFrom[edge]!);
    this.#intoLag = into.list.map((edge) => lag[edge]!);
    this.#startStretch = new Int32Array(activities);
    this.#endStretch = new Int32Array(activities);
    const each = Array.from({ length: activities }, (_, a) => a);
    this.#first = Int32Array.from(each, (a) => openFrom[openStart[a]!]!);
    this.#last = Int32Array.from(each, (a) => openTo[openStart[a + 1]! - 1]!);
    this.#holes = Uint8Array.from(each, (a) => (openStart[a + 1]! - openStart[a]! > 1 ? 1 : 0));
  }

  /** Writes starts into `start` and gives the finish. Starts past their openings are counted in `late`. */
  run(order: Int32Array, start: Int32Array): number {
    const { activities, length } = this.#project;
    const timeline = this.#timeline;
    timeline.clear();
    this.count += 1;
    this.late = 0;
    let finish = 0;
    for (let k = 0; k < activities; k += 1) {
      const a = order[k]!;
      const at = this.#place(a, this.#earliest(a, start), this.#hint);
      start[a] = at;
      if (at > this.#last[a]!) this.late += at - this.#last[a]!;
      if (at + length[a]! > finish) finish = at + length[a]!;
    }
    return finish;
  }

  /** The earliest start of `a` that lags allow; `hint` becomes the stretch of the timeline to look from. */
  #earliest(a: number, start: Int32Array): number {
    const { length } = this.#project;
    let from = this.#first[a]!;
    let hint = 0;
    for (let e = this.#intoStart[a]!; e < this.#intoStart[a + 1]!; e += 1) {
      const before = this.#intoFrom[e]!;
      const lag = this.#intoLag[e]!;
      const reach = start[before]! + lag;
      if (reach < from) continue;
      from = reach;
      if (lag >= length[before]!) hint = this.#endStretch[before]!;
      else hint = lag >= 0 ? this.#startStretch[before]! : 0;
    }
    this.#hint = hint;
    return from;
  }

  #place(a: number, earliest: number, earliestHint: number): number {
    const timeline = this.#timeline;
    const length = this.#project.length[a]!;
    let from = earliest;
    let hint = earliestHint;
    for (;;) {
      if (this.#holes[a] === 1) from = openingFrom(this.#project, a, from);
      if (this.#lanes.uses[a] === 0) {
        this.#startStretch[a] = hint;
        this.#endStretch[a] = hint;
        return from;
      }
      const at = timeline.firstFit(a, length, from, hint);
      hint = timeline.startStretch;
      const open = this.#holes[a] === 1 ? openingFrom(this.#project, a, at) : at;
      if (open === at) {
        timeline.take(a, length, at, hint);
        this.#startStretch[a] = timeline.startStretch;
        this.#endStretch[a] = timeline.endStretch;
        return at;
      }
      from = open;
    }
  }
}

/**
 * The project seen in a mirror: time runs from the last end back to the first start, so that generating it forward
 * pushes the activities to the right. Openings are left out: the way back only orders.
 */
export function mirrored(project: Project): Project {
  const { activities, length, lagFrom, lagTo, lag } = project;
  return {
    ...project,
    lagFrom: lagTo,
    lagTo: lagFrom,
    lag: lag.map((least, edge) => least + length[lagTo[edge]!]! - length[lagFrom[edge]!]!),
    openStart: Int32Array.from({ length: activities + 1 }, (_, a) => a),
    openFrom: new Int32Array(activities),
    openTo: new Int32Array(activities).fill(0x3fffffff),
  };
}
