import { digits } from "../../words/index.ts";
import { sentence, untilGiven } from "../fields/draft.ts";
import type { Cell } from "../fields/table.ts";

const ROWS =
  " Shift with arrows marks rows, to be written together. Cells copied from a spreadsheet are pasted as they stand, or where their heads say.";

/** What the cell in hand holds, its range and how to write it; without one, how the table is used. */
export function CellWords(props: {
  readonly cell: Cell | null;
  readonly rows: boolean;
  readonly helpId: string;
}) {
  const { cell, rows, helpId } = props;
  return (
    <p className="setup-words" id={helpId}>
      {cell ? (
        <>
          <b>{cell.label}</b>
          <span>
            {cell.toGive && `Nobody has given it: the plan goes on, ${untilGiven(cell)}. `}
            {cell.fixed ?? [sentence(cell.hint), cell.entry.form, rangeOf(cell)].filter(isWritten).join(" ")}
          </span>
        </>
      ) : (
        <span>
          Arrows move, Enter or typing edits, Tab goes on to the next field, Escape restores.{rows && ROWS}
        </span>
      )}
    </p>
  );
}

function isWritten(words: string | undefined): boolean {
  return words !== undefined && words !== "" && words !== ".";
}

/** `30 to 200 kg.`; nothing for texts, times and choices, whose form says enough. */
function rangeOf({ guide, entry, unit }: Cell): string {
  if (guide.low === null || guide.high === null || entry.form !== undefined) return "";
  const tail = unit === "" ? "" : ` ${unit}`;
  const scale = unit === "%" ? 100 : 1;
  return `${digits(guide.low * scale)} to ${digits(guide.high * scale)}${tail}.`;
}
