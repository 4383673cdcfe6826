import type { CrewRules, Wished } from "../../answers/index.ts";
import { random, type Random, type Shape } from "../../kernel/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { Anneal } from "../search/anneal.ts";
import { compile } from "../problem/compile.ts";
import { crewOf } from "../simulate/crew.ts";
import { Days } from "../simulate/days.ts";
import { type Stage, stageOf } from "../simulate/stage.ts";
import { scheduleOf } from "../network/placing.ts";
import type { Problem } from "../problem/problem.ts";
import { Chain, fewness, type Note } from "./chain.ts";
import { choose, type Chosen, daysToChoose } from "./choose.ts";
import { type Elite, Elites } from "./elites.ts";
import { restretch } from "./restretch.ts";
import { sown } from "./sown.ts";
import { CAUTIONS, DayTrial } from "./trial.ts";
import { valueOf, type Wish, wishFor } from "../simulate/value.ts";

/**
 * Packs for what will happen: the most worth done on average under the chances that the plan wants, of everybody home and of every
 * must-do task done; every rule still holds at likely durations. Stochastic orienteering (Campbell, Gendreau & Thomas 2011, Ann Oper
 * Res 186:61) with a crew that acts, searched by sample average approximation (Kleywegt, Shapiro & Homem-de-Mello 2002, SIAM J Optim
 * 12:479). Slack is not placed (Van de Vonder, Demeulemeester & Herroelen 2008, Eur J Oper Res 189:723): with a crew that goes ahead
 * it arises from what is left out and from the order.
 *
 * Three parts: the annealing of the deterministic packer proposes, on the problem stretched by several shares; chains of small ruins
 * from what it proposed, accepted by what is done on the common days; and from the best of all, chains with little stretch. The
 * best few that differ are played on many fresh days, with several cautions of the crew, and the one that does most under the wish
 * is given.
 */
export interface WishSettings {
  readonly seed: number;
  /** Seconds of `clock` in all, what is counted at the end among them. */
  readonly seconds?: number | undefined;
  /** Iterations instead: the same seed and iterations give the same schedule. */
  readonly iterations?: number | undefined;
  readonly shape?: Shape | undefined;
  readonly clock: () => number;
  /** Placements to start from. */
  readonly from?: Schedule | undefined;
  /**
   * Every day that there may be, each as likely as any other, in place of drawn ones: chances are exact then, and nothing is asked for
   * beyond the wish.
   */
  readonly everyDay?: Days | undefined;
}

interface WishProgress {
  readonly seconds: number;
  /** Done part of the search, 0 to 1. */
  readonly share: number;
  readonly iterations: number;
  /** Schedules played. */
  readonly tried: number;
  /** Of the best so far on the common days. */
  readonly meanWorth: number;
  readonly home: number;
  readonly must: number;
  readonly stopped: boolean;
}

export interface WishRun {
  /** Searches for about `sliceS` seconds of the clock; false when the run is finished. */
  step(sliceS: number): boolean;
  /** One for each wish, in their order. */
  best(): readonly Wished[];
  progress(): WishProgress;
}

/** Common days of the search, days for the best few, and for what is shown. */
const COMMON = 100;
const FEW = 250;
const MORE = 1500;
const SHOWN = 4000;
/** Above what is wanted on the common days, so that it still holds on days that nobody chose by. */
const SPARE = 0.02;
/** What a chance of 90 % may be off by on the common days: about a standard error and a half; so many of either kind are counted on more. */
const ERROR = 0.04;
const SURE = 6;
const HOPES = 4;
/** Stretches at which the packer proposes. Few, since a pack that is broken off early is worth little at any. */
const LEVELS = [0, 0.05, 0.1, 0.2];
/** With this many tasks most of the time is the packer's: chains are slow there, and the packer far from its end. */
const MANY = 80;
/** Parts of the search until which it proposes, with few tasks and with many, and part of the rest until which chains are stretched. */
const PROPOSES = 0.4;
const PROPOSES_MANY = 0.8;
const FEW_TASKS = 40;
const CHAINS = 0.7;
/**
 * Packs from nothing, in this part of the proposing and at least so many: each of so many turns a task, since which EVAs take what is settled
 * in the first of them, and longer packs end no better but for that. Of them so many go on, so far cooled.
 */
