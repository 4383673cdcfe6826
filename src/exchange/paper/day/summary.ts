import type { MarginTrack, Outing, Verdict } from "../../../answers/index.ts";
import { isEmergencyGiven, isStockGiven, type Plan } from "../../../plan/index.ts";
import { FLIGHT_RULES } from "../../../rules/index.ts";
import { clock, findingWords, metres, minutes, numberedTask, percent } from "../../../words/index.ts";
import { nameOf, suitToSay } from "../crewday.ts";
import type { Block } from "../flow.ts";
import { line, type Mark, text } from "../page.ts";
import { clip } from "../type.ts";
import { farthest } from "../walkback.ts";
import { listLines } from "./bands.ts";
import { LANDSCAPE_LEFT, type SheetBox } from "./frame.ts";

/** Margins, walk-back and findings below the timeline. */

/** Heads of `marginCells`. */
export const MARGIN_HEADS = [
  "",
  "Oxygen",
  "CO2",
  "Water",
  "Battery",
  "Longest walk-back",
  "Least spare",
  "Walked",
];
const SHARES = [30, 13, 11, 11, 13, 27, 18, 15];
const ROW_MM = 3.9;
const BETWEEN_MM = 8;

/**
 * A cell row for each crew member and EVA, two to a line: the least margin above the reserve of each consumable as a
 * share of the stock, the longest walk-back and when, the least time to spare on it, the distance walked. `played` is the judge's word on
 * the day as printed.
 */
export function marginTable(plan: Plan, verdict: Verdict, played: Verdict, box: SheetBox): Block[] {
  if (verdict.outings.length === 0) return [];
  const rows = verdict.outings.map((outing) => marginCells(plan, verdict, outing, played));
  const half = Math.ceil(rows.length / 2);
  const head = ["Least above reserve", ...MARGIN_HEADS.slice(1)];
  return [
    row(rows.length > 1 ? [head, head] : [head], true, box),
    ...rows.slice(0, half).map((cells, i) => {
      const beside = rows[half + i];
      return row(beside ? [cells, beside] : [cells], false, box);
    }),
    { height: 1.5, draw: () => [] },
  ];
}

/**
 * Least margins, walk-back and way of one crew member on one EVA, each rounded to the safe side; unknown what rests on a suit that nobody has
 * given. Of the day as planned and as printed the worse counts: out sooner and in later, a suit comes home with less.
 */
export function marginCells(
  plan: Plan,
  verdict: Verdict,
  outing: Outing,
  played: Verdict = verdict,
): string[] {
  const days = [verdict, played];
  const own = (one: { readonly eva: string; readonly crew: string }): boolean =>
    one.eva === outing.eva && one.crew === outing.crew;
  const margin = (consumable: MarginTrack["consumable"]): string => {
    const tracks = days.map(({ margins }) =>
      margins.find((one) => own(one) && one.consumable === consumable),
    );
    const isGiven = isStockGiven(plan, outing, consumable);
    const least = Math.min(...tracks.map((track) => track?.margin ?? NaN));
    return isGiven && !Number.isNaN(least) ? percent(least, "down") : "unknown";
  };
  const reaches = days.map(({ reach }) => reach.find((one) => own(one)) ?? null);
  const worst = farthest(reaches[0] ?? null);
  const walkedM = outing.stretches.reduce((sum, stretch) => sum + stretch.walkM, 0);
  const eva = plan.evas.find((one) => one.id === outing.eva);
  const member = plan.crew.find((one) => one.id === outing.crew);
  const suit = eva && member ? suitToSay(plan, eva, member) : null;
  return [
    [nameOf(plan.evas, outing.eva), nameOf(plan.crew, outing.crew), ...(suit === null ? [] : [suit])].join(
      ", ",
    ),
    margin("oxygen"),
    margin("co2"),
    margin("water"),
    margin("battery"),
    worst ? `${minutes(worst.seconds, "up")} at ${clock(worst.atS)}` : "unknown",
    isEmergencyGiven(plan, outing) ? spareWords(reaches) : "unknown",
    metres(walkedM, "up"),
  ];
}

/** The least to spare on a walk-back over days; unknown where it is of one of them. */
function spareWords(reaches: readonly (Verdict["reach"][number] | null)[]): string {
  const least = Math.min(...reaches.map(spareS));
  return Number.isFinite(least) ? minutes(least, "down") : "unknown";
}

/** Least of allowed less needed walk-back, s; a worst point on a way is held against what is allowed at the way's end. NaN where nothing is known. */
function spareS(reach: Verdict["reach"][number] | null): number {
  const allowed = reach?.allowed ?? [];
  const left = (reach?.points ?? []).flatMap(({ atS, value }) => {
    const from = allowed.find((point) => point.atS >= atS)?.atS;
    const most = allowed.filter((point) => point.atS === from).map((point) => point.value);
    return most.length === 0 ? [] : [Math.min(...most) - value];
  });
  return left.length === 0 ? NaN : Math.min(...left);
}

function row(tables: readonly (readonly string[])[], head: boolean, box: SheetBox): Block {
  const wide = (box.right - LANDSCAPE_LEFT - BETWEEN_MM) / 2;
  const all = SHARES.reduce((sum, share) => sum + share, 0);
  const face = { sizePt: 7.5, bold: head };
  return {
    height: ROW_MM,
    keep: head,
    draw: (y) =>
      tables.flatMap((cells, k) => {
        let x = LANDSCAPE_LEFT + k * (wide + BETWEEN_MM);
        const marks: Mark[] = [line(x, y + ROW_MM, x + wide, y + ROW_MM, head ? 0.3 : 0.12)];
        cells.forEach((cell, i) => {
          const own = (wide * SHARES[i]!) / all;
          marks.push(...text(x, y + 2.9, clip(cell, own - 1, face), face));
          x += own;
        });
        return marks;
      }),
  };
}

/** Breaches in full, must-do tasks that are not placed, groups of which too few are, and which rules are held by little. */
export function findingLines(plan: Plan, verdict: Verdict, box: SheetBox): Block[] {
  const breaches = verdict.findings.filter((finding) => finding.level === "breach");
  const placed = new Set(plan.schedule.placements.map((placement) => placement.task));
  const missing = plan.tasks.filter((task) => task.must && !placed.has(task.id));
  const tight = new Map<string, number>();
  for (const { level, rule } of verdict.findings) {
    const { words } = FLIGHT_RULES[rule];
    if (level === "tight") tight.set(words, (tight.get(words) ?? 0) + 1);
  }
  const few = verdict.findings
    .filter(({ rule }) => rule === "group-least")
    .map((finding) => findingWords(plan, finding));
  const sentences = breaches.map((finding) => findingWords(plan, finding)).join(" ");
  const counts = [...tight].map(([rule, count]) => `${rule} ${count}`).join(", ");
  return [
    ...(breaches.length > 0 ? listLines(`BREACHES (${breaches.length}): ${sentences}`, box) : []),
    ...(missing.length > 0
      ? listLines(`MUST-DO LEFT OUT: ${missing.map(({ id }) => numberedTask(plan, id)).join("; ")}`, box)
      : []),
    ...(few.length > 0 ? listLines(`TOO FEW: ${few.join(" ")}`, box) : []),
    ...(tight.size > 0 ? listLines(`Tight: ${counts}.`, box) : []),
  ];
}
