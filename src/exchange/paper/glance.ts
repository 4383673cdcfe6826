import type { Rest, Verdict } from "../../answers/index.ts";
import { limiterWords } from "../../check/index.ts";
import { instant, type Instant } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import { clock, minutes, noLaterThan, touchdownMs, utcClock, utcDate } from "../../words/index.ts";
import { type CrewEva, nameOf, restPlace, taskName } from "./crewday.ts";
import { gap, type Heading, type Leaf, leaves, LEFT, paragraph, RIGHT, setLines } from "./cuff.ts";
import type { Block } from "./flow.ts";
import { line, text } from "./page.ts";
import { cellRow, heading, SCALES, warnings } from "./parts.ts";
import { linesHeight, MM_PER_PT, RISE, textWidth, wrap } from "./type.ts";

/** The EVA at a glance: egress, ingress by, and tasks and rests in order with start times and places. */
export function glanceLeaves(plan: Plan, verdict: Verdict, part: CrewEva, head: Heading): Leaf[] {
  const epochMs = touchdownMs(plan);
  const limitS = noLaterThan(part.limit.ingressS, part.ingressS);
  const utc = (at: Instant | null): string => (at === null ? "" : `UTC ${utcClock(epochMs, at)}`);
  const { breaches } = verdict.score;
  const others = part.others.map((other) => nameOf(plan.crew, other.id)).join(", ");
  const date = part.egressS === null ? "egress time unknown" : `Egress ${utcDate(epochMs, part.egressS)} UTC`;
  const inSuit = part.suit === null ? [] : [`In ${part.suit}.`];
  const rows = rowsOf(plan, part);
  const at = rows.some(({ startS }) => startS % 60 !== 0 || (epochMs / 1000 + startS) % 60 !== 0)
    ? TO_THE_SECOND
    : TO_THE_MINUTE;
  const set = (scale: RowScale): Leaf[] =>
    leaves(head, "at a glance", blocks(scale), { again: heading("TASKS IN ORDER (continued)") });
  const blocks = (scale: RowScale): Block[] => [
    ...(breaches > 0 ? warnings("NOT CLEARED", [broken(breaches)], SCALES[1]!) : []),
    paragraph(`${nameOf(plan.evas, part.eva.id)} at a glance`, {
      sizesPt: [18, 16, 14, 12],
      bold: true,
      mostLines: 2,
    }),
    paragraph([`${date}.`, others === "" ? "Alone outside." : `With ${others}.`, ...inSuit].join(" "), {
      sizesPt: [10.5],
      after: 0.5,
    }),
    cellRow(
      [
        {
          label: "EGRESS",
          value: part.egressS === null ? "unknown" : clock(part.egressS),
          below: utc(part.egressS),
          share: 1,
        },
        {
          label: "INGRESS BY",
          value: clock(part.ingressS ?? limitS),
          below: utc(part.ingressS ?? limitS),
          share: 1,
          heavy: true,
        },
        {
          label: "NO LATER THAN",
          value: clock(limitS),
          below: utc(limitS),
          share: 1,
        },
      ],
      scale.cellMm,
    ),
    paragraph(`Latest ingress set by ${limiterWords(plan, part.limit.by)}.`, { sizesPt: [9.5], after: 0.3 }),
    ...(part.stops.length === 0
      ? [gap(3), paragraph("No task on this EVA: wait at the lander.", { sizesPt: [14], bold: true })]
      : [columns(at), ...rows.map((one) => row(one, epochMs, scale, at))]),
  ];
  for (const scale of [ROOMY, CLOSE]) {
    const one = set(scale);
    if (one.length === 1) return one;
  }
  const tight = set(TIGHT);
  return tight.length === 1 ? tight : set(CLOSE);
}

interface RowScale {
  readonly timePt: number;
  readonly namePt: number;
  readonly afterMm: number;
  readonly cellMm: number;
}
const ROOMY: RowScale = { timePt: 14, namePt: 12, afterMm: 1.6, cellMm: 22 };
const CLOSE: RowScale = { timePt: 12, namePt: 10.5, afterMm: 0.8, cellMm: 18.5 };
const TIGHT: RowScale = { timePt: 11, namePt: 9.5, afterMm: 0.4, cellMm: 18.5 };

