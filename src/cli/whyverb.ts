import type { Relaxation, WhyReport } from "../answers/index.ts";
import { planText } from "../exchange/index.ts";
import { applyEdit, type Plan } from "../plan/index.ts";
import { counted } from "../words/index.ts";
import type { ExitCode, Streams } from "./verb.ts";
import { core, turnOf } from "./core.ts";
import { numberOption, readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";
import { headLines } from "./report.ts";

/**
 * `why plan.json [--task ID] [--seconds 3] [--seed 1] [--iterations N] [--json] [--take N --out out.json]`: why a task is not on
 * the day, or what is wrong with the schedule, and what could be given up; writes the plan with one of these taken.
 */
export async function whyVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("why", args, {
    task: { type: "string" },
    seconds: { type: "string" },
    seed: { type: "string" },
    iterations: { type: "string" },
    json: { type: "boolean" },
    take: { type: "string" },
    out: { type: "string" },
  });
  const seed = numberOption("seed", values.seed, { least: 0, most: 4_294_967_295, whole: true }) ?? 1;
  const iterations = numberOption("iterations", values.iterations, { least: 1, most: 1e6, whole: true });
  const seconds = numberOption("seconds", values.seconds, { least: 0, most: 86_400, whole: false });
  const take = numberOption("take", values.take, { least: 1, most: 10_000, whole: true });
  if (take === undefined && values.out !== undefined) refuse("--out needs --take N: which one to write");
  const out = take === undefined ? null : await checkOutput(values.out, path, "out.json");
  const plan = await readPlan(path);
  const task = values.task ?? null;
  if (task !== null && !plan.tasks.some((one) => one.id === task))
    refuse(`--task ${task}: the plan has no such task`);
  const report = await core().why(
    plan,
    // Iterations alone decide when no seconds are asked for: the answer is then the same on every machine.
    {
      schedule: plan.schedule,
      task,
      seed,
      iterations,
      seconds: seconds ?? (iterations === undefined ? 3 : Infinity),
    },
    turnOf(streams),
  );
  streams.out(
    values.json === true ? `${JSON.stringify(reportJson(report), null, 2)}\n` : table(plan, report),
  );
  if (take !== undefined && out !== null) {
    const taken =
      report.relaxations[take - 1] ??
      refuse(`--take ${take}: there are ${report.relaxations.length} to take`);
    await writeOutput(out, planText({ ...applyEdit(plan, taken.edit), schedule: taken.schedule }));
    streams.err(`lope: number ${take} written to ${out}\n`);
  }
  if (report.state === "looking") {
    streams.err("lope: stopped before anything was found out\n");
    return 2;
  }
  const broken = report.task === null && report.state !== "sound";
  return broken ? 1 : 0;
}

/** The report as one plain object; of each edit the branches of the plan that it changes. */
function reportJson(report: WhyReport): object {
  return {
    ...report,
    relaxations: report.relaxations.map(({ edit, ...rest }) => ({
      ...rest,
      changes: [...new Set(edit.patch.map(({ path: [branch] }) => branch))],
    })),
  };
}

function table(plan: Plan, report: WhyReport): string {
  const { conflict } = report;
  const lines = [
    ...headLines(plan),
    `  ${report.sentence || "Nothing was found out in the time given."}`,
    ...(conflict?.causes ?? []).map((one) => `  cause     ${one.sentence}`),
    ...report.guarded.map((sentence) => `  rule      ${sentence}`),
    ...report.relaxations.flatMap((one, k) => [
      `  ${String(k + 1).padStart(2)} ${priced(one)}`,
      ...one.moves.map((sentence) => `     moves  ${sentence}`),
    ]),
    ...(report.relaxations.length === 0 && report.state === "conflict"
      ? ["  No single change that was tried makes it fit."]
      : []),
    ...triedWords(report),
  ];
  return `${lines.join("\n")}\n`;
}

/** How many changes were tried; nothing where none is thinkable and the run came to its end. */
function triedWords({ tried, offers, stopped }: WhyReport): string[] {
  if (stopped === "done") return offers === 0 ? [] : [`  tried     ${tried} of ${counted(offers, "change")}`];
  return [`  tried     ${tried} of ${counted(offers, "change")}, stopped before the end`];
}

function priced({ sentence, cost, owner, score }: Relaxation): string {
  const lost = cost.worthLost > 0 ? `worth -${cost.worthLost}` : "no worth lost";
  return `${sentence} (${lost}, then worth ${score.worth}${owner === null ? "" : `; asks ${owner}`})`;
}
