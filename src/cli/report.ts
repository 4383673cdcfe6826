import type { Finding, Verdict } from "../answers/index.ts";
import { isReturnLeast, type Plan, stillToGive, tasksOn } from "../plan/index.ts";
import {
  clock,
  crewName,
  evaName,
  findingWords,
  leastWords,
  mass,
  notGivenWords,
  percent,
} from "../words/index.ts";

/** A verdict as words and as data. */

/** The verdict as one plain object; times in seconds from touchdown, masses in kg, margins as shares of the stock. */
export function reportJson(plan: Plan, verdict: Verdict): object {
  const count = (level: Finding["level"]): number =>
    verdict.findings.filter((finding) => finding.level === level).length;
  return {
    title: plan.title,
    breaches: verdict.score.breaches,
    tight: count("tight"),
    open: count("open"),
    mustPlaced: verdict.mustPlaced,
    mustTotal: verdict.mustTotal,
    placed: verdict.placed,
    total: plan.tasks.length,
    worth: verdict.score.worth,
    worthTotal: plan.tasks.reduce((sum, task) => sum + task.worth, 0),
    score: verdict.score,
    toGive: stillToGive(plan),
    returnKg: verdict.returnKg,
    // Something that comes back has no number: the sum is a least.
    returnIsLeast: isReturnLeast(plan, tasksOn(plan, plan.schedule)),
    walkedM: verdict.walkedM,
    outings: verdict.outings.map(({ eva, crew, span }) => ({
      eva,
      crew,
      egressS: span.startS,
      ingressS: span.endS,
    })),
    margins: verdict.margins.map(({ eva, crew, consumable, stock, reserve, margin }) => ({
      eva,
      crew,
      consumable,
      stock,
      reserve,
      margin,
    })),
    walkbackS: verdict.walkbackS,
    findings: verdict.findings,
  };
}

/** What stands at the head of whatever is told of a plan: its title, and what its figures rest on that nobody has given. */
export function headLines(plan: Plan): readonly string[] {
  const open = notGivenWords(plan);
  return open === null ? [plan.title] : [plan.title, `  rests on  ${open}`];
}

/** The verdict as a table to read in a terminal. */
export function reportTable(plan: Plan, verdict: Verdict): string {
  const { score, findings, placed, mustPlaced, mustTotal } = verdict;
  const tight = findings.filter((finding) => finding.level === "tight").length;
  const lines = [
    ...headLines(plan),
    `  placed    ${placed} of ${plan.tasks.length} tasks, must-do ${mustPlaced} of ${mustTotal}`,
    `  worth     ${score.worth}`,
    `  breaches  ${score.breaches}, tight ${tight}`,
    `  return    ${returnWords(plan, verdict)}`,
    ...outingLines(plan, verdict),
    ...findings.map(
      (finding) => `  ${finding.level.padEnd(7)} ${finding.rule.padEnd(22)} ${findingWords(plan, finding)}`,
    ),
  ];
  return `${lines.join("\n")}\n`;
}

/** What comes back; where not all of it is known, at least so much. */
function returnWords(plan: Plan, { returnKg }: Verdict): string {
  const isLeast = isReturnLeast(plan, tasksOn(plan, plan.schedule));
  return `${leastWords(mass(returnKg, "up"), isLeast)}${isLeast ? ", left not known" : ""}`;
}

function outingLines(plan: Plan, verdict: Verdict): string[] {
  return verdict.outings.map(({ eva, crew, span }) => {
    const margins = verdict.margins
      .filter((one) => one.eva === eva && one.crew === crew)
      .map((one) => `${one.consumable} ${percent(one.margin, "down")}`);
    const times = `egress ${clock(span.startS)}, ingress ${clock(span.endS)}`;
    return `  ${evaName(plan, eva)}, ${crewName(plan, crew)}: ${times}; above reserve: ${margins.join(", ")}`;
  });
}
