import type { Random } from "../../kernel/index.ts";
import { Board, NO_FLOOR } from "../network/board.ts";
import type { Day } from "../network/day.ts";
import { drawn } from "./drawn.ts";
import { Insertion } from "./insertion.ts";
import { Linger, type Placing } from "./linger.ts";
import type { Problem } from "../problem/problem.ts";

/** An activity is overlooked at a place with this probability (Christiaens & Vanden Berghe 2020). */
export const BLINK = 0.01;

/** The second of two that are placed at once is one of so many nearest ones. */
const FEW_NEAR = 4;
/** An EVA is begun with so many of the nearest ones. */
const AROUND = 10;
/** Orders in which the day is filled, and how often each is taken. */
const ORDERS: readonly RecreateOrder[] = [
  { name: "worth", share: 0.6 },
  { name: "any", share: 0.05 },
  { name: "worth for length and room", share: 0.3 },
  { name: "room", share: 0.05 },
];
/** The same where not isCrowded. */
const ORDERS_OF_FEW: readonly RecreateOrder[] = [
  { name: "worth", share: 0.4 },
  { name: "any", share: 0.2 },
  { name: "worth for length and room", share: 0.2 },
  { name: "room", share: 0.2 },
];
/** With fewer activities every order comes up in time, and any of them may be the one. */
const FEW = 30;
/** What the way counts beside time at work in an order around an activity: it is walked there and back. */
const WAYS = 2;
/** Starts that are tried for two at once. */
const TWO_TRIES = 4;

/** By what an order goes, low ones first, and how often it is taken. Its ranks are worked out in `rankOf`: a call for each would be dear there. */
interface RecreateOrder {
  readonly name: "worth" | "any" | "worth for length and room" | "room";
  readonly share: number;
}

/**
 * Recreate: puts left-out activities back one after the other, each with what it needs, in a noisy order of one of
 * several kinds, each at its best place with blinks (Christiaens & Vanden Berghe 2020).
 */
export class Recreate {
  readonly insertion: Insertion;
  readonly day: Day;
  /** Chance that a left-out optional activity is offered at all when the day is filled. */
  offered = 1;
  /** Chance that a place is overlooked when the day is filled: the greater, the less what is left out goes where it costs least. */
  blink = BLINK;
  /** Whether, when the day is filled, what is required goes after what is required and comes before it by a link. */
  inOrder = false;
  /** An activity around which the day is filled: what is worth most for its time and the way from there goes first; -1 for none. */
  around = -1;
  /** By how much more worth what is required counts in that order; where it is 0 that goes first, as always. */
  requiredWorth = 0;
  private readonly orders: readonly RecreateOrder[];
  private readonly problem: Problem;
  private readonly random: Random;
  private readonly order: Int32Array;
  private readonly key: Float64Array;
  /** 1 for what is required, which goes first. */
  private readonly required: Uint8Array;
  private readonly before: Board;
  private readonly failed: Uint8Array;
  /** Room that an activity's windows leave for its start, s. */
  private readonly roomS: Float64Array;
  private readonly possible: Int32Array;
  private readonly linger: Linger;

  /** Quickly: see Insertion. */
  constructor(day: Day, random: Random, quick = false) {
    this.day = day;
    this.problem = day.problem;
    this.random = random;
    this.insertion = new Insertion(day, random, quick);
    const { problem } = day;
    this.orders = isCrowded(problem) ? ORDERS : ORDERS_OF_FEW;
    this.linger = new Linger(day.board, random);
    this.order = new Int32Array(problem.activities);
    this.key = new Float64Array(problem.activities);
    this.required = new Uint8Array(problem.activities);
    this.before = new Board(problem);
    this.failed = new Uint8Array(problem.activities);
    this.roomS = roomOf(problem);
    const possible: number[] = [];
    for (let a = 0; a < problem.activities; a += 1) if (this.roomS[a]! >= 0) possible.push(a);
    this.possible = Int32Array.from(possible);
  }

