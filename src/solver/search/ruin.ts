import type { Random } from "../../kernel/index.ts";
import type { Day } from "../network/day.ts";
import type { Problem } from "../problem/problem.ts";
import { drawn } from "./drawn.ts";
import { nearestTo } from "./nearest.ts";
import { type SearchParameters, searchParameters } from "./parameters.ts";
import { longestOf, stringsOf } from "./stringsizes.ts";

/** A way of taking something off, and how often it is taken. */
interface RuinOperator {
  readonly name: "strings" | "span" | "scattered" | "clusters" | "outing";
  readonly share: number;
  take(ruin: Ruin): void;
}

/** Strings of neighbours on neighbouring routes (Christiaens & Vanden Berghe 2020). */
const STRINGS = (share: number): RuinOperator => ({ name: "strings", share, take: (ruin) => ruin.strings() });

/** Where routes do not depend on each other. */
const ON_ROUTES: readonly RuinOperator[] = [STRINGS(1)];

/** Where activities hang together across routes (Ropke & Pisinger 2006). */
const ACROSS_ROUTES: readonly RuinOperator[] = [
  STRINGS(0.45),
  { name: "span", share: 0.3, take: (ruin) => ruin.span() },
  { name: "scattered", share: 0.1, take: (ruin) => ruin.scattered() },
  { name: "clusters", share: 0.12, take: (ruin) => ruin.clusters() },
  { name: "outing", share: 0.03, take: (ruin) => ruin.outing() },
];

/** Part of the ejections that take must-do work too. */
const MUST_TOO = 0.3;

/** Every way in which a turn may begin, by name: statistics count them. Those that build a day ruin none. */
export const RUINS = [
  "built",
  "ejected",
  "swapped",
  "begun anew",
  ...ACROSS_ROUTES.map(({ name }) => name),
] as const;
export type RuinName = (typeof RUINS)[number];

/**
 * Ruin: takes activities off the day by one of several operators. While must-do work is left out, optional work makes room for it; one of
 * a full group goes for another of it. What needs a taken activity goes with it.
 */
export class Ruin {
  private readonly day: Day;
  private readonly problem: Problem;
  private readonly random: Random;
  /** By activity all others, nearest first; made when they are first asked for. */
  private readonly near: Int32Array[] = [];
  private readonly hit: Uint8Array;
  private readonly parameters: SearchParameters;
  private readonly operators: readonly RuinOperator[];
  /** Where the last ruin began, and how. */
  seed = 0;
  /** About what the last ruin took off a span of time; -1 where it took none. */
  private spanned = -1;
  last: RuinName = "strings";
  /** The EVA on which the last ejection made room; -1 where that was on none. */
  private ejectedFrom = -1;

  constructor(day: Day, random: Random, parameters = searchParameters()) {
    this.day = day;
    this.problem = day.problem;
    this.random = random;
    this.parameters = parameters;
    this.operators = day.problem.checkLevel === "slack" ? ON_ROUTES : ACROSS_ROUTES;
    this.hit = new Uint8Array(day.problem.routes);
  }

  /** The activity about which the last ruin took off: where a span of time was taken its middle, which need not be the seed. */
  get middle(): number {
    return this.spanned >= 0 ? this.spanned : this.seed;
  }

  /** Takes something off; call `settle` of the day afterwards. */
  take(): void {
    const { random, problem, operators } = this;
    this.spanned = -1;
    const { ejected, swapped } = this.parameters;
    if (this.day.board.mustOut > 0 && random.next() < ejected) {
      this.last = "ejected";
      this.eject();
      return;
    }
    if (problem.groups !== null && random.next() < swapped && this.swap()) {
      this.last = "swapped";
      return;
    }
    this.seed = random.below(problem.activities);
    const operator = operators.length === 1 ? operators[0]! : drawn(operators, random.next());
    this.last = operator.name;
    operator.take(this);
  }

