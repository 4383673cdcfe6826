import type { Rest } from "../../answers/index.ts";
import { limiterWords } from "../../check/index.ts";
import { instant } from "../../kernel/index.ts";
import { shortFingerprint } from "../../plan/index.ts";
import { clock, minutes, noLaterThan, notGivenWords, taskNumber } from "../../words/index.ts";
import { placedWords } from "../planstate.ts";
import { type CrewEva, nameOf, restPlace, taskName } from "./crewday.ts";
import {
  baselineOf,
  gap,
  type Heading,
  LABEL_PT,
  type Leaf,
  leaves,
  LEFT,
  paragraph,
  RIGHT,
  setLines,
  STANDING,
} from "./cuff.ts";
import { fromShadowDeg } from "./dial.ts";
import type { Block } from "./flow.ts";
import { cautionForm, type Fact, factForm, factForms, roomy, type Setting } from "./forms.ts";
import { NO_LIMIT } from "./givenstocks.ts";
import type { Known } from "./known.ts";
import { line, type Tag, tagged, text } from "./page.ts";
import { rowOf } from "./pieces.ts";
import { timesRow } from "./rows.ts";
import { signedFacts } from "./signed.ts";
import { linesHeight, textWidth, wrap } from "./type.ts";
import { walkBackWords } from "./walkback.ts";

/** The EVA at a glance: out, hatch shut, never after, and tasks and rests in order with start, leave-by and minutes home. */
export function glanceLeaves(known: Known, part: CrewEva, head: Heading): Leaf[] {
  const { plan, verdict } = known;
  const limitS = part.limit && noLaterThan(part.limit.ingressS, part.ingressS);
  const { breaches } = verdict.score;
  const open = notGivenWords(plan);
  const others = part.others.map((other) => nameOf(plan.crew, other.id)).join(", ");
  const when = (atS: number | null): string => (atS === null ? "unknown" : clock(atS));
  const rows = rowsOf(known, part);
  const at = columnsFor(rows);
  const table: Tag = { role: "Table" };
  const blocks: Block[] = [
    {
      height: 13.6,
      draw: (y) =>
        timesRow(
          [
            { label: "OUT", value: when(part.egressS) },
            { label: "HATCH SHUT", value: when(part.ingressS ?? limitS) },
            { label: "NEVER AFTER", value: when(limitS), heavy: true },
          ],
          false,
          y,
        ),
    },
    ...(breaches > 0 ? cautionForm("warning", [broken(breaches)], roomy(13.5)) : []),
    ...(open === null ? [] : cautionForm("warning", [`Figures rest on ${open}.`], roomy(13.5))),
    withBlock(others === "" ? "nobody, alone outside" : others, shortFingerprint(plan)),
    ...(part.suit === null ? [] : factForm("SUIT", part.suit)),
    ...(part.stops.length === 0
      ? [gap(2), paragraph("No task on this EVA: wait at the lander.", { sizesPt: [14] })]
      : [
          headings(at, table),
          ...rows.map((one, k) => ({ ...row(one, at, table), keep: k >= rows.length - WITH_KEY })),
        ]),
    { ...gap(1), keep: true },
    ...factForms(closingFacts(known, part), CLOSE, LABEL_PT),
  ];
  return leaves(head, "at a glance", "at a glance", blocks, { again: headings(at, table) });
}

/** What stands under the rows: by when all are in, what the signs of the rows and of other pages mean, and what the page is of. */
function closingFacts({ plan, sunAt }: Known, { limit, ingressS, stops }: CrewEva): Fact[] {
  const hasDial = stops.some(({ startS }) => fromShadowDeg(0, sunAt(startS)) !== null);
  return [
    [
      "NEVER",
      limit
        ? `after ${clock(noLaterThan(limit.ingressS, ingressS))}: ${limiterWords(plan, limit.by)}`
        : `after a time that is ${NO_LIMIT}`,
    ],
    ...(hasDial ? ([["DIAL", "mark at shadow, arrow home"]] satisfies Fact[]) : []),
    ["MIN", "walk home"],
    ...(plan.ground === undefined
      ? []
      : ([["HOME", "bearings are straight, ways bend: keep to the trail"]] satisfies Fact[])),
    ...signedFacts(
      plan,
      stops.map(({ task }) => task.id),
    ),
    ["PLAN", placedWords(plan)],
    ["AID", STANDING],
  ];
}

const CLOSE: Setting = { sizePt: LABEL_PT, gapMm: 0.5 };
/** So many rows go on the next page together with the key below them, which never stands alone there. */
const WITH_KEY = 3;

/** Who else goes out, and the fingerprint that everybody reads out before the hatch is opened: who reads another has another day. */
function withBlock(others: string, short: string): Block {
  const face = { sizePt: 12.5, bold: false };
  const label = { sizePt: 11.5, bold: true, tight: true };
  const mark = { sizePt: 14, bold: true };
  const left = LEFT + textWidth("WITH", label) + 1.4;
  const markMm = textWidth(short, mark) + textWidth("PLAN", label) + 3.4;
  const lines = wrap(others, RIGHT - left - markMm, face);
  return {
    height: linesHeight(lines.length, 12.5) + 1,
    draw: (y) => [
      ...tagged([...text(LEFT, baselineOf(y, 12.5), "WITH", label), ...setLines(lines, left, y, face)]),
      ...tagged([
        ...text(RIGHT - textWidth(short, mark) - 1.4, baselineOf(y, 12.5), "PLAN", {
          ...label,
          align: "right",
        }),
        ...text(RIGHT, baselineOf(y, 12.5), short, { ...mark, align: "right" }),
      ]),
    ],
  };
}