const STARTS = 0.5;
const LEAST_STARTS = 2;
const START_TURNS = 12;
const START_TASKS = 30;
/** Part of the proposing after which nothing is packed from nothing any more. */
const LAST_START = 0.8;
/** Worth that is not worth playing days for while the packer proposes, in mean worths of a task. */
const NEAR = 0.02;
/** Turns of a pack between two looks at the share that is done. */
const AT_ONCE = 8;
const GO_ON = 3;
const WARM = 0.4;
/** Part of a pack from nothing from which on what it goes on from is played. */
const PLAYED_FROM = 0.6;
/** Part of the time in which the best few are counted, and the least part of their days, however little time there is. */
const COUNTS = 0.1;
const LEAST_PART = 0.25;
/** Part of the chains that are not stretched, with many tasks and with few. */
const UNSTRETCHED = 0.25;
const UNSTRETCHED_FEW = 0.5;
/** Part of the chains whose crew is not as careful as that of what they begin with. */
const OTHER_CAUTION = 0.3;
/**
 * Part of the chains, with few tasks, for which what is missing of a chance is so many times dearer: from a day that does much and falls a
 * little short, the way to one that meets the wish may lead through days that do less.
 */
const STRICT = 0.5;
const DEARER = 8;
/** Chains begun from nothing: so many, over the number of tasks; and the greatest part of all. */
const ANEW = 3;
const MOST_ANEW = 0.4;
/** Chains that a part has room for; and iterations after which one that has found nothing sound is given up. */
const RESTARTS = 12;
const HOPELESS = 400;
/** Seeds of days, beside the run's: those searched with, chosen by and shown are never the same. */
const SEEDS = { common: 101, few: 100_003, more: 200_003, shown: 300_007 } as const;
/** Chances of every must-do done along the curve. */
const ALONG = [0.5, 0.8, 0.9, 0.95, 0.99];

/** Packs for the wish of the plan. */
export function wishRun(plan: Plan, settings: WishSettings): WishRun {
  return new Run(compile(plan, settings.from), settings, [plan.odds.wish]);
}

/** Packs for several wishes at once, the plan's among them: worth on average against the chance of every must-do done. */
export function curveRun(plan: Plan, settings: WishSettings): WishRun {
  const { home, must } = plan.odds.wish;
  const along = [...new Set([...ALONG, must])].sort((a, b) => a - b);
  return new Run(
    compile(plan, settings.from),
    settings,
    along.map((one) => ({ home, must: one })),
  );
}

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

class Run implements WishRun {
  private readonly problem: Problem;
  private readonly settings: WishSettings;
  private readonly stage: Stage;
  private readonly crew: CrewRules;
  private readonly wishes: readonly Wish[];
  /** By wish; and those that fall short of it on the common days by no more than so few days can err. */
  private readonly elites: readonly Elites[];
  private readonly hopes: readonly Elites[];
  private readonly random: Random;
  private readonly trial: DayTrial;
  private readonly near: number;
  private readonly beganS: number;
  private readonly work: Generator<undefined, void>;
  private iterations = 0;
  private answer: readonly Wished[] | null = null;
  private stopped = false;

