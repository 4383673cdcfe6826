import type { Line } from "../fields/table.ts";

/** How a press marks rows: this row alone, from the last place to here, or this row in or out. */
export type Marking = "alone" | "along" | "toggle";

/** The rows of a grid that are written together. */
export interface RowMarks {
  /** Marks the rows between two of them, both with them. */
  mark(from: number, to: number): void;
  byPress(line: string, how: Marking): void;
  unmark(): void;
}

/** Marking among `lines`, where the keyboard stands in row `row` (-1 for none of them). */
export function rowMarks(
  lines: readonly Line[],
  row: number,
  marked: ReadonlySet<string>,
  onMarked: (marked: ReadonlySet<string>) => void,
): RowMarks {
  const mark = (from: number, to: number): void => {
    const low = Math.min(from, to);
    const ids = lines.slice(low, Math.max(from, to) + 1).map((line) => line.id);
    onMarked(new Set([...marked, ...ids]));
  };
  return {
    mark,
    byPress(line, how) {
      const to = lines.findIndex((one) => one.id === line);
      if (how === "along") mark(row < 0 ? to : row, to);
      else if (how === "toggle") {
        const next = new Set(marked.size === 0 && row >= 0 ? [lines[row]!.id] : marked);
        if (!next.delete(line)) next.add(line);
        onMarked(next);
      } else if (!marked.has(line) && marked.size > 0) onMarked(new Set());
    },
    unmark: () => onMarked(new Set()),
  };
}
