import type { Verdict } from "../../check/index.ts";
import type { Instant } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type CrewEva, nameOf, taskName } from "./crewday.ts";
import { gap, type Heading, type Leaf, leaves, LEFT, paragraph, RIGHT, setLines } from "./cuff.ts";
import type { Block } from "./flow.ts";
import { line, text } from "./page.ts";
import { cellRow, heading, SCALES, warnings } from "./parts.ts";
import { linesHeight, MM_PER_PT, RISE, textWidth, wrap } from "./type.ts";
import { epochOf, hourMinute, minutesUp, utcClock, utcDate } from "./wording.ts";

/** The EVA at a glance: egress, ingress by, and the tasks in order with start times and places. */
export function glanceLeaves(plan: Plan, verdict: Verdict, part: CrewEva, head: Heading): Leaf[] {
  const epochMs = epochOf(plan.stay.touchdownUtc);
  const utc = (at: Instant | null): string => (at === null ? "" : `UTC ${utcClock(epochMs, at)}`);
  const { breaches } = verdict.score;
  const others = part.others.map((other) => nameOf(plan.crew, other.id)).join(", ");
  const date = part.egressS === null ? "egress time unknown" : `Egress ${utcDate(epochMs, part.egressS)} UTC`;
  const set = (scale: RowScale): Leaf[] =>
    leaves(head, "at a glance", blocks(scale), { again: heading("TASKS IN ORDER (continued)") });
  const blocks = (scale: RowScale): Block[] => [
    ...(breaches > 0 ? warnings("NOT CLEARED", [broken(breaches)], SCALES[1]!) : []),
    paragraph(`${nameOf(plan.evas, part.eva.id)} at a glance`, {
      sizesPt: [18, 16, 14, 12],
      bold: true,
      mostLines: 2,
    }),
    paragraph(others === "" ? `${date}. Alone outside.` : `${date}. With ${others}.`, {
      sizesPt: [10.5],
      after: 0.5,
    }),
    cellRow(
      [
        {
          label: "EGRESS",
          value: part.egressS === null ? "unknown" : hourMinute(part.egressS),
          below: utc(part.egressS),
          share: 1,
        },
        {
          label: "INGRESS BY",
          value: hourMinute(part.ingressS ?? part.ingressLimitS),
          below: utc(part.ingressS ?? part.ingressLimitS),
          share: 1,
          heavy: true,
        },
        {
          label: "NO LATER THAN",
          value: hourMinute(part.ingressLimitS),
          below: utc(part.ingressLimitS),
          share: 1,
        },
      ],
      scale.cellMm,
    ),
    ...(part.stops.length === 0
      ? [gap(3), paragraph("No task on this EVA: wait at the lander.", { sizesPt: [14], bold: true })]
      : [columns(), ...rowsOf(part).map((one) => row(one, epochMs, scale))]),
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

/** The tasks, and the walk home where its time is known. */
function rowsOf(part: CrewEva): Row[] {
  const rows = part.stops.map((stop): Row => {
    const place = stop.endPlace === null ? stop.place : `${stop.place} to ${stop.endPlace}`;
    return { startS: stop.startS, name: taskName(stop.task), place };
  });
  const last = part.stops.at(-1);
  if (last && part.homewardS !== null && part.homewardS > 0) {
    rows.push({ startS: last.endS, name: "Walk home", place: minutesUp(part.homewardS) });
  }
  return rows;
}

function broken(count: number): string {
  return count === 1
    ? "This plan breaks 1 rule. It is not fit to be flown."
    : `This plan breaks rules ${count} times. It is not fit to be flown.`;
}

const NAME_AT = LEFT + 25.5;

function columns(): Block {
  const face = { sizePt: 9, bold: true };
  return {
    height: 5.4,
    keep: true,
    draw: (y) => [
      ...text(LEFT + 12, y + 4, "MET", { ...face, align: "right" }),
      ...text(LEFT + 23.5, y + 4, "UTC", { ...face, align: "right" }),
      ...text(NAME_AT, y + 4, "TASK, place", face),
      line(LEFT, y + 5, RIGHT, y + 5, 0.4),
    ],
  };
}

/** One line of the list: times, name and, on the same line where there is room, the place. */
function row({ startS, name, place }: Row, epochMs: number, scale: RowScale): Block {
  const nameFace = { sizePt: scale.namePt, bold: true };
  const placeFace = { sizePt: scale.namePt - 0.5, bold: false };
  const wide = RIGHT - NAME_AT;
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
      ...text(LEFT + 12, y + baseline + 0.2, hourMinute(startS), {
        sizePt: scale.timePt,
        bold: true,
        ...right,
      }),
      ...text(LEFT + 23.5, y + baseline + 0.1, utcClock(epochMs, startS), {
        sizePt: 10,
        bold: false,
        ...right,
      }),
      ...setLines(names, NAME_AT, y, nameFace),
      ...(beside
        ? text(
            NAME_AT + used,
            y + baseline + linesHeight(names.length - 1, nameFace.sizePt),
            places[0]!,
            placeFace,
          )
        : setLines(places, NAME_AT, y + namesHigh, placeFace)),
      line(LEFT, y + height - 0.3, RIGHT, y + height - 0.3, 0.15),
    ],
  };
}
