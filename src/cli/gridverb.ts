import { planText } from "../exchange/index.ts";
import { core } from "./core.ts";
import { readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { reportTable } from "./report.ts";
import type { ExitCode, Streams } from "./verb.ts";

/** `grid plan.json --out out.json`: puts the starts of the plan's schedule on its grid, whole minutes by default. */
export async function gridVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("grid", args, { out: { type: "string" } });
  const out = await checkOutput(values.out, path, "out.json");
  const plan = await readPlan(path);
  const { schedule, verdict, sentence } = await core().gridded(plan, { schedule: plan.schedule });
  const made = { ...plan, schedule };
  await writeOutput(out, planText(made));
  streams.out(`${reportTable(made, verdict)}  starts    ${sentence}\n  written   ${out}\n`);
  return verdict.score.breaches > 0 ? 1 : 0;
}
