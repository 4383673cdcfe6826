import type { WishedDay } from "../answers/index.ts";
import { planText } from "../exchange/index.ts";
import { percent } from "../words/index.ts";
import { core, turnOf } from "./core.ts";
import type { ExitCode, Streams } from "./verb.ts";
import { numberOption, readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";

/**
 * `curve plan.json [--seconds 30] [--seed 1] [--out out.json] [--json]`: worth on average against the chance of every must-do done, a day
 * for each wish; --out writes the plan with each of these days as a variant.
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
  const { days } = await core().curve(
    plan,
    { seed, iterations, seconds: seconds ?? (iterations === undefined ? 30 : Infinity) },
    turnOf(streams),
  );
  if (out !== null) {
    const taken = new Set(plan.variants.map(({ id }) => id));
    const variants = days.flatMap(({ wish, schedule }) => {
      const id = `must-do-${Math.round(wish.must * 1000)}`;
      if (taken.has(id)) return [];
      return [{ id, name: `Every must-do done, wanted ${percent(wish.must, "given")}`, schedule }];
    });
    await writeOutput(out, planText({ ...plan, variants: [...plan.variants, ...variants] }));
  }
  streams.out(
    values.json === true ? `${JSON.stringify(days.map(plain), null, 2)}\n` : table(plan.title, days, out),
  );
  return 0;
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

function table(title: string, days: readonly WishedDay[], out: string | null): string {
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
  return `${[title, ...lines, ...counted, ...none, ...(out === null ? [] : [`  written   ${out}`])].join("\n")}\n`;
}
