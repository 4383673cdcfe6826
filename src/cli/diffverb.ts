import { check } from "../check/index.ts";
import {
  barredPages,
  booklets,
  changesBody,
  impose,
  type Page,
  pageChanges,
  pageWords,
  type Revision,
  sheetPaper,
  sheetsOf,
  stampOf,
  toPdf,
} from "../exchange/index.ts";
import type { Plan } from "../plan/index.ts";
import { counted, differenceWords, touchdownMs } from "../words/index.ts";
import { core, turnOf } from "./core.ts";
import { facesOnDisk } from "./faces.ts";
import { paperOf, readTwo } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { sheetFacts } from "./sheetfacts.ts";
import type { ExitCode, Streams } from "./verb.ts";

const PAPERS = ["a4", "letter", "cuff"] as const;
/** Sheets that are handed out beside the booklets and have to be replaced as they are. */
const SHEETS = ["console", "gauges", "stowage", "manifest"] as const;

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
  const cuffs = { title: plan.title, epochMs: touchdownMs(plan), pages: barred.filter(isCuff) };
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
  noShed: boolean,
  streams: Streams,
): Promise<Revision["papers"]> {
  const facts = await sheetFacts(plan, [], streams);
  const shed = noShed ? undefined : await core().shed(plan, { schedule: plan.schedule }, turnOf(streams));
  const stamp = stampOf(plan, facts.verdict, printedMs);
  const cuffs = booklets(plan, facts.verdict, {
    day: facts.day,
    printedMs,
    shed: shed?.complete === true ? shed : undefined,
  });
  return [cuffs, ...SHEETS.map((kind) => sheetPaper(kind, facts, stamp, { paper }))];
}
