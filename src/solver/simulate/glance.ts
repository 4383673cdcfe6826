import type { Chance, ChancesReport, CrewRules } from "../../answers/index.ts";
import type { Shape } from "../../kernel/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { flown, withStartsOf } from "../problem/known.ts";
import type { Problem } from "../problem/problem.ts";
import { chanceOf } from "./chance.ts";
import { crewOf, LEFT_OUT } from "./crew.ts";
import { Days, type DaySample, sampleFor } from "./days.ts";
import { Latest } from "./latest.ts";
import { MISSED } from "./outcome.ts";
import { Player } from "./player.ts";
import { reasonWords } from "./reasons.ts";
import { daysFor, Script } from "./script.ts";
import { seenOf } from "./seen.ts";
import { type Stage, stageOf } from "./stage.ts";
import { Tally } from "./tally.ts";

export interface GlanceRun {
  /** Works for about `sliceS` seconds of the clock; false when the run is finished. */
  step(sliceS: number): boolean;
  report(): ChancesReport;
}

/** The days of `oddsRun` with its usual settings, so that both say the same. */
const SEED = 1;
const SHAPE: Shape = "pert";

/** What plans with the same frame have in common; of the days the most that were asked for. */
interface Kept {
  readonly stage: Stage;
  days: Days;
}

const kept = new WeakMap<Problem, Kept>();

/**
 * Begins a run of `days` simulated days of a schedule, for what is to be seen while it changes: what does not depend on the schedule is
 * made once for a plan. Its chances are those of `oddsRun` on as many days.
 */
export function glanceRun(plan: Plan, schedule: Schedule, days: number, clock: () => number): GlanceRun {
  const problem = flown(plan, schedule);
  const known = kept.get(problem) ?? {
    stage: stageOf(problem),
    days: new Days(problem, SHAPE, days, SEED),
  };
  if (known.days.count < days) known.days = new Days(problem, SHAPE, days, SEED);
  kept.set(problem, known);
  const laid = withStartsOf(problem, schedule);
  const script = new Script(laid === problem ? known.stage : { ...known.stage, problem: laid });
  script.takeSchedule(schedule);
  return new Run(script, known.days, days, clock);
}

class Run implements GlanceRun {
  private readonly crew: CrewRules;
  private readonly player: Player;
  private readonly draws: DaySample;
  private readonly tally: Tally;
  /** By activity: the latest start, and what was to spare up to it, summed over the days. */
  private readonly lastS: Float64Array;
  private readonly spareS: Float64Array;

  private readonly script: Script;
  private readonly days: Days;
  private readonly count: number;
  private readonly clock: () => number;

  constructor(script: Script, days: Days, count: number, clock: () => number) {
    const { problem } = script;
    this.script = script;
    this.days = days;
    this.count = daysFor(script, count);
    this.clock = clock;
    this.crew = crewOf(problem.plan.odds);
    this.player = new Player(script, this.crew);
    this.player.take();
    this.draws = sampleFor(problem);
    this.tally = new Tally(this.player, this.count);
    const latest = new Latest(script);
    latest.workOut(script, this.crew.caution);
    this.lastS = new Float64Array(problem.activities);
    this.spareS = new Float64Array(problem.activities);
    for (const a of script.order) this.lastS[a] = latest.lastStartS(script, a);
  }

  step(sliceS: number): boolean {
    const { tally, clock, count } = this;
    const endS = clock() + sliceS;
    do {
      if (tally.count >= count) return false;
      this.playDay();
    } while (clock() < endS);
    return tally.count < count;
  }

  private playDay(): void {
    const { script, days, draws, player, tally, lastS, spareS } = this;
    days.deal(tally.count, script.order, script.laneOf, draws);
    player.play(draws);
    tally.add(player, draws);
    for (const a of script.order)
      spareS[a]! +=
        player.state[a] === MISSED ? Math.min(0, lastS[a]! - player.endS[a]!) : lastS[a]! - player.startS[a]!;
  }

  report(): ChancesReport {
    const { tally, script } = this;
    const { plan } = script.problem;
    const placed = [...script.order].sort((a, b) => a - b);
    const chance = (count: number): Chance => chanceOf(count, tally.count);
    return {
      days: tally.count,
      seed: SEED,
      shape: SHAPE,
      crew: this.crew,
      wish: plan.odds.wish,
      home: chance(tally.home),
      must: chance(tally.must),
      whole: chance(tally.whole),
      meanWorth: seenOf(tally.counted).worth,
      tasks: placed.map((a) => ({
        task: plan.tasks[a]!.id,
        must: plan.tasks[a]!.must,
        done: chance(tally.done[a]!),
        reason: reasonWords(tally, a),
        slackS: this.slackOf(a),
      })),
      mustOnBench: plan.tasks.filter((task, a) => task.must && script.placed[a] === 0).map(({ id }) => id),
      withoutSpread: placed
        .filter((a) => script.stage.lowS[a] === script.stage.highS[a])
        .map((a) => plan.tasks[a]!.id),
      unplayed: script.unplayed,
      leftOut: LEFT_OUT,
    };
  }

  private slackOf(a: number): number | null {
    const mean = this.spareS[a]! / this.tally.count;
    return Number.isFinite(mean) ? Math.floor(mean) : null;
  }
}
