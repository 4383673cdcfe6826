import type { FromAnswer, ExplainRequest } from "../answers/index.ts";
import { check } from "../check/index.ts";
import { fromWhat } from "../engine/fromwhat/index.ts";
import { CONSUMABLES } from "../physics/index.ts";
import type { Plan } from "../plan/index.ts";
import { RULE_IDS, type RuleId } from "../rules/index.ts";
import { numberOption, readOptions } from "./options.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";
import { headLines } from "./report.ts";
import type { ExitCode, Streams } from "./verb.ts";

const OUTING_FIGURES = [...CONSUMABLES, "walkback", "heat"] as const;

/**
 * `from plan.json --of oxygen|co2|water|battery|walkback|heat --eva ID --crew ID [--at S]`, `--of worth|walked`, `--task ID` or
 * `--finding N` or `--rule ID`, `[--json]`: from what a figure of the plan's own schedule comes; findings count as `check` lists them. `--at` is in seconds from touchdown; without it the
 * amounts at ingress complete, and the walk-back with the least to spare.
 */
export async function fromVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("from", args, {
    of: { type: "string" },
    eva: { type: "string" },
    crew: { type: "string" },
    at: { type: "string" },
    task: { type: "string" },
    rule: { type: "string" },
    finding: { type: "string" },
    json: { type: "boolean" },
  });
  const atS = numberOption("at", values.at, { least: 0, most: 1e9, whole: true }) ?? null;
  const plan = await readPlan(path);
  const request = requestOf(plan, values, atS);
  const [, ...restsOn] = headLines(plan);
  const answer =
    fromWhat(plan, plan.schedule, request) ?? refuse("the schedule has no such figure: nobody is out there");
  streams.out(
    values.json === true
      ? `${JSON.stringify(answer, null, 2)}\n`
      : [...restsOn, formatted(answer)].join("\n"),
  );
  return 0;
}

interface Wanted {
  readonly of?: string | undefined;
  readonly eva?: string | undefined;
  readonly crew?: string | undefined;
  readonly task?: string | undefined;
  readonly rule?: string | undefined;
  readonly finding?: string | undefined;
}

function requestOf(plan: Plan, wanted: Wanted, atS: number | null): ExplainRequest {
  const { of, eva, crew, task, rule } = wanted;
  if (task !== undefined) {
    if (!plan.tasks.some((one) => one.id === task)) refuse(`--task ${task}: the plan has no such task`);
    return { what: "task", task };
  }
  if (wanted.finding !== undefined) {
    const { findings } = check(plan);
    if (findings.length === 0) refuse("--finding: the schedule has no findings");
    const nth = numberOption("finding", wanted.finding, { least: 1, most: findings.length, whole: true });
    const { rule: broken, subjects } = findings[nth! - 1]!;
    return { what: "finding", rule: broken, subjects };
  }
  if (rule !== undefined)
    return {
      what: "rule",
      rule:
        RULE_IDS.find((id): id is RuleId => id === rule) ?? refuse(`--rule ${rule}: there is no such rule`),
    };
  if (of === "worth" || of === "walked") return { what: of };
  const figure = OUTING_FIGURES.find((one) => one === of);
  if (figure === undefined)
    return refuse(
      `--of must be one of ${[...OUTING_FIGURES, "worth", "walked"].join(", ")}; or give --task, --finding or --rule`,
    );
  const known = (name: string, id: string | undefined, list: readonly { readonly id: string }[]): string =>
    list.find((one) => one.id === id)?.id ??
    refuse(
      `${id === undefined ? `give --${name}` : `--${name} ${id}`}: the plan has ${list.map((one) => one.id).join(", ")}`,
    );
  const outing = { eva: known("eva", eva, plan.evas), crew: known("crew", crew, plan.crew) };
  if (figure === "heat") return { what: "heat", ...outing };
  if (figure === "walkback") return { what: "walkback", ...outing, atS };
  return { what: "left", ...outing, consumable: figure, atS };
}

function formatted({ says, figures, sums }: FromAnswer): string {
  const lines = says === undefined ? [] : [says];
  for (const one of figures) {
    lines.push(`${one.of}: ${one.value} ${one.unit}`);
    // A number that was given comes from nothing else.
    if (one.formula !== "given") {
      lines.push(`  = ${one.formula}`);
      for (const input of one.inputs) lines.push(`  ${input.name}  ${input.value} ${input.unit}`);
    }
    lines.push(`  source  ${one.source}`);
  }
  if (sums) {
    const widths = sums.head.map((head, k) =>
      Math.max(head.length, ...sums.rows.map((row) => row[k]!.length)),
    );
    const laid = (row: readonly string[]): string =>
      row.map((cell, k) => (k === 0 ? cell.padEnd(widths[k]!) : cell.padStart(widths[k]!))).join("  ");
    lines.push(sums.caption, laid(sums.head), ...sums.rows.map(laid));
  }
  return `${lines.join("\n")}\n`;
}
