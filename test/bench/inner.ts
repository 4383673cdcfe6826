import { judgeFor } from "../../src/check/index.ts";
import { instant, random } from "../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { Anneal } from "../../src/solver/search/anneal.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import { Day } from "../../src/solver/network/day.ts";
import { fitBands, packRun } from "../../src/solver/index.ts";
import { Insertion } from "../../src/solver/search/insertion.ts";
import { loadSchedule } from "../../src/solver/network/placing.ts";
import type { Problem } from "../../src/solver/problem/problem.ts";
import { processorSeconds } from "./clock.ts";
import { workingPlan } from "./inner.plan.ts";

/** `npm run bench -- inner [--seed N] [--iterations N]`: the core's inner works on 60 tasks, 2 crew members and 3 EVAs. */
export async function run(args: string[]): Promise<void> {
  const option = (name: string, otherwise: number): number => {
    const at = args.indexOf(`--${name}`);
    return at < 0 ? otherwise : Number(args[at + 1]);
  };
  const seed = option("seed", 1);
  const iterations = option("iterations", 400);
  const plan = workingPlan(seed);
  const problem = compile(plan);
  const schedule = packed(plan, seed, iterations);
  console.log(`${plan.title}; ${schedule.placements.length} placed; reach ${problem.checkLevel}`);
  console.log("what                                        median       95 %      worst  target");
  bands(plan, schedule);
  reCheck(plan, schedule);
  looks(problem, schedule);
  search(problem, seed, iterations);
}

function packed(plan: Plan, seed: number, iterations: number): Schedule {
  const packing = packRun(plan, { seed, iterations, clock: () => 0 });
  while (packing.step(1)) continue;
  return packing.best();
}

/** All lanes' bands of one held task, placed or on the bench: every task three times over, the least of the three. */
function bands(plan: Plan, schedule: Schedule): void {
  const least = new Map<string, number>();
  for (let round = 0; round < 4; round += 1)
    for (const { id } of plan.tasks) {
      const ms = spent(() => fitBands(plan, schedule, id));
      // The first round warms up.
      if (round > 0) least.set(id, Math.min(ms, least.get(id) ?? Infinity));
    }
  row("fit bands of a held task, ms", [...least.values()], "10 ms");
}

/** One judgement a frame while a task is dragged by up to two minutes: every frame three times over, the least of the three. */
function reCheck(plan: Plan, schedule: Schedule): void {
  const judge = judgeFor(plan);
  const frames = schedule.placements.flatMap((held) =>
    [-120, -60, 60, 120].map((byS) => ({
      placements: schedule.placements.map((one) =>
        one === held ? { ...one, startS: instant(one.startS + byS) } : one,
      ),
    })),
  );
  const least = frames.map(() => Infinity);
  for (let round = 0; round < 4; round += 1)
    frames.forEach((frame, k) => {
      const ms = spent(() => judge(frame));
      if (round > 0) least[k] = Math.min(ms, least[k]!);
    });
  row("live re-check, ms", least, "2 ms");
}

/** Looks for the best place of every task left out and of every placed one taken off, with all places counted that it weighs. */
function looks(problem: Problem, schedule: Schedule): void {
  const day = new Day(problem);
  loadSchedule(day, schedule);
  const insertion = new Insertion(day, random(1));
  const out = Array.from({ length: problem.activities }, (_, a) => a).filter(
    (a) => day.board.placed[a] === 0,
  );
  const trials = out.reduce((sum, a) => sum + placesOf(day, a), 0);
  const rounds = Math.ceil(200_000 / trials);
  const all = (): void => {
    for (let round = 0; round < rounds; round += 1) for (const a of out) insertion.view(a, 0);
  };
  all();
  const per = (spent(all) * 1000) / (rounds * trials);
  single("insertion trial: a place on a full day, looks only, µs", per, "5 µs");
}

/** The search as it runs; trials are counted in a run of their own, since the same seed does the same again. */
function search(problem: Problem, seed: number, iterations: number): void {
  const counting = new Anneal(problem, seed, null);
  const { insertion } = counting.recreate;
  const view = insertion.view.bind(insertion);
  let trials = 0;
  let calls = 0;
  insertion.view = (activity, blink) => {
    calls += 1;
    trials += placesOf(counting.day, activity);
    return view(activity, blink);
  };
  for (let k = 0; k < iterations; k += 1) counting.iterate(k / iterations);
  const timed = new Anneal(problem, seed, null);
  const ms = spent(() => {
    for (let k = 0; k < iterations; k += 1) timed.iterate(k / iterations);
  });
  single("insertion trial: whole search over its places, µs", (ms * 1000) / trials, "5 µs");
  single("whole search over the insertions it tries, µs", (ms * 1000) / calls, "");
  single("search iterations a second", (iterations * 1000) / ms, "");
  console.log(
    `${iterations} iterations, ${calls} insertions tried, ${trials} places, worth ${timed.bestValue.worth}`,
  );
  for (const { name, ...ends } of timed.statistics().ruins)
    console.log(
      `ruins ${name.padEnd(10)} ${Object.entries(ends)
        .map(([end, count]) => `${end} ${String(count).padStart(5)}`)
        .join("  ")}`,
    );
}

/** Places that an activity could take on the board as it stands: for each crew choice the gaps of its routes, multiplied. */
function placesOf({ problem, board }: Day, activity: number): number {
  let places = 0;
  for (let c = problem.choiceStart[activity]!; c < problem.choiceStart[activity + 1]!; c += 1) {
    let here = 1;
    for (let k = 0; k < problem.crewCount[activity]!; k += 1)
      here *= 1 + board.onRoute[problem.choiceRoutes[problem.choiceAt[c]! + k]!]!;
    places += here;
  }
  return places;
}

/** Processor milliseconds of `work`. */
function spent(work: () => unknown): number {
  const fromS = processorSeconds();
  work();
  return (processorSeconds() - fromS) * 1000;
}

function row(what: string, list: readonly number[], target: string): void {
  const sorted = [...list].sort((a, b) => a - b);
  const cells = [0.5, 0.95, 1].map((part) =>
    sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!.toFixed(3).padStart(10),
  );
  console.log(`${what.padEnd(40)} ${cells.join(" ")}  ${target}`);
}

function single(what: string, value: number, target: string): void {
  console.log(`${what.padEnd(55)} ${value.toFixed(3).padStart(6)} ${target ? `            ${target}` : ""}`);
}
