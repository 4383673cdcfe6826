import { daySheet, SHEET_KINDS, sheetPaper, stampOf, toPdf } from "../exchange/index.ts";
import { keysOf } from "../kernel/index.ts";
import { counted } from "../words/index.ts";
import { facesOnDisk } from "./faces.ts";
import { numberOption, paperOf, readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";
import { sheetFacts } from "./sheetfacts.ts";
import type { ExitCode, Streams } from "./verb.ts";

const KINDS = ["day", ...keysOf(SHEET_KINDS)] as const;
const PAPERS = ["a4", "letter", "cuff"] as const;

/** `sheet KIND plan.json --out file.pdf [--paper a4|letter|cuff] [--punched]`: a sheet of the plan's own schedule. */
export async function sheetVerb([given, ...args]: readonly string[], streams: Streams): Promise<ExitCode> {
  const kind =
    KINDS.find((one) => one === given) ??
    refuse(`say which sheet: lope sheet KIND plan.json, KIND one of ${KINDS.join(", ")}`);
  const { path, values } = readOptions(`sheet ${kind}`, args, {
    out: { type: "string" },
    paper: { type: "string", default: "a4" },
    punched: { type: "boolean" },
    seed: { type: "string" },
  });
  const size = paperOf(values.paper, PAPERS);
  if (kind === "day" && size === "cuff") refuse("the day timeline needs --paper a4 or letter");
  const seed = numberOption("seed", values.seed, { least: 0, most: 4_294_967_295, whole: true });
  const out = await checkOutput(values.out, path, "file.pdf");
  const plan = await readPlan(path);
  const facts = await sheetFacts(plan, kind === "day" ? [] : SHEET_KINDS[kind].needs, streams, seed);
  const { verdict, day } = facts;
  const paper =
    kind === "day"
      ? daySheet(plan, verdict, size === "letter" ? "letter" : "a4", day)
      : sheetPaper(kind, facts, stampOf(plan, verdict, Date.now()), { paper: size, punched: values.punched });
  await writeOutput(out, await toPdf(paper, facesOnDisk));
  streams.out(`${counted(paper.pages.length, "page")} written to ${out}\n`);
  if (verdict.score.breaches === 0) return 0;
  streams.err(
    `lope: the plan has ${counted(verdict.score.breaches, "breach", "breaches")}, and the paper says so; see lope check\n`,
  );
  return 1;
}