  constructor(
    problem: Problem,
    settings: WishSettings,
    wishes: readonly { readonly home: number; readonly must: number }[],
  ) {
    this.problem = problem;
    this.settings = settings;
    this.beganS = settings.clock();
    this.stage = stageOf(problem);
    this.crew = crewOf(problem.plan.odds);
    const { worth, activities } = problem;
    this.near = (NEAR * worth.reduce((sum, one) => sum + one, 0)) / Math.max(1, activities);
    this.wishes = wishes.map(({ home, must }) => wishFor(problem, home, must));
    const [spare, error] = settings.everyDay ? [0, 0] : [SPARE, ERROR];
    this.elites = wishes.map(({ home, must }) => new Elites(wishFor(problem, home, must + spare)));
    this.hopes = wishes.map(({ home, must }) => new Elites(wishFor(problem, home, must - error)));
    this.random = random(settings.seed);
    this.trial = new DayTrial(this.stage, this.crew, this.daysOf(COMMON, SEEDS.common), settings.clock);
    this.work = this.all();
  }

  step(sliceS: number): boolean {
    const { clock } = this.settings;
    const endS = clock() + sliceS;
    do
      if (this.work.next().done) {
        this.stopped = true;
        return false;
      }
    while (clock() < endS);
    return true;
  }

  best(): readonly Wished[] {
    return (
      this.answer ??
      this.wishes.map(({ home, must }, w) => ({
        schedule: this.elites[w]!.best?.schedule ?? { placements: [] },
        caution: this.crew.caution,
        wish: { home, must },
        outcome: null,
        days: 0,
        meets: false,
      }))
    );
  }

  progress(): WishProgress {
    const best = this.elites[this.elites.length - 1]!.best?.sampled;
    return {
      seconds: this.settings.clock() - this.beganS,
      share: this.share(),
      iterations: this.iterations,
      tried: this.trial.tried,
      meanWorth: best?.worth ?? 0,
      home: best?.home ?? 0,
      must: best?.must ?? 0,
      stopped: this.stopped,
    };
  }

  /** Every schedule that is played counts for every wish. */
  private readonly note: Note = (board, sampled) => {
    for (const elites of [...this.elites, ...this.hopes]) elites.note(board, sampled);
  };

  private daysOf(count: number, seed: number): Days {
    return (
      this.settings.everyDay ??
      new Days(this.problem, this.settings.shape ?? "pert", count, this.settings.seed * 7919 + seed)
    );
  }

  /** Done part of the search, 0 to 1. */
  private share(): number {
    const { iterations } = this.settings;
    const share = iterations === undefined ? this.timeShare() / (1 - COUNTS) : this.iterations / iterations;
    return Math.min(1, share);
  }

  private timeShare(): number {
    const { seconds = Infinity, clock } = this.settings;
    return (clock() - this.beganS) / seconds;
  }

  private *all(): Generator<undefined, void> {
    const many = Math.min(1, Math.max(0, (this.problem.activities - FEW_TASKS) / (MANY - FEW_TASKS)));
    const proposes = PROPOSES + many * (PROPOSES_MANY - PROPOSES);
    yield* this.propose(proposes);
    yield* this.chains(proposes + CHAINS * (1 - proposes), () => LEVELS.at(-1)!);
    yield* this.chains(1, () => 0.1);
    const days: Chosen = {
      few: this.daysOf(FEW, SEEDS.few),
      more: this.daysOf(MORE, SEEDS.more),
      shown: this.daysOf(SHOWN, SEEDS.shown),
      exact: this.settings.everyDay !== undefined,
    };
    const part = this.partInTime(daysToChoose(days, SURE + HOPES) * this.wishes.length);
    const answer: Wished[] = [];
    for (const [w, wish] of this.wishes.entries()) {
      const chosen = yield* choose(this.stage, this.candidates(w), this.crew, wish, days, part);
      answer.push(chosen ?? this.best()[w]!);
    }
    this.answer = answer;
  }

  /** What is counted on many days for wish `w`, best first: of what is sure, and of what may be. */
  private candidates(w: number): readonly Elite[] {
    const sure = this.elites[w]!.list.slice(0, SURE);
    const hopes = this.hopes[w]!.list.filter(({ sampled }) => sure.every((one) => one.sampled !== sampled));
    return [...sure, ...hopes.slice(0, HOPES)];
  }

