import type {
  Bands,
  CrewRules,
  EvaOdds,
  Sensitivity,
  MarginOdds,
  OddsProgress,
  OddsReport,
  PendingPart,
  Spoil,
} from "../../answers/index.ts";
import { instant, type Shape } from "../../kernel/index.ts";
import { CONSUMABLES, type Consumable } from "../../physics/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { counted, fixed } from "../../words/index.ts";
import { KINDS } from "../problem/problem.ts";
import { Alternatives } from "./alternatives.ts";
import { chanceOf } from "./chance.ts";
import { crewOf, LEFT_OUT } from "./crew.ts";
import { Days, type DaySample, sampleFor } from "./days.ts";
import { Offers } from "./offers.ts";
import { Player } from "./player.ts";
import { reasonWords } from "./reasons.ts";
import { outcomeOf } from "./seen.ts";
import { partlySort } from "./partlysort.ts";
import { daysFor, type Script, scriptOf } from "./script.ts";
import { evaOf, plannedWorth, Tally, worthOf } from "./tally.ts";
import type { Moment } from "./today.ts";

export interface OddsSettings {
  /** Simulated days, at most MOST_DAYS. */
  readonly days: number;
  readonly seed: number;
  readonly shape: Shape;
  /** How the crew acts; the plan's own where left out. */
  readonly crew?: CrewRules | undefined;
  /** The caller's clock, seconds from anywhere; it only ends slices. */
  readonly clock: () => number;
}

/** A run that is driven slice by slice. Same plan, schedule, days, seed and shape: same report. */
export interface OddsRun {
  /** Works for about `sliceS` seconds of the clock; false when the run is finished. */
  step(sliceS: number): boolean;
  progress(): OddsProgress;
  /** The report on the days so far; complete once step gave false. */
  report(): OddsReport;
}

const MOST_DAYS = 10_000;

/** Percentiles that bands show, in the order of their values. */
const PERCENTILES = [5, 25, 50, 75, 95] as const;

/** Moments of each EVA at which the margins are read off. */
const MOMENTS = 41;
/** Tasks tried for how much they hurt, the most suspect ones. */
const SUSPECTS = 12;
const SHOWN = 3;

const SENSITIVITY_MEASURE =
  "Chance of everybody home with every must-do task done gained if the task took its likely time exactly, everything else as drawn, on the same simulated days; " +
  `equal gains by mean worth gained. Tried on the ${SUSPECTS} tasks whose overruns go most with lost days and lost worth.`;

/** Begins a run of many simulated days; how a day is played stands in crew.ts. */
export function oddsRun(plan: Plan, schedule: Schedule, settings: OddsSettings): OddsRun {
  return new Run(plan, schedule, settings);
}

/** A task that is tried for how much it hurts. */
interface Suspect {
  readonly a: number;
  /** Where it stands in the plan's order. */
  readonly position: number;
  /** What stands before it on the day that is being played. */
  readonly before: Moment;
  up: number;
  down: number;
  worthGain: number;
}

class Run implements OddsRun {
  private readonly script: Script;
  private readonly settings: OddsSettings;
  private readonly player: Player;
  private readonly days: Days;
  private readonly draws: DaySample;
  private readonly alternatives: Alternatives;
  private readonly offers: Offers;
  private readonly crew: CrewRules;
  private readonly tally: Tally;
  private readonly beganS: number;
  private suspects: readonly Suspect[] | null = null;
  /** Days played again for the suspects. */
  private again = 0;
  private sensitivities: readonly Sensitivity[] = [];
  private readonly bands: Bands[] = [];
  /** Parts that are not worked out yet, the next one first. */
  private pending: readonly PendingPart[] = ["otherwise", "offers", "sensitivities"];
  /** The report as it was told last, and what it lacked then. */
  private reported: OddsReport | null = null;
  private readonly column: Float32Array;

