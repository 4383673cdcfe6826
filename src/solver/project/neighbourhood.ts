import type { Random } from "../../kernel/index.ts";
import { Learner } from "./learn/learner.ts";
import { finishOf, type Project } from "./problem.ts";

/** Numbers of the search. */
export interface NeighbourhoodOptions {
  /** Activities set free at first, and conflicts allowed for one neighbourhood. */
  readonly free: number;
  readonly conflicts: number;
}

const NEIGHBOURHOOD: NeighbourhoodOptions = { free: 30, conflicts: 200 };

/**
 * Large neighbourhoods of a schedule: its resource flows become precedences (a partial order schedule: Policella,
 * Cesta, Oddi & Smith 2007), those of a group of activities close in time are lifted, and exact search looks for an
 * earlier finish in what is left open (Godard, Laborie & Nuijten 2005, "Randomized large neighborhood search for
 * cumulative scheduling"). The group grows while such searches end, and shrinks when they do not.
 */
export class Neighbourhood {
  /** Effort so far, see Learner. */
  work = 0;
  readonly #project: Project;
  readonly #random: Random;
  readonly #options: NeighbourhoodOptions;
  #free: number;
  /** The neighbourhood in hand: its search, the schedule it is one of, the conflicts it may still have. */
  #learner: Learner | null = null;
  #centre: Int32Array | null = null;
  #conflicts = 0;

  constructor(project: Project, random: Random, options = NEIGHBOURHOOD) {
    this.#project = project;
    this.#random = random;
    this.#options = options;
    this.#free = options.free;
  }

  /**
   * Goes on with the neighbourhood in hand, or opens a random one of `start` when there is none of it, for `work` more
   * effort. Gives a schedule that finishes before `start` does, or null while none was found.
   */
  improve(start: Int32Array, work: number): Int32Array | null {
    if (this.#centre !== start || !this.#learner) this.#open(start);
    const learner = this.#learner;
    if (!learner) return null;
    const { conflicts, work: before } = learner;
    const answer = learner.search(null, this.#conflicts, work);
    this.#conflicts -= learner.conflicts - conflicts;
    this.work += learner.work - before;
    if (answer === "open" && this.#conflicts > 0) return null;
    this.#learner = null;
    if (answer === "refuted") this.#free = Math.min(this.#free + 0.25, this.#project.activities);
    if (answer === "open") this.#free = Math.max(this.#free - 0.5, 5);
    return answer === "found" ? learner.start : null;
  }

  #open(start: Int32Array): void {
    const project = this.#project;
    const free = this.#chosen(start);
    const kept = flowsOf(project, start, this.#random).filter(([a, b]) => free[a] === 0 && free[b] === 0);
    const narrowed: Project = {
      ...project,
      lagFrom: joined(
        project.lagFrom,
        kept.map(([a]) => a),
      ),
      lagTo: joined(
        project.lagTo,
        kept.map(([, b]) => b),
      ),
      lag: joined(
        project.lag,
        kept.map(([a]) => project.length[a]!),
      ),
    };
    this.#centre = start;
    this.#conflicts = this.#options.conflicts;
    this.#learner = Learner.of(narrowed, finishOf(project, start) - 1);
    this.#learner?.follow(start);
    this.work += narrowed.lag.length + (this.#learner?.work ?? 0);
  }

  /** 1 for the activities nearest in time to a random moment. */
  #chosen(start: Int32Array): Uint8Array {
    const { activities, length } = this.#project;
    const moment = this.#random.below(finishOf(this.#project, start) + 1);
    const distance = Float64Array.from(
      start,
      (at, a) => Math.max(at - moment, moment - at - length[a]!, 0) + this.#random.next() * 3,
    );
    const limit = distance.slice().sort()[Math.min(Math.floor(this.#free), activities - 1)]!;
    return Uint8Array.from(distance, (far) => (far < limit ? 1 : 0));
  }
}

/** Who has so many units of a resource; -1 where nobody has had them yet. */
interface Holder {
  readonly who: number;
  units: number;
}

/** Precedences that keep every resource within capacity: units are handed on from who ends to who starts. */
function flowsOf(project: Project, start: Int32Array, random: Random): [number, number][] {
  const { activities, resources, capacity, demand, length } = project;
  const order = Array.from(start.keys()).sort((a, b) => start[a]! - start[b]!);
  const flows = new Set<number>();
  for (let r = 0; r < resources; r += 1) {
    /** Who holds units last, and how many. */
    let holders: Holder[] = [{ who: -1, units: capacity[r]! }];
    for (const b of order) {
      const need = demand[b * resources + r]!;
      if (need === 0) continue;
      const offer = holders.filter(({ who }) => who < 0 || start[who]! + length[who]! <= start[b]!);
      // Who hands on to `b` already comes first, then who ends last, of equal ones any; what nobody has had yet comes last.
      const rank = (who: number): number => (who < 0 ? 0 : flows.has(who * activities + b) ? 2 : 1);
      const last = (who: number): number =>
        rank(who) === 1 ? start[who]! + length[who]! + random.next() : 0;
      offer.sort((x, y) => {
        const later = last(y.who) - last(x.who);
        return rank(y.who) - rank(x.who) || later;
      });
      for (const who of handOn(offer, need)) if (who >= 0) flows.add(who * activities + b);
      holders = holders.filter(({ units }) => units > 0);
      holders.push({ who: b, units: need });
    }
  }
  return [...flows].map((code) => [Math.floor(code / activities), code % activities]);
}

/** Takes `need` units from the first of `offer`, and gives who handed some on. */
function handOn(offer: readonly Holder[], need: number): number[] {
  const givers: number[] = [];
  let left = need;
  for (const holder of offer) {
    if (left === 0) break;
    const units = Math.min(left, holder.units);
    holder.units -= units;
    left -= units;
    givers.push(holder.who);
  }
  return givers;
}

function joined(array: Int32Array, more: readonly number[]): Int32Array {
  const all = new Int32Array(array.length + more.length);
  all.set(array);
  all.set(more, array.length);
  return all;
}
