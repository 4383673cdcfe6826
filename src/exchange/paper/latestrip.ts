import type { Plan } from "../../plan/index.ts";
import { clock, crewName, minutes, taskNumber } from "../../words/index.ts";
import { LABEL_PT, LEFT, RIGHT, WIDE } from "./cuff.ts";
import type { Late, LateAnswer } from "./late.ts";
import { line, type Mark, rect, type Tag, tagged, text } from "./page.ts";
import { rowOf } from "./pieces.ts";
import { type Face, linesHeight, textWidth, wordsIn, wrap } from "./type.ts";

/** The strip for lateness on a page: clock times, so that nobody has to remember a zero, and what is left out. */

const MOST_ANSWERS = 3;
/** Lines of what is left out and of rests that a strip of so many answers may take: room for them is taken from the steps. */
const MOST_LINES = [3, 3, 2] as const;
const LABEL = { sizePt: LABEL_PT, bold: true, tight: true };
const TIME = { sizePt: 12.5, bold: true };
const WHAT = { sizePt: 12, bold: true, tight: true };
const LINE_MM = 4.6;

/** What stands under one time. */
interface Words {
  readonly time: string;
  /** What is left out, and each order: none of them runs on from the one before. */
  readonly out: readonly string[];
  /** Before what to rest, by crew member. */
  readonly rest: readonly string[];
  /** Whether the START of the pages holds. */
  readonly start: readonly string[];
}

interface Cell extends Words {
  readonly wide: number;
}

/** A row of the strip: what stands at its left, and what of a cell stands in it. */
interface StripRow {
  readonly label: string;
  of(cell: Words): readonly string[];
}

export interface Strip {
  readonly height: number;
  draw(y: number): readonly Mark[];
}

/** Whose paper it is: their id, and the tasks on it. */
export interface Reader {
  readonly crew: string;
  readonly tasks: ReadonlySet<string>;
}

/** The strip for one crew member; `moreLines`: so many lines a row may take beyond what is taken from the steps for it. */
export function lateStrip(plan: Plan, late: Late, reader: Reader, moreLines = 0): Strip {
  const words = late.answers.slice(0, MOST_ANSWERS).map((answer): Words => ({
    time: clock(answer.doneByS, "down"),
    out: wordsOf(plan, answer, reader.tasks),
    rest: restWords(plan, answer, reader.crew),
    start: startWords(plan, answer, reader.crew),
  }));
  // What has no room is called in: an answer is never cut.
  for (let count = words.length; count > 0; count -= 1) {
    const some = words.slice(0, count);
    // Another order brings the question which of the two holds.
    const turned = late.answers.slice(0, count).some(({ then, from }) => then.length + from.length > 0);
    const rows: readonly StripRow[] = [
      { label: "DONE BY", of: ({ time }) => [time] },
      { label: "LEAVE OUT", of: ({ out }) => out },
      ...(turned ? [{ label: "START", of: ({ start }: Words) => start }] : []),
      ...(some.some(({ rest }) => rest.length > 0)
        ? [{ label: restLabel(plan), of: ({ rest }: Words) => rest }]
        : []),
    ];
    const labelMm = Math.max(...rows.map(({ label }) => textWidth(label, LABEL))) + 2;
    const room = WIDE - labelMm - callCell().wide;
    const cells = cellsIn(
      turned ? some : some.map((one) => ({ ...one, start: [] })),
      room,
      (MOST_LINES[count - 1] ?? 1) + moreLines,
    );
    if (cells) return table(rows, labelMm, [...cells, callCell()]);
  }
  return sentence(late.answers.length === 0 ? late.why : "call: the answer is too long for this page");
}

function callCell(): Cell {
  return { time: "later", out: ["call"], rest: [], start: [], wide: textWidth("later", TIME) + 2.4 };
}

/** The cells in as few lines as there is room for; null where they have none. */
function cellsIn(words: readonly Words[], room: number, mostLines: number): readonly Cell[] | null {
  for (let lines = 1; lines <= mostLines; lines += 1) {
    const cells = words.map((one) => cellOf(one, lines, room));
    const wide = cells.reduce((sum, cell) => sum + (cell?.wide ?? Infinity), 0);
    if (wide <= room)
      return widened(
        words,
        cells.filter((cell) => cell !== null),
        room - wide,
      );
  }
  return null;
}