  /** Which part of `days` there is time for, by how fast days have been played in the search. */
  private partInTime(days: number): () => number {
    const { seconds = Infinity, iterations } = this.settings;
    if (iterations !== undefined || seconds === Infinity) return () => 1;
    const { playedDays, playedS } = this.trial;
    const needsS = days * (playedDays > 0 ? playedS / playedDays : 0);
    return () => Math.min(1, Math.max(LEAST_PART, (seconds * COUNTS) / Math.max(1e-9, needsS)));
  }

  /**
   * The packer's own search at several stretches; what it goes on from is played. First packs from nothing one after the other, since
   * which EVAs take what is settled early and never left again; then the best of them go on.
   */
  private *propose(until: number): Generator<undefined, void> {
    const { random: stream, problem } = this;
    const startedShare = STARTS * until;
    const turns = START_TURNS * Math.max(START_TASKS, problem.activities);
    // Where there is no time for so many, two share it.
    const mostShare = startedShare / LEAST_STARTS;
    const packs: Pack[] = [];
    for (let longest = 0; packs.length < LEAST_STARTS || this.share() + longest <= startedShare;) {
      const fromShare = this.share();
      packs.push(yield* this.start(packs.length, turns, mostShare, startedShare));
      longest = Math.max(longest, this.share() - fromShare);
    }
    let starts = packs.length;
    const going = packs
      .sort(byPromise)
      .slice(0, GO_ON)
      .map((pack) => this.goingOn(pack));
    const fromShare = this.share();
    let best = -Infinity;
    let quiet = 0;
    for (let turn = 0; this.share() < until; turn += 1) {
      const done = (this.share() - fromShare) / Math.max(1e-9, until - fromShare);
      // One turn of three to each in turn, the others to the one that does best.
      const one = turn % 3 === 0 ? going[stream.below(going.length)]! : going[0]!;
      for (let k = 0; k < AT_ONCE; k += 1) one.anneal.iterate(WARM + (1 - WARM) * done);
      this.iterations += AT_ONCE;
      yield;
      going.sort(byPromise);
      quiet = going[0]!.best > best + this.near ? 0 : quiet + AT_ONCE;
      best = Math.max(best, going[0]!.best);
      if (quiet < turns || this.share() > LAST_START * until) continue;
      // What goes on has come to its end: another one from nothing in the time that it would waste.
      const anew = yield* this.start(starts, turns, mostShare, until);
      starts += 1;
      quiet = 0;
      if (byPromise(anew, going.at(-1)!) < 0) going[going.length - 1] = this.goingOn(anew);
    }
  }

