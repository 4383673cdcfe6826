import type { PackReport } from "../answers/index.ts";
import type { PackOptions } from "../engine/calls.ts";
import { planText } from "../exchange/index.ts";
import type { Plan } from "../plan/index.ts";
import { ceilingOf } from "../solver/ceiling.ts";
import { TURNS_A_SECOND } from "../solver/search/run.ts";
import { fixed, gridName, percent } from "../words/index.ts";
import { core, turnOf } from "./core.ts";
import { packThreads } from "./packthreads.ts";
import type { ExitCode, Streams } from "./verb.ts";
import { numberOption, readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { reportTable } from "./report.ts";

/** Threads at most: more seeds find little more. */
const MOST_WORKERS = 64;

/**
 * `pack plan.json --out out.json`: fills the day; the judge's summary beside the greedy baseline. With --holds or --safe the day is
 * packed for those chances; with --workers by so many threads.
 */
export async function packVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("pack", args, {
    seconds: { type: "string" },
    seed: { type: "string" },
    iterations: { type: "string" },
    prove: { type: "string" },
    holds: { type: "string" },
    safe: { type: "string" },
    workers: { type: "string" },
    out: { type: "string" },
  });
  const seed = numberOption("seed", values.seed, { least: 0, most: 4_294_967_295, whole: true }) ?? 1;
  const iterations = numberOption("iterations", values.iterations, { least: 1, most: 1e12, whole: true });
  const seconds = numberOption("seconds", values.seconds, { least: 0, most: 86_400, whole: false });
  const proveSeconds = numberOption("prove", values.prove, { least: 0, most: 86_400, whole: false });
  const workers = numberOption("workers", values.workers, { least: 1, most: MOST_WORKERS, whole: true }) ?? 1;
  const out = await checkOutput(values.out, path, "out.json");
  const read = await readPlan(path);
  const must = numberOption("holds", values.holds, { least: 0, most: 1, whole: false });
  const home = numberOption("safe", values.safe, { least: 0, most: 1, whole: false });
  const wished = must !== undefined || home !== undefined;
  const plan = wished ? wishing(read, { must, home }) : read;
  // Iterations alone decide when no seconds are asked for: the result is then the same on every machine.
  const report = await packed(plan, workers, streams, {
    seed,
    iterations,
    proveSeconds,
    aim: wished ? "wish" : "likely",
    seconds: seconds ?? (iterations === undefined ? 2 : Infinity),
  });
  const made = { ...careful(plan, report), schedule: report.schedule };
  await writeOutput(out, planText(made));
  const { verdict, greedy } = report;
  streams.out(
    [
      reportTable(made, verdict),
      `  packed    worth ${verdict.score.worth} beside ${greedy.worth} of the greedy baseline`,
      ` (breaches ${verdict.score.breaches} / ${greedy.breaches}, must-do left out ${verdict.score.mustLeftOut} / ${greedy.mustLeftOut})\n`,
      `  search    ${report.iterations} iterations in ${fixed(report.seconds, 2, "up")} s, seed ${seed}, stopped: ${report.stopped}\n`,
      ...(wished
        ? [...wishWords(report), ceilingWords(plan, seed, proveSeconds ?? 0)]
        : [`  bound     ${boundWords(report)}${report.bound === null ? "" : gridNote(plan)}\n`]),
      `  written   ${out}\n`,
    ].join(""),
  );
  return verdict.score.breaches > 0 ? 1 : 0;
}

/** In this process, or by `workers` threads from seeds of their own, of which the best day is taken. */
async function packed(
  plan: Plan,
  workers: number,
  streams: Streams,
  options: PackOptions,
): Promise<PackReport> {
  if (workers === 1) return core().pack(plan, options, turnOf(streams));
  const engine = packThreads(workers);
  try {
    return await engine.pack(plan, options, { enough: streams.stop });
  } finally {
    engine.close();
  }
}

/** What is proved counts for starts that may be chosen. */
function gridNote({ rules }: Plan): string {
  return rules.startGridS === 1 ? "" : ` (starts on ${gridName(rules.startGridS)})`;
}

/** What was proved about how much is possible. */
function boundWords({ bound, verdict }: PackReport): string {
  const { worth } = verdict.score;
  if (bound === null) return "unknown";
  if (bound === worth) return `${bound}: proved, no more is possible`;
  const more =
    worth === 0 ? "" : `, at most ${Math.ceil((1000 * (bound - worth)) / worth) / 10} % more is possible`;
  return `${bound}${more}`;
}

/** Days that the ceiling is a mean over, and the seed of their draws beside the pack's. */
const CEILING_DAYS = 20;
const CEILING_SEED = 700_001;

/** What no crew that stays inside its limits does more of on average. */
function ceilingWords(plan: Plan, seed: number, proveSeconds: number): string {
  const turns = Math.ceil((proveSeconds * TURNS_A_SECOND) / CEILING_DAYS);
  const ceiling = ceilingOf(plan, { days: CEILING_DAYS, seed: seed + CEILING_SEED, turns });
  if (!ceiling) return "";
  const error = Math.ceil(2 * ceiling.standardError);
  const how = turns > 0 ? "routes" : "crew time alone";
  return (
    `  at most   ${Math.ceil(ceiling.mean)} on average, give or take ${error}: what ${ceiling.days} simulated days have room for by ${how}, ` +
    "each known beforehand; suits, rests and meetings left out\n"
  );
}

/** `plan` with the chances wanted. */
function wishing(plan: Plan, { must, home }: { must?: number | undefined; home?: number | undefined }): Plan {
  const { wish } = plan.odds;
  return { ...plan, odds: { ...plan.odds, wish: { must: must ?? wish.must, home: home ?? wish.home } } };
}

/** `plan` with the caution that its day was packed for. */
function careful(plan: Plan, { wished }: PackReport): Plan {
  if (!wished) return plan;
  return { ...plan, odds: { ...plan.odds, crew: { ...plan.odds.crew, caution: wished.caution } } };
}

/** What a day packed for a wish comes to. */
function wishWords({ wished }: PackReport): string[] {
  if (!wished)
    return [
      "  wish      no sound day with every must-do task was found for it: packed for likely durations\n",
    ];
  const { outcome, days, caution, meets, wish } = wished;
  // As on screens the whole interval counts: what may be below does not meet.
  const sure = outcome.home.low >= wish.home && outcome.must.low >= wish.must;
  const how = sure
    ? "the wish is met"
    : meets
      ? "the wish is met as counted, and may be missed"
      : "the wish is not met";
  return [
    `  home      ${outcome.home.words}, wanted ${percent(wish.home, "given")}; on ${days} days that the search did not see\n`,
    `  must-do   ${outcome.must.words}, wanted ${percent(wish.must, "given")}: ${how}\n`,
    `  worth     ${Math.floor(outcome.meanWorth)} on average, with a caution of ${percent(caution, "given")}\n`,
  ];
}