  /** Fills the day with what is left out. */
  fill(): void {
    const { order, key, required, random } = this;
    const { board } = this.day;
    const { placed } = board;
    const { name } = drawn(this.orders, random.next());
    let count = 0;
    for (const a of this.possible) {
      if (placed[a] === 1) continue;
      required[a] = this.goesFirst(a) ? 1 : 0;
      if (this.offered < 1 && required[a] === 0 && random.next() >= this.offered) continue;
      key[a] = this.keyOf(a, name, random.next());
      order[count] = a;
      count += 1;
    }
    sortBy(order, required, key, count);
    this.failed.fill(0);
    for (let k = 0; k < count; k += 1) {
      const a = order[k]!;
      if (placed[a] === 1) continue;
      if (this.inOrder && required[a] === 1) this.placeBefore(a);
      this.place(a, this.blink);
    }
    this.failed.fill(0);
  }

  /**
   * Places what is required and comes before `a`, which is required, by a link. Where the last of a chain goes first, the others may leave nothing
   * between them for the one in the middle, for good: room is only made for what is left out.
   */
  private placeBefore(a: number): void {
    const { required } = this;
    const { edges, activities } = this.problem;
    const { placed } = this.day.board;
    // Once only, so that a circle of links ends.
    required[a] = 0;
    for (let k = edges.intoStart[a]!; k < edges.intoStart[a + 1]!; k += 1) {
      const x = edges.into[k]!;
      const before = edges.from[x]!;
      if (edges.weight[x]! <= 0 || before >= activities || required[before] === 0 || placed[before] === 1)
        continue;
      this.placeBefore(before);
      this.place(before, this.blink);
    }
  }

  private goesFirst(a: number): boolean {
    return this.requiredWorth === 0 && this.day.board.isRequired(a);
  }

  private keyOf(a: number, order: RecreateOrder["name"], noise: number): number {
    return this.around < 0 ? this.rankOf(a, order, noise) : this.rankAround(a, noise);
  }

  /** Where `a` comes in an order, low ones first. */
  private rankOf(a: number, order: RecreateOrder["name"], noise: number): number {
    const roomS = this.roomS[a]!;
    const value = this.day.board.worthWith(a) + 1e-3;
    switch (order) {
      case "worth":
        return -value * (0.6 + 0.8 * noise);
      case "any":
        return noise;
      case "worth for length and room":
        return (-value * value * (0.7 + 0.6 * noise)) / (this.problem.lengthS[a]! + 1 + roomS * 0.1);
      case "room":
        return roomS * (0.5 + noise);
    }
  }

  /** Where `a` comes in an order around an activity, low ones first: by worth for its crew time and the way there. */
  private rankAround(a: number, noise: number): number {
    const { problem, around } = this;
    const { board } = this.day;
    const wayS = problem.legS[0]?.[problem.endsAt[around]! * problem.places + problem.beginsAt[a]!] ?? 0;
    const worth = board.worthWith(a) + 1e-3 + (board.isRequired(a) ? this.requiredWorth : 0);
    return (-worth * (0.9 + 0.2 * noise)) / (1 + problem.lengthS[a]! * problem.crewCount[a]! + WAYS * wayS);
  }

  /**
   * Begins an empty EVA with `activity` and the nearest of `near` to it: where two have to stay together, neither goes far away alone, so
   * that one task after the other never leads there.
   */
  begin(activity: number, near: Int32Array): void {
    this.placeTwo(activity, near);
    this.place(activity, 0);
    for (let k = 0; k < Math.min(AROUND, near.length); k += 1) this.place(near[k]!, BLINK);
  }