interface Row {
  readonly startS: Instant;
  readonly name: string;
  readonly place: string;
}

/** Tasks, the rests that the work limit needs before them, and the walk home where its time is known. */
function rowsOf(plan: Plan, part: CrewEva): Row[] {
  const resting = (rest: Rest | null): Row[] => {
    if (rest === null) return [];
    const { needS, span } = rest;
    const place = `${restPlace(plan, rest)}, until ${clock(span.endS)}`;
    return [{ startS: instant(span.endS - needS), name: `REST ${minutes(needS, "given")}`, place }];
  };
  const rows = part.stops.flatMap((stop): Row[] => {
    const place = stop.endPlace === null ? stop.place : `${stop.place} to ${stop.endPlace}`;
    return [...resting(stop.rest), { startS: stop.startS, name: taskName(stop.task), place }];
  });
  const last = part.stops.at(-1);
  if (last && part.homewardS !== null && part.homewardS > 0) {
    rows.push({ startS: last.endS, name: "Walk home", place: minutes(part.homewardS, "up") });
  }
  return [...rows, ...resting(part.homeRest)];
}

function broken(count: number): string {
  return count === 1
    ? "This plan breaks 1 rule. It is not fit to be flown."
    : `This plan breaks rules ${count} times. It is not fit to be flown.`;
}

/** Right edges of both clocks, the largest type for each, and where names begin. */
interface Columns {
  readonly metMm: number;
  readonly utcMm: number;
  readonly mostPt: { readonly met: number; readonly utc: number };
  readonly nameMm: number;
}
const TO_THE_MINUTE: Columns = {
  metMm: LEFT + 12,
  utcMm: LEFT + 23.5,
  mostPt: { met: 14, utc: 10 },
  nameMm: LEFT + 25.5,
};
const TO_THE_SECOND: Columns = {
  metMm: LEFT + 15.5,
  utcMm: LEFT + 29.5,
  mostPt: { met: 10.5, utc: 9 },
  nameMm: LEFT + 31,
};

function columns({ metMm, utcMm, nameMm }: Columns): Block {
  const face = { sizePt: 9, bold: true };
  return {
    height: 5.4,
    keep: true,
    draw: (y) => [
      ...text(metMm, y + 4, "MET", { ...face, align: "right" }),
      ...text(utcMm, y + 4, "UTC", { ...face, align: "right" }),
      ...text(nameMm, y + 4, "TASK, place", face),
      line(LEFT, y + 5, RIGHT, y + 5, 0.4),
    ],
  };
}

/** One line of the list: times, name and, on the same line where there is room, the place. */
function row({ startS, name, place }: Row, epochMs: number, scale: RowScale, at: Columns): Block {
  const nameFace = { sizePt: scale.namePt, bold: true };
  const placeFace = { sizePt: scale.namePt - 0.5, bold: false };
  const wide = RIGHT - at.nameMm;
  const names = wrap(name, wide, nameFace);
  const used = textWidth(names.at(-1)!, nameFace) + 2;
  const places = wrap(place, wide, placeFace);
  const beside = places.length === 1 && textWidth(places[0]!, placeFace) <= wide - used;
  const namesHigh = linesHeight(names.length, nameFace.sizePt);
  const height = namesHigh + (beside ? 0 : linesHeight(places.length, placeFace.sizePt)) + scale.afterMm;
  const baseline = RISE * nameFace.sizePt * MM_PER_PT;
  const right = { align: "right" } as const;
  return {
    height,
    draw: (y) => [
      ...text(at.metMm, y + baseline + 0.2, clock(startS), {
        sizePt: Math.min(scale.timePt, at.mostPt.met),
        bold: true,
        ...right,
      }),
      ...text(at.utcMm, y + baseline + 0.1, utcClock(epochMs, startS), {
        sizePt: at.mostPt.utc,
        bold: false,
        ...right,
      }),
      ...setLines(names, at.nameMm, y, nameFace),
      ...(beside
        ? text(
            at.nameMm + used,
            y + baseline + linesHeight(names.length - 1, nameFace.sizePt),
            places[0]!,
            placeFace,
          )
        : setLines(places, at.nameMm, y + namesHigh, placeFace)),
      line(LEFT, y + height - 0.3, RIGHT, y + height - 0.3, 0.15),
    ],
  };
}