interface Row {
  readonly startS: number;
  readonly number: string;
  readonly name: string;
  readonly leave: string;
  readonly home: string;
}

/** Tasks, the rests that the work limit needs before them, and the way home where its time is known. */
function rowsOf({ plan, day }: Known, part: CrewEva): Row[] {
  const resting = (rest: Rest | null): Row[] => {
    if (rest === null) return [];
    const { needS, span } = rest;
    const startS = instant(span.endS - needS);
    return [
      {
        startS,
        number: "",
        name: `REST ${minutes(needS, "given")}, ${restPlace(plan, rest)}`,
        leave: clock(span.endS),
        home: "",
      },
    ];
  };
  const rows = part.stops.flatMap((stop, k): Row[] => {
    const follow = part.stops[k + 1];
    const leave = follow ? day.leaves.get(part.member.id)?.get(follow.task.id)?.atS : stop.endS;
    const alone = stop.crew.length === 1 && part.others.length > 0;
    return [
      ...resting(stop.rest),
      {
        startS: stop.startS,
        number: taskNumber(plan, stop.task.id),
        name: `${taskName(stop.task)}${alone ? ", ALONE" : ""}`,
        leave: follow?.wayS === 0 ? clock(follow.startS) : leave === undefined ? "?" : clock(leave),
        home: stop.walkBack.kind === "known" ? (walkBackWords(stop.walkBack).split(" ")[0] ?? "") : "?",
      },
    ];
  });
  const last = part.stops.at(-1);
  if (last && part.homewardS !== null && part.homewardS > 0)
    rows.push({
      startS: last.endS,
      number: "IN",
      name: "Walk home",
      leave: "",
      home: minutes(part.homewardS, "up").split(" ")[0] ?? "",
    });
  return [...rows, ...resting(part.homeRest)];
}

function broken(count: number): string {
  return count === 1
    ? "This plan breaks 1 rule. It is not fit to be flown."
    : `This plan breaks rules ${count} times. It is not fit to be flown.`;
}

/** Right edges of the columns, and where names begin; starts with seconds need more room. */
interface Columns {
  readonly start: number;
  readonly number: number;
  readonly name: number;
}
const LABEL = { sizePt: LABEL_PT, bold: true, tight: true } as const;
const LEAVE = RIGHT - 8.2;
const ROW_MM = 5.7;

function columnsFor(rows: readonly Row[]): Columns {
  const figure = { sizePt: 13, bold: true, tight: true };
  const start = LEFT + Math.max(...rows.map(({ startS }) => textWidth(clock(startS), figure)), 11);
  const number = start + 1.6;
  return {
    start,
    number,
    name:
      number + Math.max(...rows.map((one) => textWidth(one.number, figure)), textWidth("NO.", LABEL)) + 1.6,
  };
}

function headings({ number, name }: Columns, table: Tag): Block {
  const face = LABEL;
  const right = { ...face, align: "right" } as const;
  return {
    height: 5.2,
    keep: true,
    draw: (y) => [
      ...rowOf(table, "TH", [
        text(LEFT, y + 4, "START", face),
        text(number, y + 4, "NO.", face),
        text(name, y + 4, "WHAT", face),
        text(LEAVE, y + 4, "LEAVE", right),
        text(RIGHT, y + 4, "MIN", right),
      ]),
      line(LEFT, y + 5, RIGHT, y + 5, 0.5),
    ],
  };
}

/** One line of the list. */
function row({ startS, number, name, leave, home }: Row, at: Columns, table: Tag): Block {
  const figure = { sizePt: 13, bold: true, tight: true };
  const right = { ...figure, align: "right" } as const;
  const wide = LEAVE - textWidth(leave, figure) - 1.2 - at.name;
  const faces = [12.5, 12, 11.5, LABEL_PT].map((sizePt) => ({ sizePt, bold: number === "", tight: true }));
  const face = faces.find((one) => textWidth(name, one) <= wide) ?? {
    sizePt: LABEL_PT,
    bold: number === "",
    tight: true,
  };
  const lines = wrap(name, wide, face);
  const lineMm = 4.5;
  const height = ROW_MM + (lines.length - 1) * lineMm;
  return {
    height,
    draw: (y) => {
      const baseline = baselineOf(y, 13) + 0.2;
      return [
        ...rowOf(table, "TD", [
          text(at.start, baseline, clock(startS), right),
          text(at.number, baseline, number, figure),
          lines.flatMap((words, i) => text(at.name, baseline + i * lineMm, words, face)),
          text(LEAVE, baseline, leave, right),
          text(RIGHT, baseline, home, right),
        ]),
        line(LEFT, y + height - 0.25, RIGHT, y + height - 0.25, 0.3),
      ];
    },
  };
}
