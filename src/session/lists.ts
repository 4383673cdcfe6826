import { failed, isRecord, type Outcome } from "../kernel/index.ts";
import {
  firstReading,
  LARGEST_LIST,
  TOO_LARGE,
  layoutAt,
  type ListRead,
  type Reading,
  type Sheet,
  sheetsIn,
  targetOf,
} from "../exchange/lists/index.ts";
import type { Fault } from "../plan/index.ts";
import { counted } from "../words/index.ts";
import type { Session } from "./session.ts";
import { wordsOf } from "./files.ts";

/** Lists from spreadsheets on their way into the open plan. */

export {
  delimitedSheet,
  layoutAt,
  type ListKind,
  type ListRead,
  type Question,
  readList,
  type Reading,
  type RowOutcome,
  type Sheet,
  targetOf,
  TARGETS,
  unitOf,
  UNITS,
} from "../exchange/lists/index.ts";

/** A file of bytes as the browser hands it over. */
export interface ListFile {
  readonly name: string;
  /** Bytes. */
  readonly size: number;
  arrayBuffer(): Promise<ArrayBuffer>;
}

/** The sheets of a file, or why it cannot be read; one too large is refused unread. */
export async function openList(file: ListFile): Promise<Outcome<readonly Sheet[], string>> {
  if (file.size > LARGEST_LIST) return failed(TOO_LARGE);
  try {
    return sheetsIn(file.name, new Uint8Array(await file.arrayBuffer()));
  } catch (error) {
    return failed(`it cannot be read: ${wordsOf(error)}`);
  }
}

/** Takes what a list makes of the open plan into it, as one step of the history. */
export function takeList(session: Session, name: string, read: ListRead): Outcome<string, readonly Fault[]> {
  const many = read.rows.filter(({ state }) => state === "new" || state === "changed").length;
  const step = `Import ${counted(many, "row")} from ${name}`;
  const put = session.edit(step, () => read.parts);
  return put.ok ? { ok: true, value: step } : put;
}

/** What is remembered of how lists are read, the last used first; a list is known again by its heads. */
export interface RememberedReadings {
  of(sheet: Sheet): Reading | null;
  keep(sheet: Sheet, reading: Reading): void;
}

interface Memory {
  get(key: string): string | null;
  set(key: string, value: string): boolean;
}

const MEMORY = "lists";
const MOST_REMEMBERED = 20;

interface Kept {
  readonly heads: string;
  readonly targets: readonly (string | null)[];
  readonly units: readonly string[];
  readonly mark: string;
  /** Left out in what was remembered before it could be chosen. */
  readonly clocks?: unknown;
  readonly answers: Readonly<Record<string, string>>;
}

export function rememberedReadings(memory: Memory): RememberedReadings {
  const all = (): readonly Kept[] => {
    try {
      const found: unknown = JSON.parse(memory.get(MEMORY) ?? "[]");
      return Array.isArray(found) ? found.filter(isKept) : [];
    } catch {
      return [];
    }
  };
  return {
    of(sheet) {
      const first = firstReading(sheet);
      const kept = first && all().find(({ heads }) => heads === headsOf(first));
      if (!first || !kept) return first;
      const { kind } = first;
      const columns = first.columns.map((column, k) => {
        const target = kept.targets[k] ?? null;
        return { ...column, target: targetOf(kind, target)?.id ?? null, unit: kept.units[k] ?? "" };
      });
      return {
        ...first,
        columns,
        mark: kept.mark === "," ? "," : ".",
        clocks: kept.clocks === "h:mm" || kept.clocks === "m:ss" ? kept.clocks : first.clocks,
        answers: new Map(Object.entries(kept.answers)),
      };
    },
    keep(sheet, reading) {
      const guessed = layoutAt(sheet, reading.headRow, reading.kind);
      const heads = headsOf(guessed);
      const kept: Kept = {
        heads,
        targets: reading.columns.map(({ target }) => target),
        units: reading.columns.map(({ unit }) => unit),
        mark: reading.mark,
        clocks: reading.clocks,
        answers: Object.fromEntries(reading.answers),
      };
      const others = all().filter((one) => one.heads !== heads);
      memory.set(MEMORY, JSON.stringify([kept, ...others].slice(0, MOST_REMEMBERED)));
    },
  };
}

function headsOf({ kind, columns }: Pick<Reading, "kind" | "columns">): string {
  return [kind, ...columns.map(({ head }) => head)].join("|");
}

function isKept(value: unknown): value is Kept {
  return (
    isRecord(value) &&
    typeof value["heads"] === "string" &&
    Array.isArray(value["targets"]) &&
    Array.isArray(value["units"]) &&
    isRecord(value["answers"]) &&
    Object.values(value["answers"]).every((answer) => typeof answer === "string")
  );
}
