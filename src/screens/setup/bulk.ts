import type { Plan } from "../../plan/index.ts";
import type { Cell, Line, Table } from "../fields/table.ts";

/**
 * `cell` as one that writes into its column of every marked row, as one step; itself when its own row is not marked or
 * is marked alone. Cells that do not apply to their row are left as they are.
 */
export function widened(table: Table, lines: readonly Line[], marked: ReadonlySet<string>, cell: Cell): Cell {
  const home = lines.find((line) => line.cells.some((one) => one?.id === cell.id));
  if (!home || !marked.has(home.id) || marked.size < 2) return cell;
  const column = home.cells.findIndex((one) => one?.id === cell.id);
  const all = lines.flatMap((line) => {
    const own = marked.has(line.id) ? line.cells[column] : null;
    return own && own.fixed === null ? [own] : [];
  });
  const what = table.columns[column]?.label ?? "";
  return {
    ...cell,
    mixed: all.some((one) => one.shown !== cell.shown || one.toGive !== cell.toGive),
    step: `Change ${what.charAt(0).toLowerCase()}${what.slice(1)} in ${all.length} rows`,
    put: (value) => (plan) => {
      let now = plan;
      const parts: Partial<Plan> = {};
      for (const one of all) {
        const part = one.put(value)(now);
        Object.assign(parts, part);
        now = { ...now, ...part };
      }
      return parts;
    },
  };
}

/** A line whose cell of this id writes into all marked rows. */
export function widenedLine(
  table: Table,
  lines: readonly Line[],
  marked: ReadonlySet<string>,
  line: Line,
  id: string,
): Line {
  if (!line.cells.some((cell) => cell?.id === id)) return line;
  const cells = line.cells.map((cell) => (cell?.id === id ? widened(table, lines, marked, cell) : cell));
  return { ...line, cells };
}