  /**
   * Empties an EVA on which something that is left out could be, and gives that: to begin the EVA anew around it. -1, and nothing is taken,
   * where what is drawn at random is placed, needs nobody, or is near enough to what is there for one more step to reach it.
   */
  takeOuting(): number {
    const { problem, random } = this;
    const { board } = this.day;
    const a = random.below(problem.activities);
    const first = problem.choiceStart[a]!;
    const choices = problem.choiceStart[a + 1]! - first;
    if (board.placed[a] === 1 || problem.crewCount[a] === 0 || choices === 0) return -1;
    this.seed = a;
    this.spanned = -1;
    const e = problem.evaOfRoute[problem.choiceRoutes[problem.choiceAt[first + random.below(choices)]!]!]!;
    if (!this.isFarFrom(a, e)) return -1;
    this.last = "begun anew";
    for (let b = 0; b < problem.activities; b += 1)
      if (board.placed[b] === 1 && board.evaOf[b] === e) this.remove(b);
    return a;
  }

  /** True where nobody at work on EVA `e` may be as far apart as from `a`: whoever goes there alone goes too far. */
  private isFarFrom(a: number, e: number): boolean {
    const { places, beginsAt, limits } = this.problem;
    const { board } = this.day;
    if (limits.straightM.length === 0) return false;
    for (let b = 0; b < this.problem.activities; b += 1)
      if (
        board.placed[b] === 1 &&
        board.evaOf[b] === e &&
        limits.straightM[beginsAt[a]! * places + beginsAt[b]!]! <= limits.apartM
      )
        return false;
    return true;
  }

  /** Takes `activity` and what needs it. */
  remove(activity: number): void {
    const { board } = this.day;
    if (board.placed[activity] === 0) return;
    board.unlink(activity);
    for (const one of this.problem.neededBy[activity]!) this.remove(one);
  }

  /** All other activities, nearest first. */
  nearTo(activity: number): Int32Array {
    return (this.near[activity] ??= nearestTo(this.problem, activity));
  }

  /** Strings on routes near to where the ruin begins. */
  strings(): void {
    const { problem, random, hit } = this;
    const { board } = this.day;
    let used = 0;
    for (let r = 0; r < problem.routes; r += 1) if (board.onRoute[r]! > 0) used += 1;
    if (used === 0) return;
    const longest = longestOf(board.count, used, this.parameters);
    const strings = stringsOf(longest, used, this.parameters, random.next());
    hit.fill(0);
    let done = 0;
    const list = this.nearTo(this.seed);
    for (let k = -1; k < list.length && done < strings; k += 1) {
      const a = k < 0 ? this.seed : list[k]!;
      if (board.placed[a] === 0 || problem.crewCount[a] === 0) continue;
      const slot =
        problem.slotStart[a]! + (problem.crewCount[a]! > 1 ? random.below(problem.crewCount[a]!) : 0);
      const r = board.lane[slot]!;
      if (hit[r] === 1) continue;
      hit[r] = 1;
      done += 1;
      const length = 1 + Math.floor(random.next() * Math.min(longest, board.onRoute[r]!));
      this.string(slot, length);
    }
  }

  /** A string of `length` slots that holds `slot`, at a random offset. */
  private string(slot: number, length: number): void {
    const { board } = this.day;
    let from = slot;
    for (let back = this.random.below(length); back > 0; back -= 1) {
      const before = board.prev[from]!;
      if (before >= board.head) break;
      from = before;
    }
    const taken: number[] = [];
    for (let k = 0; k < length && from < board.head; k += 1) {
      taken.push(board.nodeOf[from]!);
      from = board.next[from]!;
    }
    for (const a of taken) this.remove(a);
  }

  /** Everything on one EVA that begins within a span of time. */
  span(): void {
    const { problem, random } = this;
    const { board } = this.day;
    const seed = this.anyPlaced();
    if (seed < 0) return;
    this.spanned = seed;
    const e = board.evaOf[seed]!;
    let lengthS = problem.longestS[e] ?? 0;
    if (e >= 0) {
      const egress = problem.activities + 2 * e;
      lengthS = Math.min(lengthS, board.earliest[egress + 1]! - board.earliest[egress]!);
    }
    const halfS = lengthS * (0.05 + 0.25 * random.next());
    const middleS = board.earliest[seed]!;
    for (let a = 0; a < problem.activities; a += 1)
      if (board.placed[a] === 1 && board.evaOf[a] === e && Math.abs(board.earliest[a]! - middleS) <= halfS)
        this.remove(a);
  }

