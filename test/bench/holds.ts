import { readFileSync } from "node:fs";
import { judgeFor } from "../../src/check/index.ts";
import { parseText, type Plan } from "../../src/plan/index.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import { acting } from "../../src/solver/simulate/crew.ts";
import { Days } from "../../src/solver/simulate/days.ts";
import { stageOf } from "../../src/solver/simulate/stage.ts";
import { ceilingOf } from "../../src/solver/ceiling.ts";
import { wishRun } from "../../src/solver/wish/index.ts";
import { countOf } from "../../src/solver/simulate/count.ts";
import { processorSeconds } from "./clock.ts";
import { workingPlan } from "./inner.plan.ts";
import {
  better,
  type Chosen,
  packed,
  stretched,
  stretchedAndChosenApart,
  withCautions,
} from "./stretched.ts";

const FRESH = 4000;
/** Made plans have from so many tasks to so many. */
const FEWEST = 40;
const MOST = 150;
/** The large plans, in tasks. */
const LARGE = 100;

/** What one way came to on one plan, on days that nobody chose by. */
interface Result {
  readonly worth: number;
  readonly meets: boolean;
}

interface Pair {
  readonly name: string;
  readonly tasks: number;
  readonly stretched: Result;
  readonly wished: Result;
}

/**
 * `npm run bench -- holds [--seconds 10] [--seeds 1] [--plans small,demo,large,40-1,...] [--made 20]`: worth on average and the chances, on
 * days that nobody chose by, of (a) the day packed for likely durations, (b) the best of twelve blind stretches with the same crew at its
 * best caution, packed and chosen in the same processor time, (c) the day packed for the wish; and what no crew inside its limits does more of.
 * `N-S` is a made plan of N tasks from seed S; `--made` makes so many of 40 to 150 tasks. The judge counts the breaches of each.
 * `--generous` chooses (b) by 48,000 days that are not counted in its time, `--short` leaves out (a) and the bound. `--lateness day,outing` sets the shares.
 */
export async function run(args: string[]): Promise<void> {
  const option = (name: string, otherwise: string): string => {
    const at = args.indexOf(`--${name}`);
    return at < 0 ? otherwise : args[at + 1]!;
  };
  const seconds = Number(option("seconds", "10"));
  const made = Number(option("made", "0"));
  const [day, outing] = option("lateness", "0.1,0.2").split(",").map(Number);
  const named = option("plans", made > 0 ? "" : "small,demo")
    .split(",")
    .filter(Boolean);
  const pairs: Pair[] = [];
  console.log(
    "plan      seed  what           caution  worth   must %   home %  planned  breaches  wish    seconds",
  );
  for (const name of [...named, ...Array.from({ length: made }, (_, k) => madeName(k, made))]) {
    const plan = planOf(name);
    const odds = { ...plan.odds, lateness: { ...plan.odds.lateness, day: day!, outing: outing! } };
    for (const seed of option("seeds", "1").split(",").map(Number))
      pairs.push(
        bench(name, { ...plan, odds }, seed, seconds, {
          generous: args.includes("--generous"),
          short: args.includes("--short"),
        }),
      );
    await Promise.resolve();
  }
  summary(pairs);
}

interface Ways {
  readonly generous: boolean;
  readonly short: boolean;
}

