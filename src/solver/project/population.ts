import type { Random } from "../../kernel/index.ts";
import { type Candidate, candidate, compareCandidates, Justification } from "./justification.ts";
import { OUTSIDE, Peaks } from "./peaks.ts";
import { spanOf } from "./network.ts";
import { finishOf, type Project } from "./problem.ts";

/** Numbers of the search; the defaults were found on generated projects of 30 to 120 activities. */
export interface PopulationOptions {
  /** Members at least; there is one for each activity at least. */
  readonly size: number;
  /** Chance that two neighbours of a child's order are exchanged. */
  readonly swap: number;
  /** Spread of the starting keys, as a share of the critical path. */
  readonly spread: number;
  /** Children without a new best, by member of the population, before all but the best start anew. */
  readonly patience: number;
  /** Chance that a child keeps its father's busiest stretches instead of a random one. */
  readonly peaks: number;
}

export const POPULATION: PopulationOptions = {
  size: 60,
  swap: 0.05,
  spread: 0.25,
  patience: 150,
  peaks: 0.7,
};

/** The load from which on a stretch may count as a peak, as a share of the highest. */
const LEAST_PEAK = 0.6;

/**
 * A hybrid genetic algorithm over activity lists: two-point and peak crossover, neighbour exchange, every child
 * generated serially and justified twice (Hartmann 1998; Valls, Ballestin & Quintanilla 2008, "A hybrid genetic algorithm for
 * the resource-constrained project scheduling problem").
 */
export class Population {
  /** The best schedule met; null before the first step. */
  best: Candidate | null = null;
  readonly #justification: Justification;
  readonly #random: Random;
  readonly #options: PopulationOptions;
  readonly #latest: Int32Array;
  readonly #critical: number;
  #members: Candidate[] = [];
  #growing = true;
  #stale = 0;
  readonly #inherited: Uint8Array;
  readonly #key: Int32Array;
  readonly #rank: Int32Array;
  readonly #peaks: Peaks;

  /** Null where lags go in circles or contradict each other: those projects have no generating orders. */
  static of(project: Project, random: Random, options = POPULATION): Population | null {
    const justification = Justification.of(project);
    const latest = latestStarts(project);
    return justification && latest ? new Population(project, justification, random, options, latest) : null;
  }

  private constructor(
    project: Project,
    justification: Justification,
    random: Random,
    options: PopulationOptions,
    latest: Int32Array,
  ) {
    this.#justification = justification;
    this.#random = random;
    this.#options = { ...options, size: Math.max(options.size, project.activities) };
    this.#latest = latest;
    this.#critical = latest.reduce((most, at) => Math.max(most, at), 1);
    this.#inherited = new Uint8Array(project.activities);
    this.#key = new Int32Array(project.activities);
    this.#rank = new Int32Array(project.activities);
    this.#peaks = new Peaks(project);
  }

  /** Schedules generated so far. */
  get schedules(): number {
    return this.#justification.count;
  }

  /** Makes one more schedule and keeps it if it earns a place. */
  step(): void {
    if (this.#growing) {
      this.#enter(this.#sampled(this.#members.length === 0 ? 0 : this.#options.spread * this.#critical));
      if (this.#members.length >= this.#options.size) this.#growing = false;
      return;
    }
    const members = this.#members;
    const mother = members[this.#random.below(members.length)]!;
    const other = members[this.#random.below(members.length)]!;
    const father = compareCandidates(mother, other) <= 0 ? other : mother;
    const keeper = father === other ? mother : other;
    const child =
      this.#random.next() < this.#options.peaks
        ? this.#peaked(keeper, father)
        : this.#crossed(keeper, father);
    this.#justification.apply(child);
    this.#replace(child);
  }

  /** Takes in a schedule found elsewhere. */
  welcome(start: Int32Array): void {
    const order = new Int32Array(start.length);
    this.#justification.ordering.sort(start, order);
    const one = candidate(order);
    this.#justification.apply(one);
    this.#replace(one);
  }

  #enter(one: Candidate): void {
    this.#members.push(one);
    this.#note(one);
  }

  #note(one: Candidate): void {
    this.#stale += 1;
    if (this.best && compareCandidates(one, this.best) >= 0) return;
    this.best = { ...one, order: one.order.slice(), start: one.start.slice() };
    this.#stale = 0;
  }

  /** The worst member gives way to `child` unless it is better or an equal of the child stands already. */
  #replace(child: Candidate): void {
    this.#note(child);
    const members = this.#members;
    let worst = 0;
    for (let k = 0; k < members.length; k += 1) {
      const member = members[k]!;
      if (member.finish === child.finish && sameStarts(member.start, child.start)) return;
      if (compareCandidates(member, members[worst]!) >= 0) worst = k;
    }
    if (members.length < this.#options.size) members.push(child);
    else if (compareCandidates(child, members[worst]!) <= 0) members[worst] = child;
    if (this.#stale > this.#options.patience * this.#options.size) {
      this.#members = [];
      this.#growing = true;
      this.#stale = 0;
    }
  }

  /** A fresh schedule by latest starts, shifted at random by up to `spread`. */
  #sampled(spread: number): Candidate {
    const key = this.#latest.map((latest) => latest + Math.floor(this.#random.between(0, spread)));
    const one = candidate(new Int32Array(key.length));
    this.#justification.ordering.sort(key, one.order);
    this.#justification.apply(one);
    return one;
  }

