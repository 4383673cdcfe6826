import type { WishedDay } from "../answers/index.ts";
import { planText } from "../exchange/index.ts";
import { editBetween, type Plan } from "../plan/index.ts";
import { cautionSentence, fixed, percent } from "../words/index.ts";
import { core, turnOf } from "./core.ts";
import type { ExitCode, Streams } from "./verb.ts";
import { numberOption, readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";
import { headLines } from "./report.ts";

/** Variants that a plan has room for, and days of a curve at most. */
const ROOM = 50;
const MOST_DAYS = 6;

/**
 * `curve plan.json [--seconds 30] [--seed 1] [--out out.json] [--json]`: worth on average against the chance of every must-do done, a day
 * for each wish; --out writes the plan with each of these days as a variant. A Ctrl-C ends the search, and what was found is counted.
 */
export async function curveVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("curve", args, {
    seconds: { type: "string" },
    seed: { type: "string" },
    iterations: { type: "string" },
    out: { type: "string" },
    json: { type: "boolean" },
  });
  const seed = numberOption("seed", values.seed, { least: 0, most: 4_294_967_295, whole: true }) ?? 1;
  const iterations = numberOption("iterations", values.iterations, { least: 1, most: 1e12, whole: true });
  const seconds = numberOption("seconds", values.seconds, { least: 0, most: 86_400, whole: false });
  const out = values.out === undefined ? null : await checkOutput(values.out, path, "out.json");
  const plan = await readPlan(path);
  if (out !== null && plan.variants.length + MOST_DAYS > ROOM)
    refuse(`${path} has ${plan.variants.length} variants: there is no room for ${MOST_DAYS} more`);
  const { days, seconds: usedS } = await core().curve(
    plan,
    { seed, iterations, seconds: seconds ?? (iterations === undefined ? 30 : Infinity) },
    turnOf(streams),
  );
  if (out !== null) {
    await writeOutput(out, planText({ ...plan, variants: withDays(plan, days) }));
  }
  streams.out(
    values.json === true ? `${JSON.stringify(days.map(plain), null, 2)}\n` : table(plan, days, out),
  );
  if (streams.stop.aborted)
    streams.err(
      `lope: stopped after ${fixed(usedS, 1, "up")} s; the days are of what was found until then\n`,
    );
  return 0;
}

/** The plan's variants and each of `days`, with the caution that it was chosen for: its chances are those of that crew. */
function withDays(plan: Plan, days: readonly WishedDay[]): Plan["variants"] {
  const variants = [...plan.variants];
  for (const { wish, schedule, caution } of days) {
    const odds = { ...plan.odds, crew: { ...plan.odds.crew, caution } };
    const sentence = cautionSentence(plan.odds.crew.caution, caution);
    const { patch } = editBetween(sentence, plan, { ...plan, odds });
    variants.push({
      id: freeId(variants, `must-do-${Math.round(wish.must * 1000)}`),
      name: `Every must-do done, wanted ${percent(wish.must, "given")}`,
      schedule: { placements: [...schedule.placements] },
      givesUp: { sentence, owner: null, patch: patch.map((one) => ({ ...one, path: [...one.path] })) },
    });
  }
  return variants;
}

/** `id`, or with a number behind it where a variant has it: what is there stays, and nothing that was found is lost. */
function freeId(variants: Plan["variants"], id: string): string {
  const taken = new Set(variants.map((variant) => variant.id));
  let free = id;
  for (let k = 2; taken.has(free); k += 1) free = `${id}-${k}`;
  return free;
}

function plain({ wish, outcome, days, caution, meets, schedule, verdict }: WishedDay) {
  return { wish, outcome, days, caution, meets, planned: verdict.score.worth, schedule };
}

/** Whether a day meets its wish, as on screens: the whole interval counts. */
function metWords({ wish, outcome, meets }: WishedDay): string {
  if (!meets) return "not met";
  const sure = outcome.home.low >= wish.home && outcome.must.low >= wish.must;
  return sure ? "met" : "met as counted, may be missed";
}

function table(plan: Plan, days: readonly WishedDay[], out: string | null): string {
  const lines = days.map((day) => {
    const { wish, outcome, caution, verdict } = day;
    return [
      `  wanted ${percent(wish.must, "given").padStart(6)}`,
      `worth ${String(Math.floor(outcome.meanWorth)).padStart(6)} on average, ${String(verdict.score.worth).padStart(6)} planned`,
      `must-do ${outcome.must.words}`,
      `home ${outcome.home.words}`,
      `caution ${percent(caution, "given")}`,
      metWords(day),
    ].join("; ");
  });
  const counted = days[0] ? [`  counted on ${days[0].days} simulated days that the search did not see`] : [];
  const none = days.length === 0 ? ["  no sound day with every must-do task was found"] : [];
  return `${[...headLines(plan), ...lines, ...counted, ...none, ...(out === null ? [] : [`  written   ${out}`])].join("\n")}\n`;
}