  constructor(plan: Plan, schedule: Schedule, settings: OddsSettings) {
    this.settings = settings;
    this.beganS = settings.clock();
    this.script = scriptOf(plan, schedule);
    const days = daysFor(this.script, Math.min(MOST_DAYS, Math.floor(settings.days)));
    this.crew = settings.crew ?? crewOf(plan.odds);
    this.player = new Player(this.script, this.crew, MOMENTS);
    this.player.take();
    this.days = new Days(this.script.problem, settings.shape, days, settings.seed);
    this.draws = sampleFor(this.script.problem);
    this.tally = new Tally(this.player, days);
    this.alternatives = new Alternatives(this.script, this.crew, this.days, settings.shape, settings.seed);
    this.offers = new Offers(this.script, schedule, this.crew, this.days, this.tally);
    this.column = new Float32Array(days);
  }

  step(sliceS: number): boolean {
    const { clock } = this.settings;
    const endS = clock() + sliceS;
    do if (!this.advance()) return false;
    while (clock() < endS);
    return true;
  }

  progress(): OddsProgress {
    return {
      seconds: this.settings.clock() - this.beganS,
      days: this.tally.count,
      of: this.tally.days,
      report: this.known(),
    };
  }

  /** The report once all days are played, made anew when it has a part more; null before. */
  private known(): OddsReport | null {
    if (!this.isPlayed()) return null;
    if (this.reported?.pending !== this.pending) this.reported = this.report();
    return this.reported;
  }

  /** True when all days are played and the bands of their margins are there. */
  private isPlayed(): boolean {
    const { count, days, columns } = this.tally;
    return count === days && (days === 0 || this.bands.length === columns);
  }

  /** A little work: some days, or some band, or some of the next part; false when there is none left. */
  private advance(): boolean {
    const { tally } = this;
    if (tally.count < tally.days) {
      for (let n = 0; n < 8 && tally.count < tally.days; n += 1) this.playDay();
      return true;
    }
    if (this.bands.length < tally.columns && tally.count > 0) {
      this.bands.push(this.bandOf(this.bands.length));
      return true;
    }
    const [part] = this.pending;
    if (part === undefined) return false;
    if (!this.goesOn(part)) this.pending = this.pending.slice(1);
    return true;
  }

  /** Some work for a part; false when it is worked out. */
  private goesOn(part: PendingPart): boolean {
    const { tally } = this;
    if (part === "otherwise") return tally.count > 0 && this.alternatives.advance(32);
    if (part === "offers") return this.offers.advance();
    this.suspects ??= this.suspectsOf();
    if (this.suspects.length === 0 || this.again === tally.days) return false;
    this.playAgain(this.suspects);
    if (this.again === tally.days) this.sensitivities = this.suspects.map((one) => this.sensitivityOf(one));
    return true;
  }

  private playDay(): void {
    const { tally, player } = this;
    const draws = this.deal(tally.count);
    player.play(draws, true);
    tally.add(player, draws);
  }

  private deal(day: number): DaySample {
    const { order, laneOf } = this.script;
    this.days.deal(day, order, laneOf, this.draws);
    return this.draws;
  }

  /** In the order in which they are played. */
  private suspectsOf(): readonly Suspect[] {
    const { script, player } = this;
    const { suspicion } = this.tally;
    const most = [...script.order]
      .filter((a) => suspicion[a]! > 0)
      .sort((a, b) => suspicion[b]! - suspicion[a]! || a - b)
      .slice(0, SUSPECTS);
    return [...script.order].flatMap((a, position) =>
      most.includes(a) ? [{ a, position, before: player.moment(), up: 0, down: 0, worthGain: 0 }] : [],
    );
  }

  /**
   * Plays the next day again for every suspect, which takes its likely time. The day is the same up to there, so it is
   * played once and gone back to, the last suspect first.
   */
  private playAgain(suspects: readonly Suspect[]): void {
    const { tally, player, script } = this;
    const day = this.again;
    const draws = this.deal(day);
    player.begin();
    let played = 0;
    for (const { position, before } of suspects) {
      player.playOn(draws, played, position);
      player.keep(before);
      played = position;
    }
    for (let i = suspects.length - 1; i >= 0; i -= 1) {
      const suspect = suspects[i]!;
      const drawnS = draws.durationS[suspect.a]!;
      draws.durationS[suspect.a] = script.problem.lengthS[suspect.a]!;
      player.goBack(suspect.before);
      player.playOn(draws, suspect.position, script.order.length);
      player.end(draws);
      draws.durationS[suspect.a] = drawnS;
      const isGood = tally.isGoodDay(player);
      if (isGood && tally.good[day] === 0) suspect.up += 1;
      if (!isGood && tally.good[day] === 1) suspect.down += 1;
      suspect.worthGain += worthOf(player) - tally.worth[day]!;
    }
    this.again += 1;
  }

