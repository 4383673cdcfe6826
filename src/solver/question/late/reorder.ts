import { random, type Random } from "../../../kernel/index.ts";
import type { Schedule } from "../../../plan/index.ts";
import type { Board } from "../../network/board.ts";
import { read } from "../../network/verify.ts";
import { evaOfChoice, withChoices } from "../../problem/crewing.ts";
import { withPins } from "../../problem/pinned.ts";
import type { Problem } from "../../problem/problem.ts";
import { openingsFrom, openingsOfActivity } from "../../problem/starts.ts";
import { better, readValue, type Value } from "../../search/score.ts";
import { Trial } from "../trial/trial.ts";
import type { Remainder } from "./remainder.ts";
import { changed } from "../../problem/changed.ts";

/** Ruins and recreates for one lateness: always as many, so that the same day gives the same answer. */
const ROUNDS = 70;
/** How many tasks a ruin takes at most, and how often they follow each other on one way. */
const MOST_TAKEN = 4;
const STRINGS = 0.6;
/** A worse order is gone on from while it loses less than this, in mean worths of a task; falls to nothing. */
const HOT = 0.5;
/** Orders that are given, each with other tasks. */
const GIVEN = 4;

/**
 * Goes on with an EVA in another order once a task is late: what is to come on it and on the bench is put on by the packer's own ruin and
 * recreate (`Recreate`), everything that is done, under way or elsewhere held where it is. What is planned begins no sooner than planned or
 * than the moment at which the lateness is known, what comes from the bench or in another order no sooner than that moment.
 */
export class Reorder {
  private readonly remainder: Remainder;
  private readonly base: Problem;
  private readonly problem: Problem;
  private readonly plannedS: ReadonlyMap<number, number>;
  private readonly leftS: number;
  /** Placed tasks that may be taken off: on this EVA, still to come, and nothing that stays needs them. */
  private readonly movable: readonly number[];

  constructor(base: Problem, schedule: Schedule, remainder: Remainder, eva: number) {
    const { placings } = read(base, schedule);
    this.remainder = remainder;
    this.base = base;
    this.plannedS = new Map(placings.map(({ activity, startS }) => [activity, startS]));
    this.leftS = this.plannedS.get(remainder.present)! + base.lengthS[remainder.present]!;
    const stays = placings.filter(({ activity }) => remainder.sliding[activity] === 0);
    const around = withPins(base, stays, "at");
    // Only crews on this EVA, and only for what is free; what is held keeps what it has, and nothing else may be placed.
    this.problem = withChoices(around, (a, c) => {
      const on = evaOfChoice(around, a, c);
      return on < 0 || on === eva || (remainder.sliding[a] === 0 && this.plannedS.has(a));
    });
    const fixed = new Set(stays.map(({ activity }) => activity));
    this.movable = remainder.open.filter((a) => remainder.sliding[a] === 1 && !this.serves(a, fixed));
  }

  /**
   * Days with the present task lasting `lengthS` that do no less than `from` as planned, best first: must-do tasks before worth. Each
   * breaks no rule, and loses nothing that something done already needs.
   */
  *orders(lengthS: number, tolerant: boolean, from: Schedule, seed: number): Generator<void, Schedule[]> {
    const { remainder, base } = this;
    const nowS = this.leftS + lengthS - base.lengthS[remainder.present]!;
    const { problem, verifier } = remainder.lasting(this.startingFrom(nowS), lengthS, tolerant);
    const stream = random(seed);
    const trial = Trial.of(problem, from, { stream, quick: true });
    if (!trial) return [];
    trial.mark();
    const { board } = trial.day;
    const now = valueOf(board);
    const least = { ...now };
    const mean = this.problem.worth.reduce((sum, one) => sum + one, 0) / Math.max(1, problem.activities);
    const found = new BestOrders();
    for (let round = 0; round < ROUNDS; round += 1) {
      yield;
      trial.drop(this.takenOff(board, stream));
      if (!trial.settleSinceMark()) {
        trial.restore();
        continue;
      }
      trial.fill();
      const value = valueOf(board);
      const slack = HOT * mean * (1 - round / ROUNDS) * stream.next();
      if (value.mustOut > now.mustOut || value.worth < now.worth - slack) {
        trial.restore();
        continue;
      }
      trial.mark();
      Object.assign(now, value);
      if (better(least, value)) continue;
      const { schedule } = trial;
      if (found.wants(schedule, value) && remainder.holdsFor(verifier, read(problem, schedule).placings))
        found.take(schedule, value);
    }
    return found.schedules;
  }

