import type { BenchReason, Fit } from "../../answers/index.ts";
import { instant } from "../../kernel/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { digits, gridName, lasting, listed, mass, metres, numberedTask, volume } from "../../words/index.ts";
import { Bands } from "./bands.ts";
import { compiled } from "../problem/known.ts";
import type { Day } from "../network/day.ts";
import { firstFit } from "./firstfit.ts";
import { BEYOND, impossible, isBeyond } from "./impossible.ts";
import { nearMissWords } from "./nearmiss.ts";
import type { Problem } from "../problem/problem.ts";
import { readSound } from "../network/verify.ts";
import { Trial } from "./trial/trial.ts";
import { changed } from "../problem/changed.ts";

/** Above this many tasks the bands of every bench task would take too long: only sliding fits are looked for. */
const MOST_FOR_BANDS = 80;

const BROKEN = "The schedule breaks rules as it stands; mend it first.";
/** The order of a sound schedule need not hold at earliest starts, from which sliding is worked out. */
const UNKNOWN_SLIDING =
  "It fits nowhere with the others where they are; whether they could make room by sliding is unknown.";

const FITS_ELSEWHERE = "It fits if others start at other times; Why not? says which.";
const NONE_FOUND = "Other places and later starts were tried; none was found.";
const UNTRIED = "Other places and later starts were not tried.";
/** Places, and orders with starts held back on purpose, that are tried for one task. */
const TRIES = 60;
const WAITS = 40;

/** A reason for every task of `plan` that `schedule` does not place. */
export function benchReasons(plan: Plan, schedule: Schedule): BenchReason[] {
  const placed = new Set(schedule.placements.map((one) => one.task));
  const bench = new Bench(compiled(plan, schedule), schedule, placed);
  return plan.tasks.flatMap((task, a) => (placed.has(task.id) ? [] : [bench.reasonFor(a)]));
}

/** What is left out of a schedule, tried beside it. */
class Bench {
  private readonly problem: Problem;
  private readonly schedule: Schedule;
  private readonly placed: ReadonlySet<string>;
  /** The schedule, marked as it was laid. */
  private readonly trial: Trial;
  private readonly isLaid: boolean;
  private readonly isSound: boolean;
  private readonly bands: Bands | null;
  /** The same with starts at any second; null where there is no grid or it cannot be laid so, undefined before it was asked for. */
  private toTheSecond: Trial | null | undefined;

  constructor(problem: Problem, schedule: Schedule, placed: ReadonlySet<string>) {
    this.problem = problem;
    this.schedule = schedule;
    this.placed = placed;
    this.trial = new Trial(problem);
    this.isLaid = this.trial.lay(schedule) === 0;
    this.trial.mark();
    this.isSound = this.isLaid || readSound(problem, schedule) !== null;
    this.bands = problem.activities <= MOST_FOR_BANDS ? new Bands(problem, schedule) : null;
  }

  reasonFor(a: number): BenchReason {
    const { problem, trial, bands } = this;
    const reason = (sentence: string, fitsAt: Fit | null = null, slides = false): BenchReason => ({
      task: problem.plan.tasks[a]!.id,
      sentence,
      fitsAt,
      slides,
    });
    const outright = impossible(problem, a) ?? this.unmetNeeds(a) ?? overfull(problem, trial.day, a);
    if (outright !== null) return reason(outright);
    const now = bands && firstFit(bands, problem, a);
    if (now) return reason("It fits as things stand.", now);
    if (!this.isLaid) return reason(this.isSound ? UNKNOWN_SLIDING : BROKEN);
    const fit = this.fitSliding(a);
    if (fit && this.placed.size === 0) return reason("It fits as things stand.", fit);
    if (fit) return reason("It fits when others slide in their order.", fit, true);
    return reason(this.against(a));
  }

  /** What `a` needs and is on the bench too; null where nothing is. */
  private unmetNeeds(a: number): string | null {
    const { needs, plan } = this.problem;
    const missing = needs[a]!.map((b) => plan.tasks[b]!).filter((task) => !this.placed.has(task.id));
    if (missing.length === 0) return null;
    // By number: of two tasks of one name the other may well be on the day.
    const names = listed(missing.map((task) => numberedTask(plan, task.id)));
    return `It needs ${names}, which ${missing.length > 1 ? "are" : "is"} on the bench too.`;
  }

  /** Where `a` fits when others slide in their order. */
  private fitSliding(a: number): Fit | null {
    const { trial } = this;
    if (!trial.place(a)) return null;
    const fit = fitOf(trial.day, a);
    trial.restore();
    return fit;
  }