  private sensitivityOf(suspect: Suspect): Sensitivity {
    const { a, up, down } = suspect;
    const { days } = this.tally;
    const gain = (up - down) / days;
    const worthGain = suspect.worthGain / days;
    const { name, id } = this.script.problem.plan.tasks[a]!;
    return {
      task: id,
      gain,
      standardError: Math.sqrt(Math.max(0, (up + down) / days - gain * gain) / days),
      worthGain,
      sentence:
        `If ${name} took its likely time exactly, everybody would be home with every must-do task done in ${Math.abs(up - down)} ` +
        `${up >= down ? "more" : "fewer"} of ${counted(days, "simulated day")}${averageWords(worthGain)}.`,
    };
  }

  /** Percentiles of one column of the grid, above the reserve. */
  private bandOf(column: number): Bands {
    const { tally } = this;
    const list = this.column.subarray(0, tally.count);
    for (let day = 0; day < tally.count; day += 1) list[day] = tally.grid[day * tally.columns + column]!;
    const ranks = PERCENTILES.map((part) => rankOf(part, list.length, "down"));
    partlySort(list, ranks);
    return ranks.map((rank) => list[rank] ?? 0) as unknown as Bands;
  }

  report(): OddsReport {
    const { tally, script, settings } = this;
    const { plan } = script.problem;
    const chance = (count: number) => chanceOf(count, tally.count);
    const placed = [...script.order].sort((a, b) => a - b);
    return {
      days: tally.count,
      seed: settings.seed,
      shape: settings.shape,
      complete: this.isPlayed(),
      pending: this.pending,
      crew: this.crew,
      home: chance(tally.home),
      must: chance(tally.must),
      whole: chance(tally.whole),
      otherwise: this.alternatives.comparisons(this.crew, outcomeOf(tally.counted)),
      wish: plan.odds.wish,
      spoils: this.spoils(placed),
      offers: [...this.offers.list],
      evas: plan.evas.flatMap((_, e) => (script.flown[e] === 1 ? [this.evaOdds(e)] : [])),
      tasks: placed.map((a) => ({
        task: plan.tasks[a]!.id,
        must: plan.tasks[a]!.must,
        done: chance(tally.done[a]!),
        window: script.stage.windowed[a] === 1 ? chance(tally.inWindow[a]!) : null,
      })),
      mustOnBench: plan.tasks.filter((task, a) => task.must && script.placed[a] === 0).map(({ id }) => id),
      margins: this.bands.length === tally.columns && tally.count > 0 ? this.marginOdds() : [],
      worth: this.worthOdds(),
      sensitivities: [...this.sensitivities]
        .sort((x, y) => y.gain - x.gain || y.worthGain - x.worthGain || (x.task < y.task ? -1 : 1))
        .filter(({ gain, worthGain }) => gain > 0 || worthGain > 0)
        .slice(0, SHOWN),
      sensitivityMeasure: SENSITIVITY_MEASURE,
      withoutSpread: placed
        .filter((a) => script.stage.lowS[a] === script.stage.highS[a])
        .map((a) => plan.tasks[a]!.id),
      unplayed: script.unplayed,
      leftOut: LEFT_OUT,
    };
  }

  private spoils(placed: readonly number[]): Spoil[] {
    const { tally, script } = this;
    const { tasks } = script.problem.plan;
    const missed = (a: number): number => tally.count - tally.done[a]!;
    const costs = (a: number): number => tally.wanting[a]! / Math.max(1, tally.count);
    return placed
      .filter((a) => missed(a) > 0)
      .sort((a, b) => {
        const must = Number(tasks[b]!.must) - Number(tasks[a]!.must);
        return must || (tasks[a]!.must ? missed(b) - missed(a) : costs(b) - costs(a)) || a - b;
      })
      .map((a) => ({
        task: tasks[a]!.id,
        must: tasks[a]!.must,
        missed: chanceOf(missed(a), tally.count, "up"),
        reason: reasonWords(tally, a) ?? "",
        costs: costs(a),
      }));
  }

