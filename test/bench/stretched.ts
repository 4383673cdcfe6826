import type { Plan, Schedule } from "../../src/plan/index.ts";
import { Day } from "../../src/solver/network/day.ts";
import { loadSchedule, scheduleOf } from "../../src/solver/network/placing.ts";
import { runOn } from "../../src/solver/pack.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import type { Problem } from "../../src/solver/problem/problem.ts";
import { countOf } from "../../src/solver/simulate/count.ts";
import { acting } from "../../src/solver/simulate/crew.ts";
import { Days } from "../../src/solver/simulate/days.ts";
import type { Seen } from "../../src/solver/simulate/seen.ts";
import { type Stage, stageOf } from "../../src/solver/simulate/stage.ts";
import { restretch } from "../../src/solver/wish/restretch.ts";
import { processorSeconds } from "./clock.ts";

const CAUTIONS = [0, 0.25, 0.5, 0.75];
/** Twelve levels of a blind stretch. */
const LEVELS = [0, 0.02, 0.05, 0.08, 0.1, 0.12, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4];
/** Days a schedule and caution is counted on, and how many of the best of them go on: all, then the best twelve, then the best four. */
const ROUNDS = [
  { days: 100, of: LEVELS.length * CAUTIONS.length },
  { days: 300, of: 12 },
  { days: 1000, of: 4 },
];
/** Asked for beyond the wish in choosing: of days that only just meet it, half do not on others. */
const SPARE = 0.01;
/** Part of the time that packing gets at the least, however long days take. */
const PACKS = 0.7;

/** A schedule, the crew's caution with which it does most, and the stretch it was packed at, where it was at one. */
export interface Chosen {
  readonly schedule: Schedule;
  readonly caution: number;
  readonly level?: number;
}

interface Counted extends Chosen {
  readonly seen: Seen;
}

/** The better of two: what meets the wish, then what does more; where neither meets it, what comes nearer. */
export function better(wish: Plan["odds"]["wish"], a: Seen, b: Seen): boolean {
  const meets = ({ home, must }: Seen): boolean => home >= wish.home && must >= wish.must;
  if (meets(a) !== meets(b)) return meets(a);
  return meets(a) ? a.worth > b.worth : a.must + a.home > b.must + b.home;
}

/** Plays `schedule` on so many of `days` with each caution. */
export function withCautions(stage: Stage, schedule: Schedule, days: Days, level?: number): Counted[] {
  return CAUTIONS.map((caution) =>
    counted(stage, { schedule, caution, ...(level === undefined ? {} : { level }) }, days),
  );
}

function counted(stage: Stage, chosen: Chosen, days: Days): Counted {
  const { schedule, caution } = chosen;
  return { ...chosen, seen: countOf(stage, schedule, acting(caution), days).until(days.count).seen };
}

/**
 * The best of twelve blind stretches with the crew at its best caution: what anybody would do who has a packer, simulated days and so
 * many `seconds` of processor time for compiling, packing and choosing together.
 */
export function stretched(plan: Plan, seed: number, seconds: number): Chosen {
  const fromS = processorSeconds();
  const problem = compile(plan);
  const stage = stageOf(problem);
  const wish = { ...plan.odds.wish, must: Math.min(1, plan.odds.wish.must + SPARE) };
  const days = ROUNDS.map(({ days }, k) => new Days(problem, "pert", days, 5_000_011 + 1_000_003 * k + seed));
  const daysInAll = ROUNDS.reduce((sum, round) => sum + round.days * round.of, 0);
  const each = ROUNDS[0]!.days * CAUTIONS.length;
  // How long a day takes is not known at first, and less from pack to pack while the engine makes code quick.
  let dayS = Infinity;
  let list: Counted[] = [];
  LEVELS.forEach((level, k) => {
    const leftS = seconds - (processorSeconds() - fromS);
    const packsS = Math.max(PACKS * leftS, leftS - dayS * (daysInAll - k * each)) / (LEVELS.length - k);
    const schedule = packedAt(problem, level, seed, packsS);
    const beginsS = processorSeconds();
    list.push(...withCautions(stage, schedule, days[0]!, level));
    dayS = Math.min(dayS, (processorSeconds() - beginsS) / each);
  });
  const byPromise = (a: Counted, b: Counted): number =>
    Number(better(wish, b.seen, a.seen)) - Number(better(wish, a.seen, b.seen));
  ROUNDS.slice(1).forEach(({ of }, k) => {
    list = list
      .sort(byPromise)
      .slice(0, of)
      .map((one) => counted(stage, one, days[k + 1]!));
  });
  return list.sort(byPromise)[0]!;
}

/** The same with twelve packs in so many seconds, and chosen among by 1,000 days a schedule and caution that are not counted in them. */
export function stretchedAndChosenApart(plan: Plan, seed: number, seconds: number): Chosen {
  const problem = compile(plan);
  const stage = stageOf(problem);
  const days = new Days(problem, "pert", 1000, 5_000_011 + seed);
  return LEVELS.flatMap((level) =>
    withCautions(stage, packedAt(problem, level, seed, seconds / LEVELS.length), days, level),
  ).reduce((best, one) => (better(plan.odds.wish, one.seen, best.seen) ? one : best));
}

/** Packed in so many seconds as if everything took longer by `level` of what lies between likely and high. */
function packedAt(problem: Problem, level: number, seed: number, seconds: number): Schedule {
  const day = new Day(problem);
  // At likely durations every rule holds in what is flown.
  loadSchedule(
    day,
    packed(
      restretch(problem, () => level),
      seed,
      seconds,
    ),
  );
  return scheduleOf(day.board);
}

export function packed(problem: Problem, seed: number, seconds: number): Schedule {
  const run = runOn(problem, { seed, seconds, clock: processorSeconds });
  while (run.step(1));
  return run.best();
}
