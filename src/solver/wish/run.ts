import type { CrewRules, HandedDay, Wished } from "../../answers/index.ts";
import { random, type Shape } from "../../kernel/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { Day } from "../network/day.ts";
import { loadSchedule } from "../network/placing.ts";
import { compile } from "../problem/compile.ts";
import { crewOf } from "../simulate/crew.ts";
import { Days } from "../simulate/days.ts";
import { type Stage, stageOf } from "../simulate/stage.ts";
import type { Problem } from "../problem/problem.ts";
import type { Note } from "./chain.ts";
import { chains } from "./chains.ts";
import { type Choice, choose, type Chosen, daysToChoose } from "./choose.ts";
import type { Course } from "./course.ts";
import { type Elite, Elites } from "./elites.ts";
import { dayNearest } from "./nearest.ts";
import { Proposer } from "./propose.ts";
import { surer } from "./surer.ts";
import { DayTrial } from "./trial.ts";
import { meetsWish, type Wish, wishFor } from "../simulate/value.ts";

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
  /** Others pack the same plan: now and then a step ends early for `handOn`. */
  readonly meets?: boolean | undefined;
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
  /** Ends the search where it is: what is left is to count the best that it found. */
  finish(): void;
  /** One for each wish, in their order. */
  best(): readonly Wished[];
  progress(): WishProgress;
  /** The best day so far, where it is time to tell others of it; null while it is not. Where a run is alone it never is. */
  handOn(): HandedDay | null;
  /** Goes on from a day that is the best of another run of the same plan too. */
  takeUp(schedule: Schedule): void;
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
/** With this many tasks most of the time is the packer's: chains are slow there, and the packer far from its end. */
const MANY = 80;
/** Parts of the search until which it proposes, with few tasks and with many, and part of the rest until which chains are stretched. */
const PROPOSES = 0.4;
const PROPOSES_MANY = 0.8;
const FEW_TASKS = 40;
const CHAINS = 0.7;
/** How much the chains are stretched at most, and the last of them. */
const MUCH = 0.2;
const LITTLE = 0.1;
/** Part of the search in which a best that does nearly all that it plans is made surer. */
const SURER = 0.05;
/** Part of the time in which the best few are counted, and the most of it, taken where a quarter of their days needs so much. */
const COUNTS = 0.1;
const MOST_COUNTS = 0.5;
const LEAST_PART = 0.25;
/** The least part of their days where even that time is too little: the error that is told then says how few they were. */
const LAST_PART = 0.02;
/** Part of the time that is left for what comes after: the days are read off and judged. */
const AFTER = 0.05;
/** Parts of the search after which a run hands its best day on to others and hears of theirs. */
const MEETINGS: readonly number[] = [0.2, 0.4, 0.6, 0.8, 0.9];
/** A day takes so much longer there than in the search, as every schedule is taken up anew. */
const SLOWER = 1.2;
/** Seeds of days, beside the run's: those searched with, chosen by and shown are never the same. */
const SEEDS = { common: 101, few: 100_003, more: 200_003, shown: 300_007 } as const;
/** Chances of every must-do done along the curve. */
const ALONG = [0.5, 0.8, 0.9, 0.95, 0.99];

/** Packs for the wish of the plan. */
export function wishRun(plan: Plan, settings: WishSettings): WishRun {
  const beganS = settings.clock();
  return new Run(compile(plan, settings.from), settings, [plan.odds.wish], beganS);
}