  private evaOdds(e: number): EvaOdds {
    const { tally, script, player } = this;
    const { problem } = script;
    const chance = (count: number) => chanceOf(count, tally.count);
    const closeS = tally.closeS.slice(e * tally.days, e * tally.days + tally.count).sort();
    return {
      eva: problem.plan.evas[e]!.id,
      closes: chance(tally.closes[e]!),
      asPlanned: chance(tally.evaWhole[e]!),
      must: script.order.some((a) => problem.must[a] === 1 && evaOf(script, a) === e)
        ? chance(tally.evaMust[e]!)
        : null,
      outLate: chanceOf(tally.outLate[e]!, tally.count, "up"),
      needsMissed: chanceOf(tally.needsMissed[e]!, tally.count, "up"),
      duration: chance(tally.inTime[e]!),
      reserves: Object.fromEntries(
        CONSUMABLES.map((kind, k) => [kind, chance(tally.inReserve[e * KINDS + k]!)]),
      ) as EvaOdds["reserves"],
      plannedIngressS: instant(script.closeS[e]!),
      limitS: instant(player.limitS(e, script.egressS[e]!)),
      ingressS: percentiles(closeS, "up"),
    };
  }

  private marginOdds(): MarginOdds[] {
    const { script, player, bands } = this;
    const { problem, flown, stage } = script;
    const { rates } = stage;
    const { plan } = problem;
    const list: MarginOdds[] = [];
    for (let r = 0; r < problem.routes; r += 1) {
      const e = problem.evaOfRoute[r]!;
      const m = problem.memberOfRoute[r]!;
      if (flown[e] === 0) continue;
      CONSUMABLES.forEach((consumable, k) => {
        const reserve = rates.reserve[r * KINDS + k]!;
        const column = (r * KINDS + k) * MOMENTS;
        list.push({
          eva: plan.evas[e]!.id,
          crew: plan.crew[m]!.id,
          consumable,
          stock: amount(consumable, rates.stock[r * KINDS + k]!),
          reserve: amount(consumable, reserve),
          points: Array.from({ length: MOMENTS }, (_, g) => ({
            atS: instant(player.suits.gridS[e * MOMENTS + g]!),
            left: bands[column + g]!.map((above) => amount(consumable, above + reserve)) as unknown as Bands,
          })),
        });
      });
    }
    return list;
  }

  private worthOdds(): OddsReport["worth"] {
    const { tally, script } = this;
    const list = tally.worth.slice(0, tally.count).sort();
    const n = Math.max(1, list.length);
    const mean = list.reduce((sum, one) => sum + one, 0) / n;
    const square = list.reduce((sum, one) => sum + (one - mean) ** 2, 0);
    return {
      planned: plannedWorth(script),
      mean,
      standardError: Math.sqrt(square / Math.max(1, n - 1) / n),
      bands: percentiles(list, "down"),
      least: list[0] ?? 0,
      greatest: list.at(-1) ?? 0,
    };
  }
}

/** PERCENTILES of an ascending list, each a value of the list: the one below, or the one above; zeros of an empty list. */
function percentiles(sorted: Float64Array, rounding: "up" | "down"): Bands {
  return PERCENTILES.map((part) => sorted[rankOf(part, sorted.length, rounding)] ?? 0) as unknown as Bands;
}

/** Where a percentile stands in an ascending list of so many. */
function rankOf(part: number, count: number, rounding: "up" | "down"): number {
  const exact = ((count - 1) * part) / 100;
  return rounding === "up" ? Math.ceil(exact) : Math.floor(exact);
}

/** Whole units as kg, or Wh for the battery. */
function amount(consumable: Consumable, units: number): number {
  return consumable === "battery" ? units / 3_600_000 : units / 1e9;
}

/** `, worth on average +1.6`; rounded down; nothing where that is no tenth. */
export function averageWords(worthGain: number): string {
  const gain = fixed(worthGain, 1, "down");
  return gain === "0.0" ? "" : `, worth on average ${worthGain > 0 ? "+" : ""}${gain}`;
}
