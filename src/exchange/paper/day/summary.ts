import type { MarginTrack, Outing, Verdict } from "../../../check/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { nameOf } from "../crewday.ts";
import type { Block } from "../flow.ts";
import { line, type Mark, text } from "../page.ts";
import { clip } from "../type.ts";
import { farthest } from "../walkback.ts";
import { hourMinute, metresUp, minutesDown, minutesUp, percentDown } from "../wording.ts";
import { listLines } from "./bands.ts";
import { LANDSCAPE_LEFT, type SheetBox } from "./frame.ts";

/** Margins, walk-back and findings below the timeline. */

const COLUMNS = [
  "EVA",
  "Crew",
  "Oxygen",
  "CO2",
  "Water",
  "Battery",
  "Longest walk-back",
  "Least spare",
  "Walked",
];
const SHARES = [3, 3, 1.6, 1.6, 1.6, 1.6, 3, 2.2, 1.8];
const ROW_MM = 4.3;

/** One row for each crew member and EVA: the least margin above the reserve of each consumable, walk-back, distance. */
export function marginTable(plan: Plan, verdict: Verdict, box: SheetBox): Block[] {
  if (verdict.outings.length === 0) return [];
  const rows = verdict.outings.map((outing) => cellsOf(plan, verdict, outing));
  return [
    {
      height: 5,
      keep: true,
      draw: (y) =>
        text(LANDSCAPE_LEFT, y + 3.6, "Margins: least left above the reserve, of the full stock", {
          sizePt: 9,
          bold: true,
        }),
    },
    row(COLUMNS, true, box),
    ...rows.map((cells) => row(cells, false, box)),
    { height: 1.5, draw: () => [] },
  ];
}

function cellsOf(plan: Plan, verdict: Verdict, outing: Outing): string[] {
  const own = (one: { readonly eva: string; readonly crew: string }): boolean =>
    one.eva === outing.eva && one.crew === outing.crew;
  const margin = (consumable: MarginTrack["consumable"]): string => {
    const track = verdict.margins.find((one) => own(one) && one.consumable === consumable);
    return track ? percentDown(track.margin) : "unknown";
  };
  const reach = verdict.reach.find((one) => own(one)) ?? null;
  const worst = farthest(reach);
  const walkedM = outing.stretches.reduce((sum, stretch) => sum + stretch.walkM, 0);
  return [
    nameOf(plan.evas, outing.eva),
    nameOf(plan.crew, outing.crew),
    margin("oxygen"),
    margin("co2"),
    margin("water"),
    margin("battery"),
    worst ? `${minutesUp(worst.seconds)} at ${hourMinute(worst.atS)}` : "unknown",
    spare(reach),
    metresUp(walkedM),
  ];
}

/** Least of allowed less needed walk-back; a worst point on a way is held against what is allowed at the way's end. */
function spare(reach: Verdict["reach"][number] | null): string {
  const allowed = reach?.allowed ?? [];
  const left = (reach?.points ?? []).flatMap(({ atS, value }) => {
    const from = allowed.find((point) => point.atS >= atS)?.atS;
    const most = allowed.filter((point) => point.atS === from).map((point) => point.value);
    return most.length === 0 ? [] : [Math.min(...most) - value];
  });
  const least = Math.min(...left);
  return Number.isFinite(least) ? minutesDown(least) : "unknown";
}

function row(cells: readonly string[], bold: boolean, box: SheetBox): Block {
  const wide = box.right - LANDSCAPE_LEFT;
  const all = SHARES.reduce((sum, share) => sum + share, 0);
  const face = { sizePt: 8, bold };
  return {
    height: ROW_MM,
    keep: bold,
    draw: (y) => {
      const marks: Mark[] = [line(LANDSCAPE_LEFT, y + ROW_MM, box.right, y + ROW_MM, bold ? 0.3 : 0.12)];
      let x = LANDSCAPE_LEFT;
      cells.forEach((cell, i) => {
        const own = (wide * SHARES[i]!) / all;
        marks.push(...text(x, y + 3.2, clip(cell, own - 2, face), face));
        x += own;
      });
      return marks;
    },
  };
}

/** Breaches in full, then how many findings are tight, and must-do tasks that are not placed. */
export function findingLines(plan: Plan, verdict: Verdict, box: SheetBox): Block[] {
  const of = (level: string): string[] =>
    verdict.findings.filter((finding) => finding.level === level).map((finding) => finding.sentence);
  const breaches = of("breach");
  const tight = of("tight");
  const placed = new Set(plan.schedule.placements.map((placement) => placement.task));
  const missing = plan.tasks.filter((task) => task.must && !placed.has(task.id));
  return [
    ...(breaches.length > 0 ? listLines(`BREACHES (${breaches.length}): ${breaches.join(" ")}`, box) : []),
    ...(missing.length > 0
      ? listLines(`MUST-DO LEFT OUT: ${missing.map((task) => nameOf(plan.tasks, task.id)).join("; ")}`, box)
      : []),
    ...(tight.length > 0 ? listLines(`Tight (${tight.length}): ${tight.join(" ")}`, box) : []),
  ];
}