/** Packs for several wishes at once, the plan's among them: worth on average against the chance of every must-do done. */
export function curveRun(plan: Plan, settings: WishSettings): WishRun {
  const beganS = settings.clock();
  const { home, must } = plan.odds.wish;
  const along = [...new Set([...ALONG, must])].sort((a, b) => a - b);
  return new Run(
    compile(plan, settings.from),
    settings,
    along.map((one) => ({ home, must: one })),
    beganS,
  );
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
  private readonly trial: DayTrial;
  private readonly beganS: number;
  private readonly work: Generator<undefined, void>;
  private iterations = 0;
  private answer: readonly Wished[] | null = null;
  private stopped = false;
  private readonly guests: Schedule[] = [];
  /** Meetings that the run came to; all of them where it is alone. */
  private met: number;
  /** Seconds of the search, where it was ended before its time. */
  private searchedS = Infinity;

  constructor(
    problem: Problem,
    settings: WishSettings,
    wishes: readonly { readonly home: number; readonly must: number }[],
    beganS: number,
  ) {
    this.problem = problem;
    this.settings = settings;
    this.beganS = beganS;
    this.stage = stageOf(problem);
    this.crew = crewOf(problem.plan.odds);
    this.wishes = wishes.map(({ home, must }) => wishFor(problem, home, must));
    const [spare, error] = settings.everyDay ? [0, 0] : [SPARE, ERROR];
    this.elites = wishes.map(({ home, must }) => new Elites(wishFor(problem, home, must + spare)));
    this.hopes = wishes.map(({ home, must }) => new Elites(wishFor(problem, home, must - error)));
    this.trial = new DayTrial(this.stage, this.crew, this.daysOf(COMMON, SEEDS.common), settings.clock);
    this.met = settings.meets ? 0 : MEETINGS.length;
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
    while (clock() < endS && !this.isMeeting);
    return true;
  }

  finish(): void {
    this.searchedS = Math.min(this.searchedS, this.settings.clock() - this.beganS);
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

  handOn(): HandedDay | null {
    if (!this.isMeeting) return null;
    this.met += 1;
    const { best, bestValue } = this.elites[0]!;
    return { schedule: best?.schedule ?? { placements: [] }, value: [bestValue] };
  }

  takeUp(schedule: Schedule): void {
    const { problem, trial, crew } = this;
    const day = new Day(problem);
    if (loadSchedule(day, schedule) > 0 || !trial.lay(day.board, true)) return;
    const wish = this.wishes[0]!;
    const sampled = trial.play(wish, null, 0, crew.caution)!;
    this.note(trial.day.board, trial.varied(wish, sampled));
    this.guests.push(schedule);
  }

  private get isMeeting(): boolean {
    const at = MEETINGS[this.met];
    return at !== undefined && this.answer === null && this.share() >= at;
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
    if (this.searchedS < Infinity) return 1;
    const share =
      iterations === undefined ? this.timeShare() / (1 - this.countsShare()) : this.iterations / iterations;
    return Math.min(1, share);
  }

  /** Which part of the time the best few are counted in: what the least part of their days takes, by how fast days have been played. */
  private countsShare(): number {
    const { seconds = Infinity } = this.settings;
    if (seconds === Infinity) return COUNTS;
    const needsS = LEAST_PART * this.choosingS(0) + AFTER * seconds;
    return Math.min(MOST_COUNTS, Math.max(COUNTS, needsS / Math.max(1e-9, seconds)));
  }

  /** How long it takes to choose for all wishes from the `w`-th on, s. */
  private choosingS(w: number): number {
    const { playedDays, playedS } = this.trial;
    const counts = {
      few: { count: FEW },
      more: { count: MORE },
      shown: { count: SHOWN },
    };
    const alike = this.elites.slice(w).reduce((sum, one) => sum + one.alike.length, 0);
    const days = daysToChoose(counts, SURE + HOPES) * (this.wishes.length - w) + alike * FEW;
    return days * SLOWER * (playedDays > 0 ? playedS / playedDays : 0);
  }

  private timeShare(): number {
    const { seconds = Infinity, clock } = this.settings;
    return (clock() - this.beganS) / seconds;
  }

  private course(): Course {
    const { problem, crew, elites, note, trial, settings } = this;
    return {
      problem,
      crew,
      from: settings.from ?? null,
      elites,
      note,
      trial,
      random: random(settings.seed),
      guests: this.guests,
      share: () => this.share(),
      tick: (iterations) => {
        this.iterations += iterations;
      },
    };
  }

  private *all(): Generator<undefined, void> {
    if (this.problem.activities === 0) return;
    const many = Math.min(1, Math.max(0, (this.problem.activities - FEW_TASKS) / (MANY - FEW_TASKS)));
    const proposes = PROPOSES + many * (PROPOSES_MANY - PROPOSES);
    const course = this.course();
    yield* new Proposer(course).until(proposes);
    yield* chains(course, proposes + CHAINS * (1 - proposes), MUCH);
    yield* chains(course, 1 - SURER, LITTLE);
    yield* surer(course, 1);
    yield* chains(course, 1, LITTLE);
    const days: Chosen = {
      few: this.daysOf(FEW, SEEDS.few),
      more: this.daysOf(MORE, SEEDS.more),
      shown: this.daysOf(SHOWN, SEEDS.shown),
      exact: this.settings.everyDay !== undefined,
    };
    const choices: (Choice | null)[] = [];
    for (const [w, wish] of this.wishes.entries()) {
      const { alike } = this.elites[w]!;
      const part = this.partInTime(w);
      choices.push(yield* choose(this.stage, this.candidates(w), alike, this.crew, wish, days, part));
    }
    const none = this.best();
    this.answer = this.wishes.map((wish, w) => dayNearest(wish, choices[w]!, choices) ?? none[w]!);
  }

  /** What is counted on many days for wish `w`, best first: of what is sure, and of what may be; what meets the wish always among them. */
  private candidates(w: number): readonly Elite[] {
    const { list, meeting, wish } = this.elites[w]!;
    const best = list.slice(0, SURE);
    const isMet = meeting === null || best.some(({ sampled }) => meetsWish(wish, sampled));
    const sure = isMet ? best : [...best.slice(0, SURE - 1), meeting];
    const hopes = this.hopes[w]!.list.filter(({ sampled }) => sure.every((one) => one.sampled !== sampled));
    return [...sure, ...hopes.slice(0, HOPES)];
  }

  /**
   * Which part of their days there is time for when the `w`-th wish and those after it are chosen for, by how fast days have been played in the
   * search: inside the time that was asked for, and in a tenth of the search where it was ended before that.
   */
  private partInTime(w: number): () => number {
    const { iterations, seconds = Infinity, clock } = this.settings;
    const isEnded = this.searchedS < Infinity;
    if (!isEnded && (iterations !== undefined || seconds === Infinity)) return () => 1;
    const needsS = Math.max(1e-9, this.choosingS(w));
    if (isEnded) {
      const allS = Math.max(1e-9, this.choosingS(0));
      return () => Math.min(1, Math.max(LEAST_PART, (Math.min(seconds, this.searchedS) * COUNTS) / allS));
    }
    const leftS = this.beganS + seconds * (1 - AFTER) - clock();
    return () => Math.min(1, Math.max(LAST_PART, leftS / needsS));
  }
}