/** The cells, each in as few lines as what is left of the room allows. */
function widened(words: readonly Words[], cells: readonly Cell[], leftMm: number): readonly Cell[] {
  let spare = leftMm;
  return cells.map((cell, k) => {
    const most = Math.max(cell.out.length, cell.rest.length, cell.start.length);
    for (let lines = 1; lines < most; lines += 1) {
      const wider = words[k] ? cellOf(words[k], lines, cell.wide + spare) : null;
      if (!wider) continue;
      spare -= wider.wide - cell.wide;
      return wider;
    }
    return cell;
  });
}

/** The narrowest cell in which neither words take more than `lines`; null where none of `room` does. */
function cellOf({ time, out, rest, start }: Words, lines: number, room: number): Cell | null {
  const words = [...out, ...rest, ...start].flatMap(wordsIn);
  const longest = Math.max(...words.map((one) => textWidth(one, WHAT)));
  for (let wide = Math.max(textWidth(time, TIME) + 2, longest + 2); wide <= room; wide += 0.5) {
    const cell = {
      time,
      out: out.flatMap((one) => wrap(one, wide - 1.6, WHAT)),
      rest: rest.flatMap((one) => wrap(one, wide - 1.6, WHAT)),
      start: start.flatMap((one) => wrap(one, wide - 1.6, WHAT)),
      wide,
    };
    if (Math.max(cell.out.length, cell.rest.length, cell.start.length) <= lines) return cell;
  }
  return null;
}

function table(rows: readonly StripRow[], labelMm: number, cells: readonly Cell[]): Strip {
  const lines = rows.map(({ of }) => Math.max(...cells.map((cell) => of(cell).length)));
  const height = 0.6 + lines.reduce((sum, count) => sum + count, 0) * LINE_MM;
  const shared = (WIDE - labelMm - cells.reduce((sum, { wide }) => sum + wide, 0)) / cells.length;
  const lineAt = (y: number, k: number): number => y + 4.3 + k * LINE_MM;
  const firsts = lines.map((_, k) => lines.slice(0, k).reduce((sum, count) => sum + count, 0));
  const edges = cells.map((_, i) =>
    cells.slice(0, i).reduce((sum, { wide }) => sum + wide + shared, LEFT + labelMm),
  );
  return {
    height,
    draw: (y) => {
      const structure: Tag = { role: "Table" };
      return [
        rect(LEFT + 0.25, y + 0.25, WIDE - 0.5, height - 0.5, 0.5),
        ...edges.map((left) => line(left, y, left, y + height, 0.5)),
        ...rows.flatMap(({ label, of }, k) =>
          rowOf(structure, k === 0 ? "TH" : "TD", [
            text(LEFT + 1, lineAt(y, firsts[k] ?? 0), label, LABEL),
            ...cells.map((cell, i) => {
              const middle = ((edges[i] ?? RIGHT) + (edges[i + 1] ?? RIGHT)) / 2;
              const face = { ...(k === 0 ? TIME : WHAT), align: "centre" } as const;
              return of(cell).flatMap((words, n) =>
                text(middle, lineAt(y, (firsts[k] ?? 0) + n), words, face),
              );
            }),
          ]),
        ),
      ];
    },
  };
}

/** Before the rests of an answer: how long each is. */
export function restLabel({ rules }: Plan): string {
  return `REST ${minutes(rules.work.restS, "given").toUpperCase()}`;
}

/** Whether the START of pages holds, and what is held back beside. */
function startWords(plan: Plan, answer: LateAnswer, me: string): string[] {
  return [answer.onArrival ? "on arrival" : "as printed", ...heldWords(plan, answer, me)];
}