  /** Places `activity` with everything it needs, or nothing at all. */
  place(activity: number, blink: number): boolean {
    const { needs } = this.problem;
    if (this.day.board.placed[activity] === 1) return true;
    if (needs[activity]!.length === 0) return this.insertion.place(activity, blink);
    const { board } = this.day;
    const group: number[] = [];
    this.gather(activity, group);
    if (group.length === 1) return this.insertion.place(activity, blink);
    // Within one fill, what failed alone fails again in a larger group.
    for (const one of group) if (this.failed[one] === 1) return false;
    this.before.copy(board);
    for (const one of group) {
      if (this.insertion.place(one, blink)) continue;
      board.copy(this.before);
      if (one === group[0]) this.failed[one] = 1;
      return false;
    }
    return true;
  }

  /**
   * Places `activity` and another of `near` on two people of one EVA at once, nearest in time, with rests and holds of the EVA worked out
   * anew, and where that does not hold with one of them later on purpose: neither may go far away alone where the two have to stay
   * together, or rests while it waits for the other.
   */
  placeTwo(activity: number, near: Int32Array): boolean {
    const { problem } = this;
    const { board } = this.day;
    const other = this.isSingle(activity) ? this.oneOf(near) : -1;
    if (other < 0) return false;
    const first = this.anyRoute(activity, -1, -1);
    if (first < 0) return false;
    const second = this.anyRoute(other, problem.evaOfRoute[first]!, first);
    if (second < 0) return false;
    const here = this.gapFor(activity, first, -1);
    if (here < 0) return false;
    const i = board.nodeOf[here]!;
    const there = this.gapFor(other, second, board.earliest[i]! + problem.lengthS[i]!);
    if (there < 0 || !board.holdsBoth(activity, other)) return false;
    return this.tryBoth({ activity, behind: here }, { activity: other, behind: there }, first);
  }

  /** One of the first few of `near` that can be placed alone; the last of them where there are fewer, -1 where there is none. */
  private oneOf(near: Int32Array): number {
    let one = -1;
    let skip = this.random.below(FEW_NEAR);
    for (let k = 0; k < near.length && skip >= 0; k += 1) {
      if (!this.isSingle(near[k]!)) continue;
      one = near[k]!;
      skip -= 1;
    }
    return one;
  }

  /** Places two at once on the EVA of route `r`: as soon as they can, then with one of them later on purpose. */
  private tryBoth(one: Placing, two: Placing, r: number): boolean {
    const { problem, random, before, day } = this;
    const { board } = day;
    const eva = problem.evaOfRoute[r]!;
    before.copy(board);
    for (let tried = 0; tried < TWO_TRIES; tried += 1) {
      const [late, soon] = random.next() < 0.5 ? [one, two] : [two, one];
      const floorS = tried === 0 ? NO_FLOOR : this.linger.laterThan(late, soon);
      board.link(one.activity, [one.behind], eva);
      board.link(two.activity, [two.behind], eva);
      board.floorS[late.activity] = floorS;
      if (day.settleFrom(before)) return true;
      board.copy(before);
    }
    return false;
  }

  /** True for what is left out and asks for one crew member, no equipment and nobody else. */
  isSingle(a: number): boolean {
    const { problem } = this;
    const { board } = this.day;
    return (
      board.placed[a] === 0 &&
      this.roomS[a]! >= 0 &&
      problem.crewCount[a] === 1 &&
      problem.slotStart[a + 1]! - problem.slotStart[a]! === 1 &&
      problem.pairs[a]!.length === 0 &&
      problem.needs[a]!.every((one) => board.placed[one] === 1) &&
      !board.isOver(a)
    );
  }

  /** A random route for `a`, on EVA `eva` where one is given and never `but`; -1 when there is none. */
  private anyRoute(a: number, eva: number, but: number): number {
    const { problem, random } = this;
    const first = problem.choiceStart[a]!;
    const count = problem.choiceStart[a + 1]! - first;
    if (count === 0) return -1;
    const from = random.below(count);
    for (let k = 0; k < count; k += 1) {
      const r = problem.choiceRoutes[problem.choiceAt[first + ((from + k) % count)]!]!;
      if (r !== but && (eva < 0 || problem.evaOfRoute[r] === eva)) return r;
    }
    return -1;
  }

