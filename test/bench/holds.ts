import { readFileSync } from "node:fs";
import { judgeFor } from "../../src/check/index.ts";
import { parseText, type Plan, type Schedule } from "../../src/plan/index.ts";
import { Day } from "../../src/solver/network/day.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import { acting } from "../../src/solver/simulate/crew.ts";
import { Days } from "../../src/solver/simulate/days.ts";
import { stageOf } from "../../src/solver/simulate/stage.ts";
import { ceilingOf } from "../../src/solver/ceiling.ts";
import { runOn } from "../../src/solver/pack.ts";
import { loadSchedule, scheduleOf } from "../../src/solver/network/placing.ts";
import { wishRun } from "../../src/solver/wish/index.ts";
import { restretch } from "../../src/solver/wish/restretch.ts";
import { countOf } from "../../src/solver/simulate/count.ts";
import type { Seen } from "../../src/solver/simulate/seen.ts";
import { processorSeconds } from "./clock.ts";
import { workingPlan } from "./inner.plan.ts";

const CAUTIONS = [0, 0.25, 0.5, 0.75];
/** Twelve levels of a blind stretch. */
const LEVELS = [0, 0.02, 0.05, 0.08, 0.1, 0.12, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4];
const FRESH = 4000;

/**
 * `npm run bench -- holds [--seconds 10] [--seeds 1] [--plans small,demo,large,40-1,...]`: worth on average and the chances, on days
 * that nobody chose by, of (a) the day packed for likely durations, (b) the best of twelve blind stretches in the same processor time
 * and with the same crew at its best caution, (c) the day packed for the wish; and what no crew inside its limits does more of. `N-S` is a made plan of N tasks from seed S. The judge
 * counts the breaches of each. `--lateness day,outing` sets the shares.
 */
export async function run(args: string[]): Promise<void> {
  const option = (name: string, otherwise: string): string => {
    const at = args.indexOf(`--${name}`);
    return at < 0 ? otherwise : args[at + 1]!;
  };
  const seconds = Number(option("seconds", "10"));
  const seeds = option("seeds", "1").split(",").map(Number);
  const [day, outing] = option("lateness", "0.1,0.2").split(",").map(Number);
  console.log("plan      seed  what      caution  worth   must %   home %  planned  breaches  wish");
  for (const name of option("plans", "small,demo").split(",")) {
    const made = planOf(name);
    const plan: Plan = {
      ...made,
      odds: { ...made.odds, lateness: { ...made.odds.lateness, day: day!, outing: outing! } },
    };
    for (const seed of seeds) bench(name, plan, seed, seconds);
    await Promise.resolve();
  }
}

function bench(name: string, plan: Plan, seed: number, seconds: number): void {
  // What comes before the search counts for all alike: the pack for the wish does it inside its time.
  const fromS = processorSeconds();
  const problem = compile(plan);
  const searchS = seconds - (processorSeconds() - fromS);
  const stage = stageOf(problem);
  const judge = judgeFor(plan);
  const chosenBy = new Days(problem, "pert", 1000, 5_000_011 + seed);
  const fresh = new Days(problem, "pert", FRESH, 9_000_011 + seed);
  const { home, must } = plan.odds.wish;
  const meets = (one: Seen): boolean => one.home >= home && one.must >= must;
  const print = (what: string, schedule: Schedule, caution: number): void => {
    const { seen } = countOf(stage, schedule, acting(caution), fresh).until(FRESH);
    const { score } = judge(schedule);
    console.log(
      [
        name.padEnd(9),
        String(seed).padStart(4),
        what.padEnd(9),
        caution.toFixed(2).padStart(7),
        seen.worth.toFixed(1).padStart(7),
        (seen.must * 100).toFixed(1).padStart(7),
        (seen.home * 100).toFixed(1).padStart(8),
        String(score.worth).padStart(8),
        String(score.breaches).padStart(9),
        meets(seen) ? "met" : "missed",
      ].join("  "),
    );
  };
  /** The caution with which `schedule` does most under the wish, else comes nearest to it. */
  const cautionOf = (schedule: Schedule): { caution: number; seen: Seen } => {
    const all = CAUTIONS.map((caution) => ({
      caution,
      seen: countOf(stage, schedule, acting(caution), chosenBy).until(1000).seen,
    }));
    return all.reduce((best, one) => (isBetter(one.seen, best.seen) ? one : best));
  };
  const isBetter = (a: Seen, b: Seen): boolean => {
    if (meets(a) !== meets(b)) return meets(a);
    return meets(a) ? a.worth > b.worth : a.must + a.home > b.must + b.home;
  };

  const likely = packed(problem, seed, searchS);
  print("likely", likely, cautionOf(likely).caution);
  const blind = LEVELS.map((level) => {
    // At likely durations every rule holds in what is flown.
    const day = new Day(problem);
    loadSchedule(
      day,
      packed(
        restretch(problem, () => level),
        seed,
        searchS / LEVELS.length,
      ),
    );
    const schedule = scheduleOf(day.board);
    return { schedule, ...cautionOf(schedule) };
  }).reduce((best, one) => (isBetter(one.seen, best.seen) ? one : best));
  print("stretched", blind.schedule, blind.caution);
  const wished = wishRun(plan, { seed, seconds, clock: processorSeconds });
  while (wished.step(1));
  const { schedule, caution } = wished.best()[0]!;
  print("wished", schedule, caution);
  const ceiling = ceilingOf(plan, { days: 20, seed: 11_000_011 + seed, turns: 40 })!;
  console.log(
    `           at most ${Math.ceil(ceiling.mean)} +- ${Math.ceil(2 * ceiling.standardError)} on average: 20 days known beforehand, by routes`,
  );
  const { tried, seconds: tookS } = wished.progress();
  console.log(`           ${tried} schedules played, ${tookS.toFixed(1)} s in all`);
}

function packed(problem: ReturnType<typeof compile>, seed: number, seconds: number): Schedule {
  const run = runOn(problem, { seed, seconds, clock: processorSeconds });
  while (run.step(1));
  return run.best();
}

function planOf(name: string): Plan {
  const made = /^(\d+)-(\d+)$/.exec(name);
  if (made) return workingPlan(Number(made[2]), Number(made[1]));
  const read = parseText(readFileSync(`public/plans/${name}.json`, "utf8"));
  if (!read.ok) throw new Error(read.error.map((fault) => `${fault.path}: ${fault.message}`).join("\n"));
  return read.value;
}
