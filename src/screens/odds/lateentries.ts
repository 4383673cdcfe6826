import type { Outcome, LateEntry, LateReport } from "../../answers/index.ts";
import { isEqual } from "../../kernel/index.ts";
import { ruleInWords } from "../../rules/index.ts";
import { counted, grouped } from "../../words/index.ts";
import { chanceFigure } from "../chancewords.ts";

/** Neighbours of a row that say the same to do: the first one, the last one, and how many. */
export interface HeldCell {
  readonly cell: LateEntry;
  readonly last: LateEntry;
  readonly span: number;
}

/** Cells of a row, equal neighbours taken together: what to do from the first one's lateness on. */
export function heldCells(cells: readonly LateEntry[]): readonly HeldCell[] {
  const held: HeldCell[] = [];
  for (const cell of cells) {
    const before = held.at(-1);
    if (before && sameOrder(before.cell, cell))
      held.splice(-1, 1, { ...before, last: cell, span: before.span + 1 });
    else held.push({ cell, last: cell, span: 1 });
  }
  return held;
}

/** What a crew that does it comes to on the simulated days; null where a limit is broken already. */
export function resultWords({ result }: LateEntry): string | null {
  return result && outcomeWords(result);
}

/** `must-do 86 %, worth 1 578`, and how many come home where not everybody always does. */
function outcomeWords({ home, must, meanWorth }: Outcome): string {
  const homeWords = home.count < home.of ? `everybody home ${chanceFigure(home)}, ` : "";
  return `${homeWords}must-do ${chanceFigure(must)}, worth ${grouped(Math.floor(meanWorth))}`;
}

/** By how many points a share in the tables may be off at most, in 95 of 100 such runs, rounded up; null where they have none. */
export function widestError({ evas }: LateReport): number | null {
  const shares = evas.flatMap(({ rows }) =>
    rows.flatMap(({ late }) => late.flatMap(({ result }) => (result ? [result.must] : []))),
  );
  if (shares.length === 0) return null;
  return Math.ceil(
    Math.max(...shares.map(({ share, low, high }) => Math.max(share - low, high - share))) * 100,
  );
}

/** What only leaving out would come to, where something else does more. */
export function aloneWords({ alone }: LateEntry): string | null {
  if (!alone) return null;
  const { mustLost, worthLost, result } = alone;
  const lost = mustLost > 0 ? `${counted(mustLost, "must-do", "must-do")} and worth` : "worth";
  return `Only leaving out would lose ${lost} ${worthLost}: ${outcomeWords(result)}.`;
}

/** What a cell tells the crew to do: tasks by number and name, of a whole order only the numbers, which stand beside every row. */
export function entryWords(
  cell: LateEntry,
  nameOf: (task: string) => string,
  numberOf: (task: string) => string,
  crewOf: (crew: string) => string,
): string {
  const rules = cell.breaks.map(ruleInWords);
  const voided = cell.voided.length > 0 ? `; in vain: ${cell.voided.map(nameOf).join(", ")}` : "";
  const broken = `${voided}${rules.length > 0 ? `; breaks ${rules.join(", ")}` : ""}`;
  const orders = cell.then.map(
    ({ crew, tasks }) =>
      `${crewOf(crew)} then ${tasks.length === 0 ? "goes home" : tasks.map(numberOf).join(", ")}`,
  );
  switch (cell.kind) {
    case "keep":
      return `drop nothing${broken}`;
    case "drop":
      return `drop ${cell.drop.map(nameOf).join(", ")}${broken}`;
    case "change": {
      const drop = cell.drop.length > 0 ? [`drop ${cell.drop.map(nameOf).join(", ")}`] : [];
      const add = cell.add.length > 0 ? [`take up ${cell.add.map(nameOf).join(", ")}`] : [];
      return `${[...drop, ...add, ...orders].join("; ")}${broken}`;
    }
    case "end":
      return `end the EVA${broken}`;
    case "over":
      return `end the EVA at once${broken}`;
  }
}

function sameOrder(a: LateEntry, b: LateEntry): boolean {
  const order = ({ kind, least, drop, voided, breaks, add, then }: LateEntry): unknown => [
    [kind, least, breaks],
    [drop, voided, add, then],
  ];
  return isEqual(order(a), order(b));
}
