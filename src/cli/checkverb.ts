import { check } from "../check/index.ts";
import type { ExitCode, Streams } from "./verb.ts";
import { readOptions } from "./options.ts";
import { readPlan } from "./planinput.ts";
import { reportJson, reportTable } from "./report.ts";

/** `check plan.json [--json]`: what the judge says of the plan's own schedule. */
export async function checkVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("check", args, { json: { type: "boolean" } });
  const plan = await readPlan(path);
  const verdict = check(plan, plan.schedule);
  streams.out(
    values.json === true
      ? `${JSON.stringify(reportJson(plan, verdict), null, 2)}\n`
      : reportTable(plan, verdict),
  );
  return verdict.score.breaches > 0 ? 1 : 0;
}
