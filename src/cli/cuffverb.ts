import { check } from "../check/index.ts";
import { beforePrint, booklets, impose, toPdf } from "../exchange/index.ts";
import type { Plan } from "../plan/index.ts";
import { numberedTask } from "../words/index.ts";
import type { ExitCode, Streams } from "./verb.ts";
import { core, turnOf } from "./core.ts";
import { facesOnDisk } from "./faces.ts";
import { paperOf, readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";

const PAPERS = ["cuff", "a4", "letter"] as const;

/** What no page of a cuff checklist has been judged for. */
const NOT_JUDGED =
  "Judged: likely durations, everybody leaving at any moment from at once to as late as printed. " +
  "Not judged: work that takes longer, steps, cautions and notes.";

/** `cuff plan.json --out file.pdf [--paper cuff|a4|letter]`: the crew's checklists of the plan's own schedule. */
export async function cuffVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { path, values } = readOptions("cuff", args, {
    out: { type: "string" },
    crew: { type: "string", multiple: true },
    paper: { type: "string", default: "cuff" },
    duplex: { type: "boolean", default: false },
    reading: { type: "boolean", default: false },
    rings: { type: "boolean", default: false },
    "no-shed": { type: "boolean" },
  });
  const { duplex, rings } = values;
  const size = paperOf(values.paper, PAPERS);
  if (size === "cuff" && (duplex || values.reading || rings))
    refuse("--duplex, --reading and --rings are about sheets: they need --paper a4 or letter");
  const out = await checkOutput(values.out, path, "file.pdf");
  const plan = await readPlan(path);
  const crew = crewOf(plan, values.crew);
  const verdict = check(plan, plan.schedule);
  const lateTable =
    values["no-shed"] === true
      ? undefined
      : await core().lateTable(plan, { schedule: plan.schedule }, turnOf(streams));
  const pages = booklets(plan, verdict, {
    crew,
    lateTable: lateTable?.complete === true ? lateTable : undefined,
    printedMs: Date.now(),
  });
  const order = values.reading ? "reading" : "stack";
  const paper = size === "cuff" ? pages : impose(pages, { sheet: size, duplex, order, rings });
  await writeOutput(out, await toPdf(paper, facesOnDisk));
  const { breaches } = verdict.score;
  const count = paper.pages.length;
  streams.out(`${count} ${count === 1 ? "page" : "pages"} written to ${out}\n`);
  for (const { words, tasks } of beforePrint(plan, verdict)) {
    const names = tasks.map((id) => numberedTask(plan, id)).join("; ");
    streams.out(`On paper: ${words}${names === "" ? "" : `: ${names}`}\n`);
  }
  streams.out(`${NOT_JUDGED}\n`);
  if (breaches === 0) return 0;
  streams.err(
    `lope: the plan has ${breaches} ${breaches === 1 ? "breach" : "breaches"}, and the paper says so; see lope check\n`,
  );
  return 1;
}

function crewOf(plan: Plan, given: readonly string[] | undefined): readonly string[] | undefined {
  for (const id of given ?? []) {
    if (!plan.crew.some((member) => member.id === id)) {
      refuse(`--crew ${id}: the plan has ${plan.crew.map((member) => member.id).join(", ") || "no crew"}`);
    }
  }
  return given;
}