  /** A few at random. */
  scattered(): void {
    const { random } = this;
    const count = 1 + random.below(Math.max(1, Math.floor(this.day.board.count * 0.3)));
    for (let k = 0; k < count; k += 1) {
      const a = this.anyPlaced();
      if (a >= 0) this.remove(a);
    }
  }

  /** The clusters of the seed and of a few that are near it. */
  clusters(): void {
    const { problem, random } = this;
    const count = 1 + random.below(3);
    const list = this.nearTo(this.seed);
    for (let k = -1; k < count - 1 && k < list.length; k += 1) {
      const cluster = problem.cluster[k < 0 ? this.seed : list[random.below(Math.min(8, list.length))]!];
      for (let a = 0; a < problem.activities; a += 1) if (problem.cluster[a] === cluster) this.remove(a);
    }
  }

  /** All of one EVA. */
  outing(): void {
    const { problem } = this;
    const { board } = this.day;
    const seed = this.anyPlaced();
    if (seed < 0) return;
    const e = board.evaOf[seed]!;
    for (let a = 0; a < problem.activities; a += 1)
      if (board.placed[a] === 1 && board.evaOf[a] === e) this.remove(a);
  }

  /**
   * Makes room for a must-do activity that is left out: optional work goes from one of the EVAs that it may be on, all of it or half, now and
   * then must-do work too, which may stand in its way there but not elsewhere; and its whole cluster, which is put back together.
   */
  private eject(): void {
    const { problem, random } = this;
    const { board } = this.day;
    let a = random.below(problem.activities);
    while (!board.isRequired(a) || board.placed[a] === 1) a = a + 1 === problem.activities ? 0 : a + 1;
    this.seed = a;
    const first = problem.choiceStart[a]!;
    const choices = problem.choiceStart[a + 1]! - first;
    const crewed = problem.crewCount[a]! > 0 && choices > 0;
    const choice = first + (crewed ? random.below(choices) : 0);
    const e = crewed ? problem.evaOfRoute[problem.choiceRoutes[problem.choiceAt[choice]!]!]! : -1;
    this.ejectedFrom = e;
    const at = random.next();
    const all = at < 0.5;
    const mustToo = all && e >= 0 && at < MUST_TOO;
    for (let b = 0; b < problem.activities; b += 1) {
      if (board.placed[b] === 0) continue;
      const goes =
        (mustToo || problem.must[b] === 0) && (e < 0 || board.evaOf[b] === e) && (all || random.next() < 0.5);
      if (goes || problem.cluster[b] === problem.cluster[a]) this.remove(b);
    }
  }

  /**
   * Takes all that is left on the EVA on which the last ejection made room, must-do work with it, and gives what that was for: to begin the EVA
   * anew around it. What an ejection leaves is often too far apart for those who have to stay together. -1 where it was on no EVA.
   */
  ejectRest(): number {
    const { problem, ejectedFrom } = this;
    const { board } = this.day;
    if (ejectedFrom < 0) return -1;
    for (let b = 0; b < problem.activities; b += 1)
      if (board.placed[b] === 1 && board.evaOf[b] === ejectedFrom) this.remove(b);
    return this.seed;
  }

  /**
   * Takes a random member of a group that is full, for another of it that is left out and comes first when the day is filled; and, now and
   * then, what is near that one. False where there is none of that kind after the one that is drawn.
   */
  private swap(): boolean {
    const { problem, random } = this;
    const { board } = this.day;
    const groups = problem.groups!;
    const a = random.below(problem.activities);
    const g = board.placed[a] === 1 ? -1 : board.fullGroup(a);
    if (g < 0) return false;
    this.seed = a;
    const there = groups.members[g]!.filter((b) => board.placed[b] === 1);
    if (there.length === 0) return false;
    if (random.next() < 0.5) this.strings();
    this.remove(there[random.below(there.length)]!);
    return true;
  }

  private anyPlaced(): number {
    const { problem, random } = this;
    const { placed, count } = this.day.board;
    if (count === 0) return -1;
    let a = random.below(problem.activities);
    while (placed[a] === 0) a = a + 1 === problem.activities ? 0 : a + 1;
    return a;
  }
}