  /** What stands against `a` when others slide in their order. */
  private against(a: number): string {
    const { problem, trial, bands } = this;
    const beyond = isBeyond(problem, a) ? `${BEYOND} ` : "";
    if (!trial.hasSlackFor(a))
      return this.fitsToTheSecond(a) ? this.finerGrid() : `${beyond}${nearMissWords(trial.day, a)}`;
    const words = ruleWords(problem, trial.day.broke);
    if (bands !== null && this.fitsElsewhere(a)) return FITS_ELSEWHERE;
    if (this.fitsToTheSecond(a)) return this.finerGrid();
    return `${beyond}${words} ${bands === null ? UNTRIED : NONE_FOUND}`;
  }

  private finerGrid(): string {
    return `It fits with starts to the second, not with starts on ${gridName(this.problem.gridS)}: make the plan's grid of starts finer.`;
  }

  /** True when `a` fits with others sliding in their order and every start at any second; false where there is no grid. */
  private fitsToTheSecond(a: number): boolean {
    const { problem, schedule } = this;
    if (this.toTheSecond === undefined) {
      const finer = changed(problem, { gridS: 1, ...problem.windows });
      this.toTheSecond = problem.gridS === 1 ? null : Trial.of(finer, schedule);
      this.toTheSecond?.mark();
    }
    if (!this.toTheSecond?.place(a)) return false;
    this.toTheSecond.restore();
    return true;
  }

  /** True when `a` finds a place with the others sliding, or with starts held back on purpose. */
  private fitsElsewhere(a: number): boolean {
    // The slack test has had the last word there.
    if (this.problem.checkLevel === "slack") return false;
    const going = this.trial.placeGroup([a], { tries: TRIES, waits: WAITS });
    let step = going.next();
    while (!step.done) step = going.next();
    this.trial.restore();
    return step.value === true;
  }
}

/** Where a task lies on the day. */
function fitOf({ problem, board }: Day, a: number): Fit {
  const { plan } = problem;
  const first = problem.slotStart[a]!;
  const e = board.evaOf[a]!;
  return {
    eva: e < 0 ? null : plan.evas[e]!.id,
    crew: Array.from(
      { length: problem.crewCount[a]! },
      (_, k) => plan.crew[problem.memberOfRoute[board.lane[first + k]!]!]!.id,
    ),
    startS: instant(board.earliest[a]!),
  };
}

/** A group that has all that it may have, or a container or the ascent vehicle without room for its sample; null when all have. */
function overfull(problem: Problem, day: Day, a: number): string | null {
  const { loads, plan } = problem;
  const g = day.board.fullGroup(a);
  if (g >= 0) {
    const { name, most } = plan.groups[g]!;
    const there = plan.tasks.filter(
      (_, b) => problem.groups!.of[b]!.includes(g) && day.board.placed[b] === 1,
    );
    const instead =
      there.length === 0 ? "" : `, and there is already ${listed(there.map((task) => task.name))}`;
    return `Of ${name} at most ${most} may be done${instead}.`;
  }
  if (day.board.holdsSample(a)) return null;
  const c = loads.container[a]!;
  const { board } = day;
  const kg = (grams: number): string => mass(grams / 1000, "given");
  const overG = board.grams[c]! + loads.grams[a]! - loads.holdsGrams[c]!;
  const overMl = board.millilitres[c]! + loads.millilitres[a]! - loads.holdsMillilitres[c]!;
  const { name } = plan.containers[c]!;
  if (overG > 0) return `Its sample is ${kg(overG)} more than ${name} still takes.`;
  if (overMl > 0) return `Its sample is ${volume(overMl / 1000, "given")} more than ${name} still takes.`;
  const box = board.inContainer[c] === 0 ? loads.emptyGrams[c]! : 0;
  return `With it ${kg(board.returnGrams + loads.grams[a]! + box - loads.returnGrams)} too much would go back on the ascent vehicle.`;
}

/** What stands against a task for which the time would be there. */
function ruleWords(problem: Problem, rule: Day["broke"]): string {
  const { separation, work, heat, duty, distance } = problem.plan.rules;
  switch (rule) {
    case "crew-separation":
      return `There is time, but crew members would be more than ${metres(separation.greatestM, "down")} apart: ask for them together, or for work near it.`;
    case "egress-window":
      return "There is time, but not inside the windows that are counted from egress.";
    case "work-and-rest":
      return `There is time, but not for the rest of ${lasting(work.restS, "up")} that is due after ${lasting(work.longestS, "down")} of work.`;
    case "heat-storage":
      return `There is time, but a body would store more than ${digits(heat.mostKjKg)} kJ of heat for each kg, and no stand before would let it go.`;
    case "walk-back-consumables":
      return "There is time, but consumables above the reserve would not carry the walk back at every moment.";
    case "totals":
      return `There is time, but not within the stay's sums: ${lasting(duty.stayS, "down")} of EVA, ${metres(distance.stayM, "down")} walked, the lander's stores.`;
    default:
      return "There is room at single places, but others would be pushed past their windows, links, EVA bounds or reserves.";
  }
}
