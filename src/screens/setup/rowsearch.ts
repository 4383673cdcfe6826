import { useCallback, useMemo, useState } from "react";
import type { Plan } from "../../plan/index.ts";
import type { Lack, Line, Table } from "../fields/table.ts";

/** Which rows of a table are looked at: those that hold certain words, or that lack something. */
export interface RowSearch {
  readonly shown: readonly Line[];
  /** The words that are looked for; empty for none. */
  readonly wanted: string;
  /** All that rows of the table lack. */
  readonly lacks: readonly Lack[];
  /** What the rows that are shown lack; null where others are shown too. */
  readonly lack: Lack | null;
  want(words: string): void;
  /** Shows the rows that lack this; all again for null. */
  wantLacking(words: string | null): void;
  showAll(): void;
}

export function useRowSearch(whole: Table, plan: Plan, lines: readonly Line[]): RowSearch {
  const [wanted, want] = useState("");
  const [lacking, wantLacking] = useState<string | null>(null);
  const lacks = useMemo(() => whole.lacks(plan), [whole, plan]);
  // What nobody lacks any more is shown as all are.
  const lack = lacks.find(({ words }) => words === lacking) ?? null;
  const shown = useMemo(() => {
    const words = wanted.trim().toLowerCase();
    const some = lack ? lines.filter(({ id }) => lack.rows.has(id)) : lines;
    if (words === "") return some;
    return some.filter((line) => line.cells.some((cell) => cell?.shown.toLowerCase().includes(words)));
  }, [lines, wanted, lack]);
  const showAll = useCallback(() => {
    want("");
    wantLacking(null);
  }, []);
  return { shown, wanted, lacks, lack, want, wantLacking, showAll };
}
