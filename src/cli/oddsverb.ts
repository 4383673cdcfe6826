import type { OddsReport, Outcome } from "../answers/index.ts";
import type { Shape } from "../kernel/index.ts";
import { type Plan, stillToGive } from "../plan/index.ts";
import {
  ACTING_WORDS,
  actingRules,
  CARRIES_ON_WORDS,
  cautionWords,
  evaName,
  fixed,
  listed,
  numberedSentence,
  numberedTask,
  percent,
  unplayedWords,
} from "../words/index.ts";
import { core, turnOf } from "./core.ts";
import type { ExitCode, Streams } from "./verb.ts";
import { numberOption, readOptions } from "./options.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";
import { headLines } from "./report.ts";

/** `odds plan.json [--days 2000] [--seed 1] [--shape pert] [--json]`: the chances of the plan's own schedule. */
export async function oddsVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("odds", args, {
    days: { type: "string" },
    seed: { type: "string" },
    shape: { type: "string" },
    json: { type: "boolean" },
  });
  const days = numberOption("days", values.days, { least: 1, most: 10_000, whole: true }) ?? 2000;
  const seed = numberOption("seed", values.seed, { least: 0, most: 4_294_967_295, whole: true }) ?? 1;
  const shape = shapeOf(values.shape);
  const plan = await readPlan(path);
  if (plan.schedule.placements.length === 0) refuse(`${path} has nothing placed; lope pack fills the day`);
  const report = await core().odds(plan, { schedule: plan.schedule, days, seed, shape }, turnOf(streams));
  streams.out(
    values.json === true
      ? `${JSON.stringify({ ...report, ...unknownWorth(report), safe: report.home, toGive: stillToGive(plan) }, null, 2)}\n`
      : table(plan, report),
  );
  return report.unplayed.length > 0 ? 1 : 0;
}

/** No figure stands for what was not played. */
function unknownWorth({ unplayed }: OddsReport): { readonly worth?: null } {
  return unplayed.length > 0 ? { worth: null } : {};
}

function shapeOf(given: string | undefined): Shape {
  if (given === undefined || given === "pert") return "pert";
  return given === "triangular" ? given : refuse(`--shape ${given}: give pert or triangular`);
}

function table(plan: Plan, report: OddsReport): string {
  if (report.unplayed.length > 0)
    return `${[...headLines(plan), `  chances   ${unplayedWords(plan, report.unplayed)}`].join("\n")}\n`;
  const nameOf = (id: string): string => numberedTask(plan, id);
  const { worth } = report;
  const lines = [
    ...headLines(plan),
    `  days      ${report.days} simulated, ${report.shape}, seed ${report.seed}; in brackets the 95 % interval of the chance`,
    `  home      ${report.home.words}: everybody home inside every limit; wanted ${percent(report.wish.home, "given")}`,
    `  must-do   ${report.must.words}: every must-do task done; wanted ${percent(report.wish.must, "given")}`,
    `  whole     ${report.whole.words}: both, and nothing missed`,
    `  worth     planned ${worth.planned}, mean ${fixed(worth.mean, 1, "down")}; 5 25 50 75 95 %: ${worth.bands.join(" ")}`,
    ...crewLines(report),
    ...report.evas.flatMap(({ eva, closes, duration, reserves }) => [
      `  ${evaName(plan, eva)} closes inside its limits ${closes.words}`,
      `    duration ${duration.words}`,
      ...Object.entries(reserves).map(([kind, chance]) => `    ${kind} ${chance.words}`),
    ]),
    ...report.mustOnBench.map((task) => `  must-do on the bench: ${nameOf(task)}`),
    ...report.tasks.map(({ task, must, done, window }) => {
      const met = window ? `; window met ${window.words}` : "";
      return `  ${must ? "must" : "    "}  ${done.words.padEnd(26)} ${nameOf(task)}${met}`;
    }),
    ...report.spoils.map(
      ({ task, must, missed, reason, costs }) =>
        `  missed    ${missed.words.padEnd(26)} ${must ? "must-do " : ""}${nameOf(task)}: mostly ${reason}; costs ${fixed(costs, 1, "up")} on average`,
    ),
    ...report.offers.map(
      ({ bench, before, after }) =>
        `  mend      without ${listed(bench.map(nameOf))}: must-do ${before.must.words} to ${after.must.words}, mean worth ${fixed(before.meanWorth, 1, "down")} to ${fixed(after.meanWorth, 1, "down")}`,
    ),
    ...report.sensitivities.map(({ sentence }) => `  hurts     ${numberedSentence(plan, sentence)}`),
    ...(report.withoutSpread.length > 0
      ? [`  no spread ${report.withoutSpread.map(nameOf).join(", ")}: the likely time but for rare events`]
      : []),
    `  ${report.leftOut}`,
  ];
  return `${lines.join("\n")}\n`;
}

/** How the crew acts, which every chance rests on: each rule with what the day comes to without it, and with other caution; and lateness not shared. */
function crewLines({ crew, otherwise }: OddsReport): string[] {
  const rules = actingRules(crew).flatMap((rule) => {
    const without = otherwise.without.find((one) => one.rule === rule);
    return [
      `  crew      ${ACTING_WORDS[rule]}`,
      ...(without ? [`    without it: ${outcomeWords(without.outcome)}`] : []),
    ];
  });
  const cautions = otherwise.byCaution.map(
    ({ caution, outcome }) =>
      `  caution   ${cautionWords(caution)}${caution === crew.caution ? ", as now" : ""}: ${outcomeWords(outcome)}`,
  );
  const { independent, unhindered } = otherwise;
  return [
    ...(rules.length > 0 ? rules : [`  crew      ${CARRIES_ON_WORDS}`]),
    ...cautions,
    ...(independent ? [`  lateness  were each by itself: ${outcomeWords(independent)}`] : []),
    ...(unhindered ? [`  rare      without rare events: ${outcomeWords(unhindered)}`] : []),
  ];
}

function outcomeWords({ home, must, meanWorth }: Outcome): string {
  return `home ${home.words}, must-do ${must.words}, mean worth ${fixed(meanWorth, 1, "down")}`;
}