  /** The slot on route `r` behind which `a` has room, of those the one left nearest to `nearS`, any where that is negative; else -1. */
  private gapFor(a: number, r: number, nearS: number): number {
    const { problem, random } = this;
    const { board } = this.day;
    const { lengthS, beginsAt, endsAt, places } = problem;
    const legs = problem.legS[r]!;
    let best = -1;
    let bestKey = Infinity;
    for (let p = board.head + r; p !== board.tail + r; p = board.next[p]!) {
      const i = board.nodeOf[p]!;
      const j = board.nodeOf[board.next[p]!]!;
      const doneS = board.earliest[i]! + lengthS[i]!;
      const startS = doneS + legs[endsAt[i]! * places + beginsAt[a]!]!;
      if (startS + lengthS[a]! + legs[endsAt[a]! * places + beginsAt[j]!]! > board.latest[j]!) continue;
      const key = nearS < 0 ? random.next() : Math.abs(doneS - nearS);
      if (key >= bestKey) continue;
      best = p;
      bestKey = key;
    }
    return best;
  }

  /** What has to go on with `activity`, needed ones first. */
  private gather(activity: number, group: number[], seen: Set<number> = new Set()): void {
    if (seen.has(activity) || this.day.board.placed[activity] === 1) return;
    seen.add(activity);
    for (const one of this.problem.needs[activity]!) this.gather(one, group, seen);
    group.push(activity);
  }
}

/** True where many activities ask for a place and more than slack decides on it: a search then has too few turns for orders that seldom lead anywhere. */
export function isCrowded({ activities, checkLevel }: Problem): boolean {
  return activities >= FEW && checkLevel !== "slack";
}

/** Sorts the first `count` of `order`, what is `required` first, then by key (Shell 1959): no closure is made and no list copied. */
function sortBy(order: Int32Array, required: Uint8Array, key: Float64Array, count: number): void {
  for (const gap of GAPS) {
    for (let k = gap; k < count; k += 1) {
      const a = order[k]!;
      const value = key[a]!;
      const first = required[a]!;
      let at = k;
      for (; at >= gap; at -= gap) {
        const b = order[at - gap]!;
        if (required[b]! > first || (required[b] === first && key[b]! <= value)) break;
        order[at] = b;
      }
      order[at] = a;
    }
  }
}

/** Ciura 2001, Lecture Notes in Computer Science 2138:106. */
const GAPS = [701, 301, 132, 57, 23, 10, 4, 1];

/** Room for the start of each activity; -1 where it can never be placed. */
function roomOf(problem: Problem): Float64Array {
  return Float64Array.from({ length: problem.activities }, (_, a) => {
    const first = problem.openStart[a]!;
    const last = problem.openStart[a + 1]! - 1;
    if (last < first || problem.choiceStart[a] === problem.choiceStart[a + 1]) return -1;
    let room = problem.crewCount[a] === 0 ? problem.openToS[last]! - problem.openFromS[first]! : -1;
    for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1) {
      if (problem.crewCount[a] === 0) continue;
      const r = problem.choiceRoutes[problem.choiceAt[c]!]!;
      const e = problem.evaOfRoute[r]!;
      const g = problem.gapStart[e]!;
      const end = problem.gapStart[e + 1]!;
      if (g === end) continue;
      const egress = problem.activities + 2 * e;
      const out = problem.legS[r]![problem.lander * problem.places + problem.beginsAt[a]!]!;
      const home = problem.legS[r]![problem.endsAt[a]! * problem.places + problem.lander]!;
      const fromS = Math.max(
        problem.openFromS[first]!,
        problem.gapFromS[g]! + problem.lengthS[egress]! + out,
      );
      const toS = Math.min(
        problem.openToS[last]!,
        problem.gapToS[end - 1]! - problem.lengthS[egress + 1]! - home - problem.lengthS[a]!,
      );
      room = Math.max(room, toS - fromS);
    }
    return room;
  });
}