/** What is held back: the reader's own first, then the others' behind who they are; all of it behind names where nobody's in particular. */
export function heldWords(plan: Plan, { from }: LateAnswer, me: string | null): string[] {
  const delayed = from.map(({ task, fromS }) => {
    const crew = plan.schedule.placements.find((one) => one.task === task)?.crew ?? [];
    const mine = me !== null && crew.includes(me);
    const who = mine ? [] : crew.length === 0 ? ["GROUND"] : crew.map((id) => crewName(plan, id));
    return {
      mine,
      words: [who.join("+"), taskNumber(plan, task), "from", clock(fromS, "up")],
    };
  });
  return delayed
    .toSorted((a, b) => Number(b.mine) - Number(a.mine))
    .map(({ words }) => words.filter((one) => one !== "").join(" "));
}

/** Before which tasks to rest beside the rests on the pages: the reader's own first, then the others' behind who they are. */
export function restWords(plan: Plan, { rests }: LateAnswer, me: string | null): string[] {
  const others = plan.crew.map(({ id }) => id).filter((id) => id !== me);
  const crews = me === null ? others : [me, ...others];
  return crews.flatMap((id) => {
    const own = rests.filter(({ crew }) => crew === id).map(({ task }) => taskNumber(plan, task));
    if (own.length === 0) return [];
    const who = id === me ? "" : `${crewName(plan, id)} `;
    return [`${who}before ${own.join(" ")}`];
  });
}

/**
 * What is left out, by number: one's own first, then what only others had to do, behind who they are; then the order of all that is still
 * to come, of whom it changes for. Who has no page of what they are to do calls for it.
 */
function wordsOf(plan: Plan, { leaveOut, then, home }: LateAnswer, mine: ReadonlySet<string>): string[] {
  if (home) return ["HOME"];
  if (leaveOut.length === 0 && then.length === 0) return ["nothing"];
  const number = (id: string): string => taskNumber(plan, id);
  const own = leaveOut.filter((id) => mine.has(id)).map(number);
  const theirs = new Map<string, string[]>();
  for (const id of leaveOut.filter((one) => !mine.has(one))) {
    const crew = plan.schedule.placements.find((one) => one.task === id)?.crew ?? [];
    const who = plan.crew
      .filter((one) => crew.includes(one.id))
      .map(({ name }) => name)
      .join("+");
    theirs.set(who, [...(theirs.get(who) ?? []), number(id)]);
  }
  const orders = then.map(({ crew, tasks }) => {
    const who = plan.crew.find((one) => one.id === crew)?.name ?? crew;
    return `${who} THEN ${tasks.length === 0 ? "HOME" : tasks.map(number).join(" ")}`;
  });
  const called = then.flatMap(({ crew, tasks }) => tasks.filter((id) => !printed(plan, id, crew)));
  return [
    ...(own.length > 0 ? [own.join(" ")] : []),
    ...[...theirs].map(([who, list]) => [...(who === "" ? [] : [who]), ...list].join(" ")),
    ...(own.length + theirs.size === 0 ? ["nothing"] : []),
    ...orders,
    ...(called.length > 0 ? [`call for ${[...new Set(called)].map(number).join(" ")}`] : []),
  ];
}

/** True for a task that somebody's booklet has a page of. */
function printed({ schedule }: Plan, id: string, member: string): boolean {
  return schedule.placements.some(({ task, crew }) => task === id && crew.includes(member));
}

/** Sizes of a sentence on one line; what fits in none goes on on another. */
const SENTENCE: readonly Face[] = [
  { sizePt: 13, bold: false },
  { sizePt: 13, bold: false, tight: true },
  { sizePt: 12, bold: false, tight: true },
];

/** Where there is no table: a sentence. */
function sentence(words: string): Strip {
  const labelMm = textWidth("IF LATE", LABEL) + 2;
  const wide = WIDE - 2 - labelMm;
  const face = SENTENCE.find((one) => textWidth(words, one) <= wide) ?? SENTENCE.at(-1)!;
  const lines = wrap(words, wide, face);
  const height = linesHeight(1, 13) + 0.9 + (lines.length - 1) * LINE_MM;
  return {
    height,
    draw: (y) => [
      rect(LEFT + 0.25, y + 0.25, WIDE - 0.5, height - 0.5, 0.5),
      ...tagged([
        ...text(LEFT + 1, y + 4.5, "IF LATE", LABEL),
        ...lines.flatMap((one, k) => text(LEFT + 1 + labelMm, y + 4.5 + k * LINE_MM, one, face)),
      ]),
    ],
  };
}