  /** True when something of `fixed` needs `a`, directly or not. */
  private serves(a: number, fixed: ReadonlySet<number>): boolean {
    const served = new Set([a]);
    for (const one of served) for (const b of this.base.neededBy[one]!) served.add(b);
    return [...served].some((b) => fixed.has(b));
  }

  private startingFrom(nowS: number): Problem {
    const { problem, remainder, plannedS } = this;
    const lists = Array.from({ length: problem.activities }, (_, a) => {
      const list = openingsOfActivity(problem, a);
      if (remainder.past[a] === 1) return list;
      const fromS = Math.min(nowS, plannedS.get(a) ?? nowS);
      return list.flatMap((one) => (one.toS < fromS ? [] : [{ ...one, fromS: Math.max(one.fromS, fromS) }]));
    });
    // What is lost anyway is worth no time.
    const worth = problem.worth.map((one, a) => (remainder.lost.has(a) ? 0 : one));
    const must = problem.must.map((one, a) => (remainder.lost.has(a) ? 0 : one));
    return changed(problem, { ...openingsFrom(lists), worth, must });
  }

  /** A few loose tasks that are on `board`, and what needs them. */
  private takenOff(board: Board, stream: Random): number[] {
    const { problem } = board;
    const there = this.movable.filter((a) => board.placed[a] === 1);
    if (there.length === 0) return [];
    const taken = new Set<number>();
    const count = 1 + stream.below(MOST_TAKEN);
    if (stream.next() < STRINGS) {
      let s = problem.slotStart[there[stream.below(there.length)]!]!;
      for (let k = 0; k < count && s < board.head && board.lane[s]! >= 0; k += 1) {
        taken.add(board.nodeOf[s]!);
        s = board.next[s]!;
      }
    } else for (let k = 0; k < count; k += 1) taken.add(there[stream.below(there.length)]!);
    for (const a of taken) if (there.includes(a)) for (const b of problem.neededBy[a]!) taken.add(b);
    return [...taken].filter((a) => there.includes(a));
  }
}

/** The best few orders, each with other tasks. */
class BestOrders {
  private readonly found: { readonly value: Value; readonly schedule: Schedule; readonly key: string }[] = [];

  /** True where no order of the same tasks is as good. */
  wants(schedule: Schedule, value: Value): boolean {
    const known = this.found.find((one) => one.key === keyOf(schedule));
    return !known || better(value, known.value);
  }

  /** Takes over an order that is wanted, in place of that of the same tasks. */
  take(schedule: Schedule, value: Value): void {
    const { found } = this;
    const key = keyOf(schedule);
    const known = found.findIndex((one) => one.key === key);
    if (known >= 0) found.splice(known, 1);
    found.push({ value, schedule, key });
    found.sort((x, y) => (better(x.value, y.value) ? -1 : 1)).splice(GIVEN);
  }

  /** Best first. */
  get schedules(): Schedule[] {
    return this.found.map(({ schedule }) => schedule);
  }
}

/** The tasks that a schedule places. */
function keyOf({ placements }: Schedule): string {
  return placements.map(({ task }) => task).join(" ");
}

function valueOf(board: Board): Value {
  const value: Value = { mustOut: 0, worth: 0, endsS: 0 };
  readValue(board, value);
  return value;
}
