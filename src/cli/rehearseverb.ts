import type { Recall, TurnBack } from "../answers/index.ts";
import { judgeFor, overWords, recallLimiterWords, recallOf, recallWords } from "../check/index.ts";
import { debriefCsv } from "../exchange/index.ts";
import type { Plan } from "../plan/index.ts";
import {
  type DayStanding,
  type Debrief,
  debriefOf,
  played,
  rehearsalFrom,
  standingOf,
} from "../rehearsal/index.ts";
import { walksOf } from "../terrain/index.ts";
import { clock, lasting, minutes, nameIn, rehearsalLosesWords } from "../words/index.ts";
import { numberOption, readOptions } from "./options.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";
import { headLines } from "./report.ts";
import type { ExitCode, Streams } from "./verb.ts";

/**
 * `rehearse plan.json [--seed 1] [--at S] [--csv | --json]`: the plan's day played by its crew, with drawn durations, and its debrief; with
 * `--at` played to that moment: where everybody outside is, how soon they can be inside and when each must start home.
 */
export async function rehearseVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("rehearse", args, {
    seed: { type: "string" },
    at: { type: "string" },
    csv: { type: "boolean" },
    json: { type: "boolean" },
  });
  const seed = numberOption("seed", values.seed, { least: 0, most: 4_294_967_295, whole: true }) ?? 1;
  if (values.csv === true && values.json === true) refuse("--csv and --json: give one of them");
  const plan = await readPlan(path);
  const atS = numberOption("at", values.at, { least: 0, most: plan.stay.lengthS, whole: true });
  if (atS !== undefined && values.csv === true) refuse("--at and --csv: a moment is no table of tasks");
  if (plan.schedule.placements.length === 0) refuse(`${path} has nothing placed; lope pack fills the day`);
  const walks = walksOf(plan);
  if (atS !== undefined) {
    const moment = standingOf(plan, played(plan, rehearsalFrom(0, seed), atS, walks), walks);
    const recalls = outside(moment).flatMap(
      (eva) => recallOf(moment.plan, moment.plan.schedule, eva, atS) ?? [],
    );
    if (values.json === true) streams.out(`${JSON.stringify({ seed, atS, recalls }, null, 2)}\n`);
    else streams.out(momentTable(moment.plan, seed, atS, recalls));
    return 0;
  }
  const over = played(plan, rehearsalFrom(0, seed), plan.stay.lengthS, walks);
  const debrief = debriefOf(plan, standingOf(plan, over, walks), judgeFor(plan)(plan.schedule).outings);
  if (values.csv === true) streams.out(debriefCsv(plan, debrief));
  else if (values.json === true)
    streams.out(`${JSON.stringify({ seed, calls: over.calls, debrief }, null, 2)}\n`);
  else streams.out(table(plan, seed, debrief));
  return 0;
}

/** EVAs that are out. */
function outside({ plan, facts }: DayStanding): readonly string[] {
  return plan.evas.flatMap(({ id }) => (facts.outS.has(id) && !facts.inS.has(id) ? [id] : []));
}

function momentTable(plan: Plan, seed: number, atS: number, recalls: readonly Recall[]): string {
  const lines = [
    ...headLines(plan),
    `  seed ${seed}, at ${clock(atS)}: ${recalls.length === 0 ? "nobody is out" : "outside"}`,
    ...recalls.flatMap((recall) => [
      recallLine(plan, recall),
      ...recall.crew.map((one) => `    ${nameIn(plan.crew, one.crew)}: ${turnWords(plan, one)}`),
    ]),
  ];
  return `${lines.join("\n")}\n`;
}

function recallLine(plan: Plan, recall: Recall): string {
  const { isShort, words } = recallWords(plan, recall);
  return isShort ? `  ${words}` : `  ${nameIn(plan.evas, recall.eva)}: ${words}`;
}

function turnWords(plan: Plan, { from, to, walkbackS, startHomeS, by, over }: TurnBack): string {
  const { places } = plan.site;
  const where = from === to ? nameIn(places, from) : `${nameIn(places, from)} to ${nameIn(places, to)}`;
  const back = walkbackS === null ? "no way home" : `walk-back ${lasting(walkbackS, "up")}`;
  const start =
    startHomeS === null
      ? "no way home"
      : over
        ? `start home at once: ${overWords(over)}`
        : `start home by ${clock(startHomeS, "down")}`;
  return `${where}, ${back}, ${start}, set by ${recallLimiterWords(plan, by)}`;
}

function table(plan: Plan, seed: number, debrief: Debrief): string {
  const loses = rehearsalLosesWords(plan);
  const lines = [
    ...headLines(plan),
    `  seed ${seed}: the crew ${plan.odds.crew.acts ? "acts as on simulated days, but for what suits have left" : "carries on in order"}, durations drawn between low and high (PERT)`,
    ...(loses === null ? [] : [`  ${loses}`]),
    `  done ${debrief.done} of ${debrief.planned}, must-do ${debrief.mustDone} of ${debrief.mustPlanned}, worth ${debrief.worthDone} of ${debrief.worthPlanned}`,
    ...debrief.evas.map(
      ({ name, plannedOutS, plannedInS, outS, inS }) =>
        `  ${name}: planned ${span(plannedOutS, plannedInS)}, was ${span(outS, inS)}`,
    ),
    "  planned   began    later   longer  task",
    ...debrief.rows.map((row) =>
      [
        `  ${moment(row.plannedStartS).padStart(7)}`,
        moment(row.startS).padStart(7),
        late(row.lateS).padStart(8),
        late(row.longerS).padStart(8),
        ` ${row.number} ${row.name}${row.outcome === "done" ? "" : `: ${row.outcome}`}${row.why === null ? "" : `, ${row.why}`}`,
      ].join(" "),
    ),
  ];
  return `${lines.join("\n")}\n`;
}

function span(fromS: number | null, toS: number | null): string {
  return fromS === null ? "not out" : `${moment(fromS)} to ${moment(toS)}`;
}

/** When it was, without the seconds of the begun minute. */
function moment(atS: number | null): string {
  return atS === null ? "" : clock(atS, "down");
}

/** By how much it was later or longer, a begun minute counted. */
function late(lengthS: number | null): string {
  return lengthS === null ? "" : minutes(lengthS, "up");
}