function bench(name: string, plan: Plan, seed: number, seconds: number, { generous, short }: Ways): Pair {
  // What comes before the search counts for all alike.
  const fromS = processorSeconds();
  const problem = compile(plan);
  const searchS = seconds - (processorSeconds() - fromS);
  const stage = stageOf(problem);
  const judge = judgeFor(plan);
  const fresh = new Days(problem, "pert", FRESH, 9_000_011 + seed);
  const { wish } = plan.odds;
  const judged = (what: string, choose: () => Chosen): Result => {
    const fromS = processorSeconds();
    const { schedule, caution, level } = choose();
    const tookS = processorSeconds() - fromS;
    const { seen } = countOf(stage, schedule, acting(caution), fresh).until(FRESH);
    const { score } = judge(schedule);
    const meets = seen.home >= wish.home && seen.must >= wish.must;
    console.log(
      [
        name.padEnd(9),
        String(seed).padStart(4),
        (level === undefined ? what : `${what} ${level.toFixed(2)}`).padEnd(14),
        caution.toFixed(2).padStart(7),
        seen.worth.toFixed(1).padStart(7),
        (seen.must * 100).toFixed(1).padStart(7),
        (seen.home * 100).toFixed(1).padStart(8),
        String(score.worth).padStart(8),
        String(score.breaches).padStart(9),
        (meets ? "met" : "missed").padEnd(6),
        tookS.toFixed(1).padStart(6),
      ].join("  "),
    );
    return { worth: seen.worth, meets };
  };
  if (!short)
    judged("likely", () => {
      const days = new Days(problem, "pert", 1000, 7_000_011 + seed);
      return withCautions(stage, packed(problem, seed, searchS), days).reduce((best, one) =>
        better(wish, one.seen, best.seen) ? one : best,
      );
    });
  const blind = judged("stretched", () =>
    (generous ? stretchedAndChosenApart : stretched)(plan, seed, seconds),
  );
  const run = wishRun(plan, { seed, seconds: searchS, clock: processorSeconds });
  const wished = judged("wished", () => {
    while (run.step(1));
    return run.best()[0]!;
  });
  console.log(`           ${run.progress().tried} schedules played for the wish`);
  if (!short) {
    const ceiling = ceilingOf(plan, { days: 20, seed: 11_000_011 + seed, turns: 40 })!;
    console.log(
      `           at most ${Math.ceil(ceiling.mean)} +- ${Math.ceil(2 * ceiling.standardError)} on average: 20 days known beforehand, by routes`,
    );
  }
  return { name, tasks: plan.tasks.length, stretched: blind, wished };
}

/** By how much packing for the wish does more than stretching, plan by plan where it does less, and on the mean of plans. */
function summary(pairs: readonly Pair[]): void {
  const gain = ({ stretched: b, wished: c }: Pair): number => (c.worth / b.worth - 1) * 100;
  const line = (what: string, list: readonly Pair[]): void => {
    if (list.length === 0) return;
    const mean = list.reduce((sum, one) => sum + gain(one), 0) / list.length;
    const below = list.filter((one) => gain(one) < 0).length;
    console.log(`${what}: ${list.length}, by ${mean.toFixed(2)} % on their mean, less on ${below}`);
  };
  const missed = pairs.filter(({ stretched: b, wished: c }) => b.meets && !c.meets);
  const fair = pairs.filter(({ stretched: b, wished: c }) => b.meets && c.meets);
  line("both meet the wish", fair);
  line(
    `of them with over ${LARGE} tasks`,
    fair.filter(({ tasks }) => tasks > LARGE),
  );
  for (const one of fair.filter((pair) => gain(pair) < 0))
    console.log(`  less on ${one.name}: by ${(-gain(one)).toFixed(2)} %`);
  const names = (list: readonly Pair[]): string => list.map(({ name }) => name).join(", ") || "none";
  console.log(`stretching alone meets it: ${names(missed)}`);
  console.log(
    `the pack for the wish alone meets it: ${names(pairs.filter(({ stretched: b, wished: c }) => !b.meets && c.meets))}`,
  );
}

/** The `k`-th of so many made plans, from few tasks to many. */
function madeName(k: number, of: number): string {
  const tasks = Math.round(FEWEST + ((MOST - FEWEST) * k) / Math.max(1, of - 1));
  return `${tasks}-${k + 1}`;
}

function planOf(name: string): Plan {
  const made = /^(\d+)-(\d+)$/.exec(name);
  if (made) return workingPlan(Number(made[2]), Number(made[1]));
  const read = parseText(readFileSync(`public/plans/${name}.json`, "utf8"));
  if (!read.ok) throw new Error(read.error.map((fault) => `${fault.path}: ${fault.message}`).join("\n"));
  return read.value;
}