  /**
   * The busiest stretches of the father's schedule stay together (peak crossover: Valls, Ballestin & Quintanilla 2008):
   * what runs in one of them follows in his sequence, at the place in the mother's order where its middle stands.
   */
  #peaked(mother: Candidate, father: Candidate): Candidate {
    const n = mother.order.length;
    const key = this.#key;
    const rank = this.#rank;
    mother.order.forEach((a, k) => {
      rank[a] = k;
      key[a] = k * n;
    });
    const { order, start } = father;
    const peaks = this.#peaks;
    peaks.read(start, this.#random.between(LEAST_PEAK, 1));
    for (let from = 0; from < n;) {
      const peak = peaks.peakAt(start[order[from]!]!);
      let until = from;
      let sum = 0;
      for (; until < n && peaks.peakAt(start[order[until]!]!) === peak; until += 1)
        sum += rank[order[until]!]!;
      const middle = Math.floor(sum / (until - from)) * n;
      if (peak !== OUTSIDE) for (let k = from; k < until; k += 1) key[order[k]!] = middle + k - from;
      from = until;
    }
    const child = candidate(new Int32Array(n));
    this.#justification.ordering.pull(key);
    this.#justification.ordering.sort(key, child.order);
    this.#exchange(child.order);
    return child;
  }

  /** The middle of the order comes from `father`, both ends from `mother`, each in the parent's sequence. */
  #crossed(mother: Candidate, father: Candidate): Candidate {
    const n = mother.order.length;
    const inherited = this.#inherited.fill(0);
    const child = candidate(new Int32Array(n));
    const cuts = [this.#random.below(n), this.#random.below(n)];
    const from = Math.min(...cuts);
    const until = Math.max(...cuts);
    let filled = 0;
    const take = (order: Int32Array, end: number): void => {
      for (let k = 0; k < n && filled < end; k += 1) {
        const a = order[k]!;
        if (inherited[a] === 1) continue;
        inherited[a] = 1;
        child.order[filled++] = a;
      }
    };
    take(mother.order, from);
    take(father.order, until);
    take(mother.order, n);
    this.#exchange(child.order);
    return child;
  }

  #exchange(order: Int32Array): void {
    for (let k = 0; k + 1 < order.length; k += 1) {
      if (this.#random.next() >= this.#options.swap) continue;
      const a = order[k]!;
      const b = order[k + 1]!;
      if (this.#justification.ordering.waits(a, b)) continue;
      order[k] = b;
      order[k + 1] = a;
    }
  }
}

/** Latest starts for a finish at the end of the critical path; null when lags and openings contradict each other. */
function latestStarts(project: Project): Int32Array | null {
  const span = spanOf(project);
  if (!span) return null;
  const { length, lagFrom, lagTo, lag } = project;
  const finish = finishOf(project, span.earliest);
  const latest = span.latest.map((most, a) => Math.min(most, finish - length[a]!));
  for (let changed = true; changed;) {
    changed = false;
    for (let e = 0; e < lag.length; e += 1) {
      const most = latest[lagTo[e]!]! - lag[e]!;
      if (most >= latest[lagFrom[e]!]!) continue;
      latest[lagFrom[e]!] = most;
      changed = true;
    }
  }
  return latest;
}

function sameStarts(a: Int32Array, b: Int32Array): boolean {
  for (let k = 0; k < a.length; k += 1) if (a[k] !== b[k]) return false;
  return true;
}
