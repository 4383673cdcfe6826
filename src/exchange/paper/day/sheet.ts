import type { ChancesReport, PrintedDay, Verdict } from "../../../answers/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { notGivenWords, touchdownMs, utcDate } from "../../../words/index.ts";
import { fileMs } from "../filems.ts";
import { type Block, flow } from "../flow.ts";
import { playedAsPrinted } from "../leaving/asprinted.ts";
import { printedDay } from "../leaving/printedday.ts";
import type { SheetSize } from "../impose.ts";
import type { Mark, Paper } from "../page.ts";
import type { SheetStamp } from "../sheets/frame.ts";
import { evaBand, remoteLines, stayBand } from "./bands.ts";
import { chanceLines } from "./chances.ts";
import { framed, sheetBox } from "./frame.ts";
import { findingLines, marginTable } from "./summary.ts";

/** Lane heights tried, mm: the tallest that keeps the day on one sheet. */
const LANES_MM = [30, 26, 23, 21, 19, 17.5, 16, 14.5, 13, 12];
/** Where none does: the tallest of these that takes the fewest sheets. */
const MANY_SHEETS_LANES_MM = [16, 14.5, 13];

/**
 * The day timeline on one landscape sheet (more when the plan has more EVAs than one sheet shows legibly): the whole
 * stay, each EVA magnified, margins and findings. `verdict` must be that of `plan` with its own schedule, `stamp` what is printed
 * of its revision, `day` its printed moments, `chances` those of the same day; null where they are not known.
 */
export function daySheet(
  plan: Plan,
  verdict: Verdict,
  stamp: SheetStamp,
  size: SheetSize = "a4",
  day: PrintedDay = printedDay(plan),
  chances: ChancesReport | null = null,
): Paper {
  const box = sheetBox(size);
  const epochMs = touchdownMs(plan);
  const played = playedAsPrinted(plan, day);
  const set = (laneMm: number): Mark[][] => flow(contentOf(laneMm), box.room, null, null);
  const contentOf = (laneMm: number): Block[] => [
    stayBand(plan, verdict, box),
    ...remoteLines(plan, box),
    ...plan.evas.flatMap((eva) => evaBand(plan, verdict, day, eva, laneMm, box)),
    ...marginTable(plan, verdict, played, box),
    ...chanceLines(plan, chances, box),
    ...findingLines(plan, verdict, box),
  ];
  const fewest = (): number => {
    const sheets = MANY_SHEETS_LANES_MM.map((high) => set(high).length);
    return MANY_SHEETS_LANES_MM[sheets.indexOf(Math.min(...sheets))]!;
  };
  const laneMm = LANES_MM.find((high) => set(high).length === 1) ?? fewest();
  const { score, placed, mustPlaced, mustTotal } = verdict;
  const open = notGivenWords(plan);
  const under = [
    plan.site.name,
    `touchdown ${utcDate(epochMs, 0)} UTC`,
    `${placed} of ${plan.tasks.length} tasks placed`,
    `must-do ${mustPlaced} of ${mustTotal}`,
    `worth ${score.worth}`,
    score.breaches === 0 ? "no breach" : `NOT CLEARED, BREACHES: ${score.breaches}`,
    ...(open === null ? [] : [`RESTS ON ${open}`]),
  ].join("  ·  ");
  return {
    title: `${plan.title}: day timeline`,
    epochMs: fileMs(plan),
    pages: framed(box, plan.title, under, stamp, set(laneMm)),
  };
}
