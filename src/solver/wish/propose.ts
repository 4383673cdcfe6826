import type { Schedule } from "../../plan/index.ts";
import { Day } from "../network/day.ts";
import { loadSchedule, scheduleOf } from "../network/placing.ts";
import { Anneal } from "../search/anneal.ts";
import { valueOf } from "../simulate/value.ts";
import type { Course } from "./course.ts";
import { restretch } from "./restretch.ts";
import { sown } from "./sown.ts";

/**
 * Stretches at which the packer proposes, with few tasks and with more: there is time for few packs then, so those come first that do most.
 * Few stretches, since a pack that is broken off early is worth little at any.
 */
const LEVELS_FEW: readonly number[] = [0, 0.05, 0.1, 0.2];
const LEVELS: readonly number[] = [0.1, 0.05, 0.15, 0];
const FEW_TASKS = 100;
/**
 * Packs from nothing, in this part of the proposing and at least so many: each of so many turns a task, since which EVAs take what is settled
 * in the first of them, and longer packs end no better but for that. Of them so many go on: far on in the proposing from their first
 * turn, they are heated once and cool for the rest of it.
 */
const STARTS = 0.5;
const LEAST_STARTS = 2;
const START_TURNS = 12;
const START_TASKS = 30;
const GO_ON = 3;
/** Part of the proposing after which nothing is packed from nothing any more. */
const LAST_START = 0.8;
/** Part of a pack from nothing from which on what it goes on from is played. */
const PLAYED_FROM = 0.6;
/** Worth that is not worth playing days for while the packer proposes, in mean worths of a task. */
const NEAR = 0.02;
/** Turns of a pack between two looks at the share that is done. */
const AT_ONCE = 8;

/** One of the packer's searches at a stretch, and the best value of what it proposed. */
interface Pack {
  readonly level: number;
  readonly anneal: Anneal;
  best: number;
  /** Of the crew with which its best does most. */
  caution: number;
  /** False while it is hot: what it goes on from then is soon left for better. */
  plays: boolean;
}

/** The one that did more first; of those not played, since there was nothing to gain, the one that plans more. */
function byPromise(a: Pack, b: Pack): number {
  return b.best - a.best || b.anneal.bestValue.worth - a.anneal.bestValue.worth;
}

/**
 * The packer's own search at several stretches; what it goes on from is played. First packs from nothing one after the other, since
 * which EVAs take what is settled early and never left again; then the best of them go on.
 */
export class Proposer {
  private readonly course: Course;
  private readonly near: number;
  /** Turns of a pack from nothing. */
  private readonly turns: number;
  private readonly levels: readonly number[];
  private starts = 0;

  constructor(course: Course) {
    this.course = course;
    const { worth, activities } = course.problem;
    this.near = (NEAR * worth.reduce((sum, one) => sum + one, 0)) / Math.max(1, activities);
    this.levels = activities > FEW_TASKS ? LEVELS : LEVELS_FEW;
    this.turns = START_TURNS * Math.max(START_TASKS, activities);
  }

  /** Proposes until this share of the run is done. */
  *until(until: number): Generator<undefined, void> {
    // Where there is no time for so many, two share it.
    const mostShare = (STARTS * until) / LEAST_STARTS;
    const packs = yield* this.packsFromNothing(STARTS * until, mostShare);
    const going = packs
      .sort(byPromise)
      .slice(0, GO_ON)
      .map((pack) => this.goingOn(pack));
    yield* this.goOn(going, until, mostShare);
  }

  private *packsFromNothing(until: number, mostShare: number): Generator<undefined, Pack[]> {
    const { course } = this;
    const packs: Pack[] = [];
    for (let longest = 0; packs.length < LEAST_STARTS || course.share() + longest <= until;) {
      const fromShare = course.share();
      packs.push(yield* this.start(mostShare, until));
      longest = Math.max(longest, course.share() - fromShare);
    }
    return packs;
  }

