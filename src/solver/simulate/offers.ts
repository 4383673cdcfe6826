import type { CrewRules, Offer } from "../../answers/index.ts";
import type { Schedule } from "../../plan/index.ts";
import { read, type PlacedActivity, Verifier } from "../network/verify.ts";
import { type Count, countOf } from "./count.ts";
import type { Days } from "./days.ts";
import type { Script } from "./script.ts";
import { outcomeOf, type Seen, seenOf } from "./seen.ts";
import type { Tally } from "./tally.ts";
import { meetsWish, valueOf, type Wish, wishFor } from "./value.ts";

/** Days on which tasks to bench are compared, at most; an offer is counted on all days of the run, against what the run comes to. */
const FEW = 200;
/** Tasks looked at for one more to bench, and the most that one offer benches on its own account. */
const LOOKED_AT = 20;
const STEPS = 4;
/** An optional task that is missed on more than this part of the days may be better left out from the start; so many are offered. */
const OFTEN = 0.5;
const OFTEN_SHOWN = 3;

/** Tasks that go to the bench together, by number. */
type Group = readonly number[];

/**
 * What would mend a day by leaving something out: optional tasks, one after the other, by what the day does under the wish without them;
 * and single ones that are missed so often that the day does more without them. Everything else keeps its start. Each is played on the
 * days of the odds before it is offered, and breaks no rule at likely durations.
 */
export class Offers {
  readonly list: Offer[] = [];
  private readonly script: Script;
  private readonly crew: CrewRules;
  private readonly days: Days;
  private readonly tally: Tally;
  private readonly schedule: Schedule;
  private readonly placings: readonly PlacedActivity[];
  private readonly verifier: Verifier;
  private readonly wish: Wish;
  private readonly work: Generator<undefined, void>;

  constructor(script: Script, schedule: Schedule, crew: CrewRules, days: Days, tally: Tally) {
    const { problem } = script;
    this.script = script;
    this.schedule = schedule;
    this.crew = crew;
    this.days = days;
    this.tally = tally;
    this.placings = read(problem, schedule).placings;
    this.verifier = new Verifier(problem);
    this.wish = wishFor(problem, problem.plan.odds.wish.home, problem.plan.odds.wish.must);
    this.work = this.all();
  }

  /** A little work; false when there is none left. */
  advance(): boolean {
    return this.work.next().done !== true;
  }

  private *all(): Generator<undefined, void> {
    const { script, tally, wish, verifier, placings } = this;
    // Of a day that breaks a rule, or that nothing is known of, nothing is offered.
    if (tally.count === 0 || !verifier.holds(placings)) return;
    const seen = this.now;
    if (!meetsWish(wish, seen)) {
      const bench = yield* this.forTheWish();
      if (bench.length > 0) yield* this.offer(bench, "chance");
    }
    const { problem } = script;
    const often = script.order
      .filter((a) => problem.must[a] === 0 && tally.count - tally.done[a]! > OFTEN * tally.count)
      .sort((a, b) => problem.worth[b]! - problem.worth[a]! || a - b);
    for (const a of often.slice(0, OFTEN_SHOWN)) {
      const group = this.groupOf(a);
      if (group && this.holdsWithout(group)) yield* this.offer(group, "worth");
    }
  }

  /** What the run itself came to. */
  private get now(): Seen {
    return seenOf(this.tally.counted);
  }

  /** What to bench so that the wish is met, or the day does most under it; one group after the other. */
  private *forTheWish(): Generator<undefined, Group> {
    const { wish, tally, script } = this;
    let bench: Group = [];
    let value = valueOf(wish, (yield* this.played([], FEW)).seen);
    for (let step = 0; step < STEPS; step += 1) {
      let best: Group = bench;
      let met = false;
      for (const group of this.candidates(bench)) {
        const without = [...bench, ...group.filter((a) => !bench.includes(a))];
        if (!this.holdsWithout(without)) continue;
        const { seen } = yield* this.played(without, FEW);
        if (valueOf(wish, seen) <= value) continue;
        value = valueOf(wish, seen);
        best = without;
        met = meetsWish(wish, seen);
      }
      if (best === bench) break;
      bench = best;
      if (met) break;
    }
    return bench.toSorted((a, b) => script.rank[a]! - script.rank[b]! || tally.done[a]! - tally.done[b]!);
  }

  /** Groups that may hold up a must-do task that is missed: planned before the last of these, those that take longest for their worth first. */
  private candidates(bench: Group): Group[] {
    const { script, tally } = this;
    const { problem, order, rank } = script;
    const missed = order.filter((a) => problem.must[a] === 1 && tally.done[a]! < tally.count);
    const last = missed.reduce((most, a) => Math.max(most, rank[a]!), missed.length > 0 ? -1 : Infinity);
    return [...order]
      .filter((a) => problem.must[a] === 0 && !bench.includes(a) && rank[a]! < last)
      .sort((a, b) => this.dearness(b) - this.dearness(a) || a - b)
      .slice(0, LOOKED_AT)
      .flatMap((a) => {
        const group = this.groupOf(a);
        return group ? [group] : [];
      });
  }

  /** High duration for its worth. */
  private dearness(a: number): number {
    const { problem, stage } = this.script;
    return stage.highS[a]! / Math.max(1, problem.worth[a]!);
  }

  /** `a` and what is placed and needs it; null where a must-do task does. */
  private groupOf(a: number): Group | null {
    const { problem, placed } = this.script;
    const group = new Set<number>([a]);
    for (const one of group) for (const b of problem.neededBy[one]!) if (placed[b] === 1) group.add(b);
    return [...group].some((one) => problem.must[one] === 1) ? null : [...group];
  }

  private holdsWithout(group: Group): boolean {
    return this.verifier.holds(this.placings.filter(({ activity }) => !group.includes(activity)));
  }

  /** Plays the day without `group` on the first `most` days. */
  private *played(group: Group, most: number): Generator<undefined, Count> {
    const { script, schedule, crew, days } = this;
    const { tasks } = script.problem.plan;
    const out = new Set(group.map((a) => tasks[a]!.id));
    const rest: Schedule = { placements: schedule.placements.filter(({ task }) => !out.has(task)) };
    const count = countOf(script.stage, rest, crew, days);
    const until = Math.min(most, days.count);
    while (count.days < until) {
      count.until(Math.min(until, count.days + AT_ONCE));
      yield;
    }
    return count;
  }

  /** Offers to bench `group` where, counted on all days of the run, that does what it is for. */
  private *offer(group: Group, gains: Offer["gains"]): Generator<undefined, void> {
    const { wish, script, tally } = this;
    const after = yield* this.played(group, this.days.count);
    const [then, now] = [after.seen, this.now];
    const does =
      gains === "chance"
        ? then.must + then.home > now.must + now.home + LEAST_GAIN
        : then.worth > now.worth && valueOf(wish, then) > valueOf(wish, now);
    if (!does) return;
    this.list.push({
      bench: group.map((a) => script.problem.plan.tasks[a]!.id),
      gains,
      before: outcomeOf(tally.counted),
      after: outcomeOf(after),
    });
  }
}

/** A chance that gains less than this is not worth an offer: a thousand days could not tell it. */
const LEAST_GAIN = 0.03;
/** Days between two moments at which the run may be broken off. */
const AT_ONCE = 50;
