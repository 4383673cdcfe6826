import { check } from "../check/index.ts";
import { EXPORTS, everything } from "../exchange/export/index.ts";
import { walkLines } from "../exchange/export/walklines.ts";
import { core } from "./core.ts";
import { readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";
import type { ExitCode, Streams } from "./verb.ts";

/** `export KIND plan.json --out file`: the plan as a file for other programs, or with the kind `zip` all of them. */
export async function exportVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const [id, ...rest] = args;
  const kind = EXPORTS.find((one) => one.id === id);
  const kinds = [...EXPORTS.map((one) => one.id), "zip"];
  if (!kind && id !== "zip") refuse(`export ${id ?? ""}: the kinds are ${kinds.join(", ")}`);
  const { path, values } = readOptions("export", rest, { out: { type: "string" } });
  const out = await checkOutput(values.out, path, kind?.file ?? "plan.zip");
  const plan = await readPlan(path);
  const disabledReason = kind?.disabledReason?.(plan) ?? null;
  if (disabledReason !== null) refuse(`export ${kind!.id}: not made: ${disabledReason}`);
  const given = { schedule: plan.schedule };
  const reasons = await core().benchReasons(plan, given);
  const from = {
    plan,
    verdict: check(plan, plan.schedule),
    reasons: new Map(reasons.map((reason) => [reason.task, reason])),
    lines: walkLines(plan, await core().siteWalks(plan, given), []),
    madeMs: Date.now(),
  };
  await writeOutput(out, kind ? kind.make(from) : everything(from));
  streams.out(`${kind?.name ?? "Everything"} written to ${out}\n`);
  return 0;
}