  /** Number `k` of the packs from nothing, every other one sown, in so many turns and no more of the run than `mostShare`, before `until`. */
  private *start(k: number, turns: number, mostShare: number, until: number): Generator<undefined, Pack> {
    const fromShare = this.share();
    const level = LEVELS[k % LEVELS.length]!;
    const from = k % 2 === 1 ? sown(this.problem, this.random) : (this.settings.from ?? null);
    const pack = this.pack(level, from, this.crew.caution, false);
    for (let done = 0, turn = AT_ONCE; done < 1; turn += AT_ONCE) {
      for (let i = 0; i < AT_ONCE; i += 1) pack.anneal.iterate(done);
      this.iterations += AT_ONCE;
      yield;
      // Where the time is over before a pack begins, no share of it ever passes.
      if (this.share() >= until) break;
      done = Math.max(turn / turns, (this.share() - fromShare) / mostShare);
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

  /** A pack of the problem stretched by `level`, of which everything that it goes on from is played. */
  private pack(level: number, from: Schedule | null, caution: number, plays: boolean): Pack {
    const { trial } = this;
    // With several wishes the least one decides what is worth playing.
    const elites = this.elites[0]!;
    const anneal = new Anneal(
      restretch(this.problem, () => level),
      this.random.below(2 ** 31),
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
      this.note(trial.day.board, sampled);
    };
    hear(anneal.best, anneal.bestValue);
    anneal.onAccept = hear;
    return pack;
  }

  /** Chains one after the other from the best so far, each at stretches of its own. */
  private *chains(until: number, most: () => number): Generator<undefined, void> {
    let good: Float64Array | null = null;
    for (let turn = 0; this.share() < until; turn += 1) {
      const fromShare = this.share();
      // Restarts pay more than length: a few chains whatever the time.
      const lengthShare = Math.min(until - fromShare, Math.max(until / RESTARTS, 0.02));
      const elites = this.elites[turn % this.elites.length]!;
      const elite = this.pick(elites);
      const before = elites.bestValue;
      const stretches = this.mix(most(), elite, good);
      const chain = this.chainFrom(elites, elite, stretches);
      yield;
      yield* this.followed(chain, fromShare, lengthShare);
      if (elites.bestValue > before) good = stretches;
      yield;
    }
  }

  /** A chain from one of the best, or now and then from nothing, at a price of its own. */
  private chainFrom({ wish }: Elites, elite: Elite | null, stretches: Float64Array): Chain {
    const { random: stream, trial, problem } = this;
    const anew = stream.next() < Math.min(MOST_ANEW, ANEW / problem.activities);
    const from = anew ? null : (elite?.schedule ?? this.settings.from ?? null);
    const caution = this.cautionOf(elite);
    const price = wish.price * (stream.next() < STRICT * fewness(problem) ? DEARER : 1);
    return new Chain(problem, stretches, from, stream, trial, { ...wish, price }, this.note, caution);
  }

  /** Goes on with a chain for its part of the run, or until it is hopeless. */
  private *followed(chain: Chain, fromShare: number, lengthShare: number): Generator<undefined, void> {
    for (let k = 1; ; k += 1) {
      const done = (this.share() - fromShare) / lengthShare;
      if (done >= 1 || (k > HOPELESS && chain.best === -Infinity)) return;
      chain.iterate(done);
      this.iterations += 1;
      if (k % 4 === 0) yield;
    }
  }

  /** How careful a crew a chain from `elite` begins with: as there, or any other way. */
  private cautionOf(elite: Elite | null): number {
    const { random: stream, crew } = this;
    if (crew.leavesOut && stream.next() < OTHER_CAUTION) return CAUTIONS[stream.below(CAUTIONS.length)]!;
    return elite?.sampled.caution ?? crew.caution;
  }

  /** One of the best, the better the likelier. */
  private pick({ list }: Elites): Elite | null {
    if (list.length === 0) return null;
    return list[Math.min(list.length - 1, Math.floor(-Math.log(1 - this.random.next()) * 2))]!;
  }

  /** Stretches of a chain: none, all alike, must-do work against the rest, a few tasks, before against after, or what gained last changed a little. */
  private mix(most: number, elite: Elite | null, good: Float64Array | null): Float64Array {
    const { random: stream, problem } = this;
    // What a stretched problem has no room for is lost at the start of a chain.
    const unstretched = UNSTRETCHED + fewness(problem) * (UNSTRETCHED_FEW - UNSTRETCHED);
    if (stream.next() < unstretched) return new Float64Array(problem.activities);
    const level = most * stream.next() ** 1.5;
    const other = most * stream.next() ** 1.5;
    const part = 0.2 + 0.5 * stream.next();
    const splitS = stream.next() * problem.plan.stay.lengthS;
    const mode = stream.below(5);
    const startOf = new Map(elite?.schedule.placements.map((one) => [one.task, one.startS as number]));
    return Float64Array.from(problem.plan.tasks, ({ id, must }, a) => {
      if (mode === 0) return level;
      if (mode === 1) return must ? level : other;
      if (mode === 2) return stream.next() < part ? level : 0;
      if (mode === 3) return (startOf.get(id) ?? 0) < splitS ? level : other;
      if (!good) return level * 0.5;
      return Math.max(0, good[a]! + (stream.next() < 0.3 ? (stream.next() - 0.5) * most * 0.5 : 0));
    });
  }
}
