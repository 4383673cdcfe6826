import { check } from "../check/index.ts";
import { booklets, daySheet, toPdf, unsaidOnCuffs } from "../exchange/index.ts";
import type { Plan } from "../plan/index.ts";
import type { ExitCode, Streams } from "./verb.ts";
import { core, turnOf } from "./core.ts";
import { facesOnDisk } from "./faces.ts";
import { readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";

const SIZES = ["cuff", "a4", "letter"] as const;
type Size = (typeof SIZES)[number];

/** What no page of a cuff checklist has been judged for. */
const NOT_JUDGED =
  "Judged: likely durations, everybody leaving at any moment from at once to as late as printed. " +
  "Not judged: work that takes longer, steps, cautions and notes.";

/** `cuff plan.json --out file.pdf`: the crew's checklists, or the day timeline, of the plan's own schedule. */
export async function cuffVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("cuff", args, {
    out: { type: "string" },
    crew: { type: "string", multiple: true },
    size: { type: "string" },
    sheet: { type: "boolean" },
    "no-shed": { type: "boolean" },
  });
  const size = sizeOf(values.size);
  if (values.sheet === true && size === "cuff") refuse("--sheet needs --size a4 or letter");
  if (values.sheet === true && values.crew) refuse("--sheet shows the whole crew; leave --crew out");
  const out = await checkOutput(values.out, path, "file.pdf");
  const plan = await readPlan(path);
  const crew = crewOf(plan, values.crew);
  const verdict = check(plan, plan.schedule);
  const shed =
    values.sheet === true || values["no-shed"] === true
      ? undefined
      : await core().shed(plan, { schedule: plan.schedule }, turnOf(streams));
  const paper =
    values.sheet === true
      ? daySheet(plan, verdict, size === "letter" ? "letter" : "a4")
      : booklets(plan, verdict, {
          crew,
          size: size ?? "cuff",
          shed: shed?.complete === true ? shed : undefined,
        });
  await writeOutput(out, await toPdf(paper, facesOnDisk));
  const { breaches } = verdict.score;
  const count = paper.pages.length;
  streams.out(`${count} ${count === 1 ? "page" : "pages"} written to ${out}\n`);
  if (values.sheet !== true) {
    for (const { words, tasks } of unsaidOnCuffs(plan))
      streams.out(`On paper: ${words}${tasks.length > 0 ? `: ${tasks.join("; ")}` : ""}\n`);
    streams.out(`${NOT_JUDGED}\n`);
  }
  if (breaches === 0) return 0;
  streams.err(
    `lope: the plan has ${breaches} ${breaches === 1 ? "breach" : "breaches"}, and the paper says so; see lope check\n`,
  );
  return 1;
}

function sizeOf(given: string | undefined): Size | undefined {
  if (given === undefined) return undefined;
  return (
    SIZES.find((size) => size === given) ??
    refuse(`--size ${given}: give ${SIZES.slice(0, -1).join(", ")} or ${SIZES.at(-1)!}`)
  );
}

function crewOf(plan: Plan, given: readonly string[] | undefined): readonly string[] | undefined {
  for (const id of given ?? []) {
    if (!plan.crew.some((member) => member.id === id)) {
      refuse(`--crew ${id}: the plan has ${plan.crew.map((member) => member.id).join(", ") || "no crew"}`);
    }
  }
  return given;
}
