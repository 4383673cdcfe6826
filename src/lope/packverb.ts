import { makeCore } from "../engine/core.ts";
import type { PackReport } from "../engine/protocol.ts";
import { planText } from "../exchange/index.ts";
import type { ExitCode, Streams } from "./verb.ts";
import { numberOption, readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { reportTable } from "./report.ts";

/** `pack plan.json --out out.json`: fills the day; the judge's summary beside the greedy baseline. */
export async function packVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("pack", args, {
    seconds: { type: "string" },
    seed: { type: "string" },
    iterations: { type: "string" },
    prove: { type: "string" },
    out: { type: "string" },
  });
  const seed = numberOption("seed", values.seed, { least: 0, most: 4_294_967_295, whole: true }) ?? 1;
  const iterations = numberOption("iterations", values.iterations, { least: 1, most: 1e12, whole: true });
  const seconds = numberOption("seconds", values.seconds, { least: 0, most: 86_400, whole: false });
  const proveSeconds = numberOption("prove", values.prove, { least: 0, most: 86_400, whole: false });
  const out = await checkOutput(values.out, path, "out.json");
  const plan = await readPlan(path);
  const core = makeCore(() => performance.now() / 1000);
  const report = await core.pack(
    plan,
    // Iterations alone decide when no seconds are asked for: the result is then the same on every machine.
    { seed, iterations, proveSeconds, seconds: seconds ?? (iterations === undefined ? 2 : Infinity) },
    () => undefined,
    // Lets a Ctrl-C in between two slices of search.
    () => new Promise((resolve) => setImmediate(resolve)),
    streams.stop,
  );
  const packed = { ...plan, schedule: report.schedule };
  await writeOutput(out, planText(packed));
  const { verdict, greedy } = report;
  streams.out(
    [
      reportTable(packed, verdict),
      `  packed    worth ${verdict.score.worth} beside ${greedy.worth} of the greedy baseline`,
      ` (breaches ${verdict.score.breaches} / ${greedy.breaches}, must-do left out ${verdict.score.mustLeftOut} / ${greedy.mustLeftOut})\n`,
      `  search    ${report.iterations} iterations in ${report.seconds.toFixed(2)} s, seed ${seed}, stopped: ${report.stopped}\n`,
      `  bound     ${boundWords(report)}\n`,
      `  written   ${out}\n`,
    ].join(""),
  );
  return verdict.score.breaches > 0 ? 1 : 0;
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
