import { judgeFor } from "../check/index.ts";
import { met } from "../dayline/index.ts";
import { debriefCsv } from "../exchange/index.ts";
import type { Plan } from "../plan/index.ts";
import { type Debrief, debriefOf, played, rehearsalFrom, standingOf } from "../rehearsal/index.ts";
import { walksOf } from "../terrain/index.ts";
import { numberOption, readOptions } from "./options.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";
import type { ExitCode, Streams } from "./verb.ts";

/** `rehearse plan.json [--seed 1] [--csv | --json]`: the plan's day played by its crew, with drawn durations, and its debrief. */
export async function rehearseVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("rehearse", args, {
    seed: { type: "string" },
    csv: { type: "boolean" },
    json: { type: "boolean" },
  });
  const seed = numberOption("seed", values.seed, { least: 0, most: 4_294_967_295, whole: true }) ?? 1;
  if (values.csv === true && values.json === true) refuse("--csv and --json: give one of them");
  const plan = await readPlan(path);
  if (plan.schedule.placements.length === 0) refuse(`${path} has nothing placed; lope pack fills the day`);
  const walks = walksOf(plan);
  const over = played(plan, rehearsalFrom(0, seed), plan.stay.lengthS, walks);
  const debrief = debriefOf(plan, standingOf(plan, over, walks), judgeFor(plan)(plan.schedule).outings);
  if (values.csv === true) streams.out(debriefCsv(debrief));
  else if (values.json === true)
    streams.out(`${JSON.stringify({ seed, calls: over.calls, debrief }, null, 2)}\n`);
  else streams.out(table(plan, seed, debrief));
  return 0;
}

function table(plan: Plan, seed: number, debrief: Debrief): string {
  const lines = [
    plan.title,
    `  seed ${seed}: the crew carries on in order, durations drawn between low and high (PERT)`,
    `  done ${debrief.done} of ${debrief.planned}, must-do ${debrief.mustDone} of ${debrief.mustPlanned}, worth ${debrief.worthDone} of ${debrief.worthPlanned}`,
    ...debrief.evas.map(
      ({ name, plannedOutS, plannedInS, outS, inS }) =>
        `  ${name}: planned ${span(plannedOutS, plannedInS)}, was ${span(outS, inS)}`,
    ),
    "  planned   began  later  longer  task",
    ...debrief.rows.map((row) =>
      [
        `  ${clock(row.plannedStartS).padStart(7)}`,
        clock(row.startS).padStart(7),
        minutes(row.lateS).padStart(6),
        minutes(row.longerS).padStart(7),
        ` ${row.name}${row.outcome === "done" ? "" : `: ${row.outcome}`}`,
      ].join(" "),
    ),
  ];
  return `${lines.join("\n")}\n`;
}

function span(fromS: number | null, toS: number | null): string {
  return fromS === null ? "not out" : `${clock(fromS)} to ${clock(toS)}`;
}

/** Mission time without the seconds of the begun minute. */
function clock(atS: number | null): string {
  return atS === null ? "" : met(Math.floor(atS / 60) * 60);
}

/** Whole minutes, a begun one more counted. */
function minutes(lengthS: number | null): string {
  return lengthS === null ? "" : `${Math.ceil(lengthS / 60)}`;
}
