import type { Page, Tag } from "../../../src/exchange/paper/page.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { taskNumber } from "../../../src/words/index.ts";

/** Strips of what to do when late, read off printed pages as a crew reads them. */

/** One answer as it stands in one column. */
export interface Column {
  readonly doneBy: string;
  readonly out: string;
  readonly start: string;
  readonly rest: string;
}

/** The strip of a page, column by column; none where it is a sentence. */
export function columnsOf(page: Page): Column[] {
  const rows = new Map<Tag, Map<Tag, string>>();
  for (const mark of page.marks) {
    const [table, row, cell] = mark.tags ?? [];
    if (mark.kind !== "text" || table?.role !== "Table" || row?.role !== "TR" || !cell) continue;
    const cells = rows.get(row) ?? new Map<Tag, string>((row.cells ?? []).map((one) => [one, ""]));
    rows.set(row, cells.set(cell, `${cells.get(cell) ?? ""} ${mark.text}`.trim()));
  }
  const texts = [...rows.values()].map((cells) => [...cells.values()]);
  const of = (label: RegExp): string[] => texts.find(([first]) => label.test(first ?? ""))?.slice(1) ?? [];
  const outs = of(/^LEAVE OUT$/);
  if (outs.length === 0) return [];
  // The times of the page have a DONE BY too, but no columns.
  const times = texts.find((row) => row[0] === "DONE BY" && row.at(-1) === "later")?.slice(1) ?? [];
  const [starts, rests] = [of(/^START$/), of(/^REST \d+ MIN$/)];
  return outs.slice(0, -1).map((out, k) => ({
    ...{ doneBy: times[k] ?? "", out },
    ...{ start: starts[k] ?? "", rest: rests[k] ?? "" },
  }));
}

/** A moment as it is printed, s. */
export const secondsOf = (clock: string): number => {
  const [hours = 0, minutes = 0, rest = 0] = clock.split(":").map(Number);
  return hours * 3600 + minutes * 60 + rest;
};

/** What an answer says to do, by crew member. */
export interface Told {
  readonly home: boolean;
  readonly leaveOut: ReadonlySet<string>;
  readonly then: ReadonlyMap<string, readonly string[]>;
  readonly onArrival: boolean;
  readonly fromS: ReadonlyMap<string, number>;
  /** Crew member and task before which to rest. */
  readonly rests: ReadonlySet<string>;
}

/** The words of a column as a crew member reads them; null where they have to call for something. */
export function toldBy(plan: Plan, column: Column, me: string): Told | null {
  if (column.out.includes("call")) return null;
  const byNumber = new Map(plan.tasks.map(({ id }) => [taskNumber(plan, id), id]));
  const byName = new Map(plan.crew.map(({ id, name }) => [name, id]));
  const task = (number: string): string => {
    const id = byNumber.get(number);
    if (id === undefined) throw new Error(`"${number}" in "${column.out}" is the number of no task`);
    return id;
  };
  const leaveOut = new Set<string>();
  const then = new Map<string, string[]>();
  let order: string[] | null = null;
  let who = "";
  for (const word of column.out.split(" ")) {
    if (word === "HOME" && order === null) return { ...NOTHING, home: true };
    if (word === "nothing" || word === "HOME") continue;
    if (word === "THEN") then.set(who, (order = []));
    else if (word.split("+").every((one) => byName.has(one))) [who, order] = [byName.get(word) ?? word, null];
    else if (order) order.push(task(word));
    else leaveOut.add(task(word));
  }
  const fromS = new Map(
    [...column.start.matchAll(/(\S+) from (\S+)/g)].map(([, number = "", at = ""]) => [
      task(number),
      secondsOf(at),
    ]),
  );
  const rests = new Set<string>();
  let rester = me;
  for (const word of column.rest.split(" ")) {
    if (word === "" || word === "before") continue;
    if (byName.has(word)) rester = byName.get(word)!;
    else rests.add(`${rester} ${task(word)}`);
  }
  return { home: false, leaveOut, then, onArrival: column.start.startsWith("on arrival"), fromS, rests };
}

const NOTHING: Told = {
  ...{
    home: false,
    leaveOut: new Set(),
    then: new Map(),
    onArrival: false,
    fromS: new Map(),
    rests: new Set(),
  },
};
