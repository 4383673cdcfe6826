import { useCallback, useMemo, useState } from "react";
import { useApp } from "../context.ts";
import { narrowed, type Table } from "../fields/table.ts";

/** Which columns of a table are looked at. */
export interface ColumnChoice {
  /** The table with those columns alone. */
  readonly table: Table;
  /** The name of the chosen set; empty for all columns. */
  readonly chosen: string;
  /** Chooses a set, and keeps it for the next time. */
  choose(name: string): void;
  /** Shows all columns for now. */
  showAll(): void;
}

export function useColumnChoice(whole: Table): ColumnChoice {
  const { memory } = useApp();
  const [chosen, setChosen] = useState(() => memory.get(`setup-columns-${whole.id}`) ?? "");
  const table = useMemo(
    () => narrowed(whole, whole.sets.find(({ name }) => name === chosen) ?? null),
    [whole, chosen],
  );
  const choose = (name: string): void => {
    setChosen(name);
    memory.set(`setup-columns-${whole.id}`, name);
  };
  const showAll = useCallback(() => setChosen(""), []);
  return { table, chosen, choose, showAll };
}
