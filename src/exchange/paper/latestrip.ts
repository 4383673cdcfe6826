import type { Plan } from "../../plan/index.ts";
import { clock, taskNumber } from "../../words/index.ts";
import { LABEL_PT, LEFT, WIDE } from "./cuff.ts";
import type { Late, LateAnswer } from "./late.ts";
import { line, type Mark, rect, tagged, text } from "./page.ts";
import { linesHeight, textWidth, wrap } from "./type.ts";

/** The strip for lateness on a page: clock times, so that nobody has to remember a zero, and what is left out. */

const MOST_ANSWERS = 3;
const LABEL = { sizePt: LABEL_PT, bold: true, tight: true };
const TIME = { sizePt: 12.5, bold: true };
const WHAT = { sizePt: 12, bold: true, tight: true };
const LINE_MM = 4.6;
const MOST_LINES = 2;

interface Cell {
  readonly time: string;
  readonly lines: readonly string[];
  readonly wide: number;
}

export interface Strip {
  readonly height: number;
  draw(y: number): readonly Mark[];
}

/** The strip for one crew member; `mine` are the tasks on their own paper. */
export function lateStrip(plan: Plan, late: Late, mine: ReadonlySet<string>): Strip {
  const labelMm = textWidth("LEAVE OUT", LABEL) + 2;
  const call: Cell = { time: "later", lines: ["call"], wide: textWidth("later", TIME) + 2.4 };
  const cells: Cell[] = [];
  let room = WIDE - labelMm - call.wide;
  for (const answer of late.answers.slice(0, MOST_ANSWERS)) {
    const cell = cellOf(plan, answer, mine, room / 2);
    // What has no room is called in: an answer is never cut.
    if (cell.lines.length > MOST_LINES || cell.wide > room) break;
    cells.push(cell);
    room -= cell.wide;
  }
  if (cells.length === 0) return sentence(late.answers.length === 0 ? late.why : "call");
  const lines = Math.max(...cells.map((one) => one.lines.length));
  const height = 5.2 + lines * LINE_MM;
  const shared = room / (cells.length + 1);
  return {
    height,
    draw: (y) => {
      let x = LEFT + labelMm;
      return [
        rect(LEFT + 0.25, y + 0.25, WIDE - 0.5, height - 0.5, 0.5),
        ...tagged([
          ...text(LEFT + 1, y + 4.3, "DONE BY", LABEL),
          ...text(LEFT + 1, y + 4.3 + LINE_MM, "LEAVE OUT", LABEL),
        ]),
        ...[...cells, call].flatMap((cell) => {
          const left = x;
          const wide = cell.wide + shared;
          x += wide;
          return [
            line(left, y, left, y + height, 0.5),
            ...tagged([
              ...text(left + wide / 2, y + 4.3, cell.time, { ...TIME, align: "centre" }),
              ...cell.lines.flatMap((words, i) =>
                text(left + wide / 2, y + 4.3 + (i + 1) * LINE_MM, words, { ...WHAT, align: "centre" }),
              ),
            ]),
          ];
        }),
      ];
    },
  };
}

function cellOf(plan: Plan, answer: LateAnswer, mine: ReadonlySet<string>, most: number): Cell {
  const time = clock(answer.doneByS, "down");
  const words = wordsOf(plan, answer, mine);
  const wide = Math.max(textWidth(time, TIME) + 2, Math.min(textWidth(words, WHAT) + 2, most));
  const lines = wrap(words, wide - 1.6, WHAT);
  return { time, lines, wide };
}

/**
 * What is left out, by number: one's own first, then what only others had to do, behind who they are; then the order of all that is still
 * to come, of whom it changes for. What is on no paper of one's own is called for.
 */
function wordsOf(plan: Plan, { leaveOut, then, home }: LateAnswer, mine: ReadonlySet<string>): string {
  if (home) return "HOME";
  if (leaveOut.length === 0 && then.length === 0) return "nothing";
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
    ...own,
    ...[...theirs].flatMap(([who, list]) => [...(who === "" ? [] : [who]), ...list]),
    ...(own.length + theirs.size === 0 ? ["nothing"] : []),
    ...orders,
    ...(called.length > 0 ? [`call for ${[...new Set(called)].map(number).join(" ")}`] : []),
  ].join(" ");
}

/** True for a task that the booklets have pages of. */
function printed({ schedule }: Plan, id: string): boolean {
  return schedule.placements.some(({ task }) => task === id);
}

/** Where there is no table: one line. */
function sentence(words: string): Strip {
  const height = linesHeight(1, 13) + 0.9;
  return {
    height,
    draw: (y) => [
      rect(LEFT + 0.25, y + 0.25, WIDE - 0.5, height - 0.5, 0.5),
      ...tagged([
        ...text(LEFT + 1, y + 4.5, "IF LATE", LABEL),
        ...text(LEFT + 1 + textWidth("IF LATE", LABEL) + 2, y + 4.5, words, { sizePt: 13, bold: false }),
      ]),
    ],
  };
}