  /** Goes on with what is `going`, and begins anew where that has come to its end. */
  private *goOn(going: Pack[], until: number, mostShare: number): Generator<undefined, void> {
    const { course, turns } = this;
    const { random: stream } = course;
    let best = -Infinity;
    let quiet = 0;
    for (let turn = 0; course.share() < until; turn += 1) {
      const guest = course.guests.pop();
      if (guest) going.splice(GO_ON - 1, 1, this.goingOnFrom(guest));
      // One turn of three to each in turn, the others to the one that does best.
      const one = turn % 3 === 0 ? going[stream.below(going.length)]! : going[0]!;
      const done = course.share() / until;
      for (let k = 0; k < AT_ONCE; k += 1) one.anneal.iterate(done);
      course.tick(AT_ONCE);
      yield;
      going.sort(byPromise);
      quiet = going[0]!.best > best + this.near ? 0 : quiet + AT_ONCE;
      best = Math.max(best, going[0]!.best);
      if (quiet < turns || course.share() > LAST_START * until) continue;
      // What goes on has come to its end: another one from nothing in the time that it would waste.
      const anew = yield* this.start(mostShare, until);
      quiet = 0;
      if (byPromise(anew, going.at(-1)!) < 0) going[going.length - 1] = this.goingOn(anew);
    }
  }

  /** The next pack from nothing, every other one sown, in no more of the run than `mostShare`, before `until`. */
  private *start(mostShare: number, until: number): Generator<undefined, Pack> {
    const { course, turns, levels } = this;
    const k = this.starts++;
    const fromShare = course.share();
    const level = levels[k % levels.length]!;
    // Each stretch is begun both ways in turn.
    const isSown = (k + Math.floor(k / levels.length)) % 2 === 1;
    const from = isSown ? sown(course.problem, course.random) : course.from;
    const pack = this.pack(level, from, course.crew.caution, false);
    for (let done = 0, turn = AT_ONCE; done < 1; turn += AT_ONCE) {
      for (let i = 0; i < AT_ONCE; i += 1) pack.anneal.iterate(done);
      course.tick(AT_ONCE);
      yield;
      // Where the time is over before a pack begins, no share of it ever passes.
      if (course.share() >= until) break;
      done = Math.max(turn / turns, (course.share() - fromShare) / mostShare);
      pack.plays = done >= PLAYED_FROM;
    }
    pack.plays = true;
    pack.anneal.onAccept?.(pack.anneal.best, pack.anneal.bestValue);
    return pack;
  }

  /** A pack that goes on from the best of `pack`, and is played all the time. */
  private goingOn({ level, anneal, caution, best }: Pack): Pack {
    const pack = this.pack(level, scheduleOf(anneal.best), caution, true);
    pack.best = Math.max(pack.best, best);
    return pack;
  }

  /** A pack that goes on from a day of another run, at the greatest stretch at which that holds whole. */
  private goingOnFrom(guest: Schedule): Pack {
    const { problem, crew } = this.course;
    const levels = [...this.levels].sort((a, b) => b - a);
    const holds = (level: number): boolean =>
      loadSchedule(new Day(restretch(problem, () => level)), guest) === 0;
    return this.pack(levels.find(holds) ?? 0, guest, crew.caution, true);
  }

  /** A pack of the problem stretched by `level`, of which everything that it goes on from is played. */
  private pack(level: number, from: Schedule | null, caution: number, plays: boolean): Pack {
    const { course } = this;
    const { trial } = course;
    // With several wishes the least one decides what is worth playing.
    const elites = course.elites[0]!;
    const anneal = new Anneal(
      restretch(course.problem, () => level),
      course.random.below(2 ** 31),
      from,
    );
    const pack = { level, anneal, best: -Infinity, caution, plays };
    let lastWorth = -1;
    let lastEndsS = -1;
    const hear: NonNullable<Anneal["onAccept"]> = (board, { worth, mustOut, endsS }) => {
      if (!pack.plays || mustOut > 0 || (worth === lastWorth && endsS === lastEndsS)) return;
      // What is planned bounds what is done; what has hardly more to gain than the best is not worth the days.
      if (worth < elites.bestValue + this.near) return;
      lastWorth = worth;
      lastEndsS = endsS;
      if (!trial.lay(board)) return;
      const { wish } = elites;
      let sampled = trial.play(wish, elites.best?.sampled ?? null, wish.price * 0.005, pack.caution);
      if (!sampled) return;
      if (valueOf(wish, sampled) > pack.best) {
        sampled = trial.varied(wish, sampled);
        pack.best = valueOf(wish, sampled);
        pack.caution = sampled.caution;
      }
      course.note(trial.day.board, sampled);
    };
    hear(anneal.best, anneal.bestValue);
    anneal.onAccept = hear;
    return pack;
  }
}
