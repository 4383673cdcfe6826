import type { LateEntry, LateReport } from "../answers/index.ts";
import type { Plan } from "../plan/index.ts";
import { crewName, evaName, numberedTask, PAPER_HAS_WHAT_WAS_TESTED, untriedWords } from "../words/index.ts";
import type { ExitCode, Streams } from "./verb.ts";
import { core, turnOf } from "./core.ts";
import { readOptions } from "./options.ts";
import { readPlan } from "./planinput.ts";
import { headLines } from "./report.ts";

/** `shed plan.json [--json]`: what to drop when late, what to get ahead with when early, for the plan's own schedule. */
export async function shedVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("shed", args, { json: { type: "boolean" } });
  const plan = await readPlan(path);
  const report = await core().lateTable(plan, { schedule: plan.schedule }, turnOf(streams));
  streams.out(values.json === true ? `${JSON.stringify(report, null, 2)}\n` : table(plan, report));
  if (!report.complete && report.sound) {
    streams.err("lope: stopped before the table was whole: what is not in it was not looked at\n");
    return 2;
  }
  if (report.sound) return 0;
  streams.err("lope: the schedule breaks a rule, so there is no shed order; see lope check\n");
  return 1;
}

function table(plan: Plan, report: LateReport): string {
  const nameOf = (id: string): string => numberedTask(plan, id);
  const lines = [
    ...headLines(plan),
    `  Chances of every must-do task and mean worth on ${report.days} simulated days, the day as planned until then`,
    `  ${PAPER_HAS_WHAT_WAS_TESTED}`,
  ];
  for (const { eva, rows } of report.evas) {
    lines.push(`  ${evaName(plan, eva)}`);
    for (const { task, crew, late, early } of rows) {
      const who = crew.map((id) => crewName(plan, id));
      lines.push(`    leaving ${nameOf(task)} (${who.join(", ")})`);
      for (const cell of late)
        lines.push(`      ${String(cell.minutes).padStart(2)} min late: ${what(plan, cell)}${played(cell)}`);
      for (const { minutes, fits } of early) {
        if (fits.length === 0) continue;
        lines.push(
          `      ${String(minutes).padStart(2)} min early: ${fits.map((one) => nameOf(one.task)).join(" or ")}`,
        );
      }
    }
  }
  return `${lines.join("\n")}\n`;
}

/** What a crew that does it comes to. */
function played({ result }: LateEntry): string {
  return result ? `; must-do ${result.must.words}, worth ${Math.floor(result.meanWorth)}` : "";
}

function what(plan: Plan, cell: LateEntry): string {
  const nameOf = (id: string): string => numberedTask(plan, id);
  const far = cell.least ? "" : ", found so far";
  const lost =
    cell.worthLost > 0 || cell.mustLost > 0
      ? ` (lost: worth ${cell.worthLost}, must-do ${cell.mustLost}${far})`
      : "";
  const over = cell.breaks.length > 0 ? `; breaks ${cell.breaks.join(", ")}` : "";
  if (cell.kind === "keep") return `drop nothing${lost}${over}`;
  if (cell.kind === "change") {
    const drop = cell.drop.length > 0 ? [`drop ${cell.drop.map(nameOf).join(", ")}`] : [];
    const add = cell.add.length > 0 ? [`take up ${cell.add.map(nameOf).join(", ")}`] : [];
    const orders = cell.then.map(
      ({ crew, tasks }) => `${crewName(plan, crew)} then ${tasks.map(nameOf).join(", ") || "home"}`,
    );
    return `${[...drop, ...add, ...orders].join("; ")}${lost}${over}`;
  }
  if (cell.kind === "drop") return `drop ${cell.drop.map(nameOf).join(", ")}${lost}${over}`;
  if (cell.kind === "end") return `end the EVA${lost}${over}`;
  return `end the EVA at once${lost}${over}${untriedWords(cell.breaks)}`;
}
