import { check } from "../check/index.ts";
import {
  barredPages,
  booklets,
  changesBody,
  daySheet,
  fileMs,
  impose,
  type Page,
  pageChanges,
  pageWords,
  type Revision,
  SHEET_KINDS,
  sheetPaper,
  sheetsOf,
  stampOf,
  toPdf,
} from "../exchange/index.ts";
import { keysOf } from "../kernel/index.ts";
import type { Plan } from "../plan/index.ts";
import { counted, differenceWords } from "../words/index.ts";
import { facesOnDisk } from "./faces.ts";
import { paperOf, readTwo } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { sheetFacts } from "./sheetfacts.ts";
import type { ExitCode, Streams } from "./verb.ts";

const PAPERS = ["a4", "letter", "cuff"] as const;

/** Every sheet of a plan: scenario and debrief are of a rehearsal. */
const SHEETS = keysOf(SHEET_KINDS).filter(
  (kind) => !SHEET_KINDS[kind].needs.some((need) => need === "rehearsal"),
);

/** `diff before.json after.json [--out file.pdf]`: what is otherwise, and which pages of cuff and sheets have to be replaced. */
export async function diffVerb(args: readonly string[], streams: Streams): Promise<ExitCode> {
  const { paths, values } = readTwo("diff", args, {
    out: { type: "string" },
    paper: { type: "string", default: "a4" },
    "no-shed": { type: "boolean", default: false },
  });
  const size = paperOf(values.paper, PAPERS);
  const out = values.out === undefined ? null : await checkOutput(values.out, paths[1], "changes.pdf");
  const printedMs = Date.now();
  const revision = async (path: string): Promise<Revision> => {
    const plan = await readPlan(path);
    return { plan, papers: await papersOf(plan, size, printedMs, values["no-shed"], streams) };
  };
  const before = await revision(paths[0]);
  const after = await revision(paths[1]);
  for (const { about, sentence } of differenceWords(before.plan, after.plan))
    streams.out(`${about}: ${sentence}\n`);
  const changes = pageChanges(before, after);
  for (const change of changes) streams.out(`${pageWords(change)}\n`);
  if (changes.length === 0) streams.out("No page has to be replaced.\n");
  if (out === null) return 0;
  const { plan } = after;
  const stamp = stampOf(plan, check(plan), printedMs);
  const barred = barredPages(before, after);
  const isCuff = (page: Page): boolean => plan.crew.some(({ id }) => page.part.startsWith(id));
  const cuffs = { title: plan.title, epochMs: fileMs(plan), pages: barred.filter(isCuff) };
  const onSheets =
    size === "cuff" ? cuffs : impose(cuffs, { sheet: size, duplex: false, order: "reading", rings: false });
  const pages = [
    ...sheetsOf([changesBody(before, after)], stamp, { paper: size }),
    ...onSheets.pages,
    ...barred.filter((page) => !isCuff(page)),
  ];
  await writeOutput(out, await toPdf({ ...cuffs, title: `${plan.title}: changes`, pages }, facesOnDisk));
  streams.out(`${counted(pages.length, "page")} written to ${out}\n`);
  return 0;
}

async function papersOf(
  plan: Plan,
  paper: (typeof PAPERS)[number],
  printedMs: number,
  withoutLateTable: boolean,
  streams: Streams,
): Promise<Revision["papers"]> {
  const facts = await sheetFacts(
    plan,
    [...(withoutLateTable ? [] : (["late table"] as const)), "reasons", "walks"],
    streams,
  );
  const { lateTable, verdict, day } = facts;
  const stamp = stampOf(plan, verdict, printedMs);
  const cuffs = booklets(plan, verdict, {
    day,
    printedMs,
    lateTable: lateTable?.complete === true ? lateTable : undefined,
  });
  // The day timeline has no cuff size.
  const timeline = paper === "cuff" ? [] : [daySheet(plan, verdict, stamp, paper, day)];
  return [cuffs, ...timeline, ...SHEETS.map((kind) => sheetPaper(kind, facts, stamp, { paper }))];
}
