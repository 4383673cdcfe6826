import { daySheet, SHEET_KINDS, type SheetNeed, sheetPaper, stampOf, toPdf } from "../exchange/index.ts";
import { keysOf } from "../kernel/index.ts";
import { callFaults, isRehearsalText, readRehearsal, type RehearsalFile } from "../rehearsal/index.ts";
import { counted } from "../words/index.ts";
import { facesOnDisk } from "./faces.ts";
import { numberOption, paperOf, readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { planIn, readText } from "./planinput.ts";
import { refuse } from "./refusal.ts";
import { sheetFacts } from "./sheetfacts.ts";
import type { ExitCode, Streams } from "./verb.ts";

const KINDS = ["day", ...keysOf(SHEET_KINDS)] as const;
const PAPERS = ["a4", "letter", "cuff"] as const;

/** A rehearsal as the app saves it, sound and fit for its plan. */
function savedIn(path: string, text: string): RehearsalFile {
  const read = readRehearsal(text);
  if (!read.ok) return refuse(`${path}: ${read.error}`);
  const faults = callFaults(read.value.plan, read.value.rehearsal);
  return faults.length === 0 ? read.value : refuse(`${path}: ${faults.join(" ")}`);
}

/** `sheet KIND plan.json --out file.pdf [--paper a4|letter|cuff] [--punched]`: a sheet of the plan's own schedule, or of a saved rehearsal. */
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
  const needs: readonly SheetNeed[] = kind === "day" ? [] : SHEET_KINDS[kind].needs;
  const text = await readText(path);
  const saved = needs.includes("rehearsal") && isRehearsalText(text) ? savedIn(path, text) : undefined;
  if (saved && seed !== undefined)
    refuse("--seed is of a day that the crew plays by itself, not of a saved rehearsal");
  const plan = saved?.plan ?? planIn(path, text);
  const facts = await sheetFacts(plan, needs, streams, saved?.rehearsal ?? { seed: seed ?? 1 });
  const { verdict, day } = facts;
  const stamp = stampOf(plan, verdict, Date.now());
  const paper =
    kind === "day"
      ? daySheet(plan, verdict, stamp, size === "letter" ? "letter" : "a4", day)
      : sheetPaper(kind, facts, stamp, { paper: size, punched: values.punched });
  await writeOutput(out, await toPdf(paper, facesOnDisk));
  streams.out(`${counted(paper.pages.length, "page")} written to ${out}\n`);
  if (verdict.score.breaches === 0) return 0;
  streams.err(
    `lope: the plan has ${counted(verdict.score.breaches, "breach", "breaches")}, and the paper says so; see lope check\n`,
  );
  return 1;
}
