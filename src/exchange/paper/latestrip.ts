import type { Plan } from "../../plan/index.ts";
import { clock, crewName, minutes, taskNumber } from "../../words/index.ts";
import { LABEL_PT, LEFT, RIGHT, WIDE } from "./cuff.ts";
import type { Late, LateAnswer } from "./late.ts";
import { line, type Mark, rect, type Tag, tagged, text } from "./page.ts";
import { rowOf } from "./pieces.ts";
import { type Face, linesHeight, textWidth, wrap } from "./type.ts";

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
}

interface Cell {
  readonly time: string;
  readonly out: readonly string[];
  readonly rest: readonly string[];
  readonly wide: number;
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

/** The strip for one crew member. */
export function lateStrip(plan: Plan, late: Late, reader: Reader): Strip {
  const words = late.answers.slice(0, MOST_ANSWERS).map((answer): Words => ({
    time: clock(answer.doneByS, "down"),
    out: wordsOf(plan, answer, reader.tasks),
    rest: restWords(plan, answer, reader.crew),
  }));
  // What has no room is called in: an answer is never cut.
  for (let count = words.length; count > 0; count -= 1) {
    const some = words.slice(0, count);
    const labels = [
      "DONE BY",
      "LEAVE OUT",
      ...(some.some(({ rest }) => rest.length > 0) ? [restLabel(plan)] : []),
    ];
    const labelMm = Math.max(...labels.map((label) => textWidth(label, LABEL))) + 2;
    const cells = cellsIn(some, WIDE - labelMm - callCell().wide, MOST_LINES[count - 1] ?? 1);
    if (cells) return table(labels, labelMm, [...cells, callCell()]);
  }
  return sentence(late.answers.length === 0 ? late.why : "call: the answer is too long for this page");
}

function callCell(): Cell {
  return { time: "later", out: ["call"], rest: [], wide: textWidth("later", TIME) + 2.4 };
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
    const most = Math.max(cell.out.length, cell.rest.length);
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
function cellOf({ time, out, rest }: Words, lines: number, room: number): Cell | null {
  const longest = Math.max(
    ...[...out, ...rest]
      .join(" ")
      .split(" ")
      .map((word) => textWidth(word, WHAT)),
  );
  for (let wide = Math.max(textWidth(time, TIME) + 2, longest + 2); wide <= room; wide += 0.5) {
    const cell = {
      time,
      out: out.flatMap((one) => wrap(one, wide - 1.6, WHAT)),
      rest: rest.flatMap((one) => wrap(one, wide - 1.6, WHAT)),
      wide,
    };
    if (cell.out.length <= lines && cell.rest.length <= lines) return cell;
  }
  return null;
}

function table(labels: readonly string[], labelMm: number, cells: readonly Cell[]): Strip {
  const outLines = Math.max(...cells.map(({ out }) => out.length));
  const restLines = Math.max(...cells.map(({ rest }) => rest.length));
  const height = 5.2 + (outLines + restLines) * LINE_MM;
  const shared = (WIDE - labelMm - cells.reduce((sum, { wide }) => sum + wide, 0)) / cells.length;
  const lineAt = (y: number, k: number): number => y + 4.3 + k * LINE_MM;
  const rows = [0, 1, 1 + outLines];
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
        ...labels.flatMap((label, k) =>
          rowOf(structure, k === 0 ? "TH" : "TD", [
            text(LEFT + 1, lineAt(y, rows[k] ?? 0), label, LABEL),
            ...cells.map(({ time, out, rest }, i) => {
              const middle = ((edges[i] ?? RIGHT) + (edges[i + 1] ?? RIGHT)) / 2;
              const face = { ...(k === 0 ? TIME : WHAT), align: "centre" } as const;
              return ([[time], out, rest][k] ?? []).flatMap((words, n) =>
                text(middle, lineAt(y, (rows[k] ?? 0) + n), words, face),
              );
            }),
          ]),
        ),
      ];
    },
  };
}

function restLabel({ rules }: Plan): string {
  return `REST ${minutes(rules.work.restS, "given").toUpperCase()}`;
}

/** Before which tasks to rest beside the rests on the pages: one's own first, then the others' behind who they are. */
function restWords(plan: Plan, { rests }: LateAnswer, me: string): string[] {
  const crews = [me, ...plan.crew.map(({ id }) => id).filter((id) => id !== me)];
  return crews.flatMap((id) => {
    const own = rests.filter(({ crew }) => crew === id).map(({ task }) => taskNumber(plan, task));
    if (own.length === 0) return [];
    const who = id === me ? "" : `${crewName(plan, id)} `;
    return [`${who}before ${own.join(" ")}`];
  });
}

/**
 * What is left out, by number: one's own first, then what only others had to do, behind who they are; then the order of all that is still
 * to come, of whom it changes for. What is on no paper of one's own is called for.
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
  const called = then
    .flatMap(({ tasks }) => tasks)
    .filter((id) => !leaveOut.includes(id) && !printed(plan, id));
  return [
    ...(own.length > 0 ? [own.join(" ")] : []),
    ...[...theirs].map(([who, list]) => [...(who === "" ? [] : [who]), ...list].join(" ")),
    ...(own.length + theirs.size === 0 ? ["nothing"] : []),
    ...orders,
    ...(called.length > 0 ? [`call for ${[...new Set(called)].map(number).join(" ")}`] : []),
  ];
}

/** True for a task that the booklets have pages of. */
function printed({ schedule }: Plan, id: string): boolean {
  return schedule.placements.some(({ task }) => task === id);
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
