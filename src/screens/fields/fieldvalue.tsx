import type { RefObject } from "react";
import type { KeptCell } from "../viewstate.ts";
import { untilGiven } from "./draft.ts";
import type { Cell } from "./table.ts";

/** The value of a field, which is a button to edit it; a draft that the plan does not take stands there with the reason. */
export function FieldValue(props: {
  readonly cell: Cell;
  /** What the cell holds, written out. */
  readonly written: string;
  readonly faulty: KeptCell | null;
  readonly button: RefObject<HTMLButtonElement | null>;
  readonly onPress: () => void;
}) {
  const { cell, written, faulty, button, onPress } = props;
  const word = faulty?.fault ?? (cell.toGive ? untilGiven(cell) : (cell.doubt ?? null));
  return (
    <button
      ref={button}
      type="button"
      className="task-value"
      data-faulty={faulty ? "" : undefined}
      data-to-give={!faulty && cell.toGive ? "" : undefined}
      data-doubted={!faulty && !cell.toGive && word !== null ? "" : undefined}
      disabled={cell.fixed !== null}
      title={cell.fixed ?? (cell.hint === "" ? undefined : cell.hint)}
      aria-label={spokenOf(cell)}
      onClick={onPress}
    >
      <span className="task-stands">{shownOf(cell, written, faulty)}</span>
      {word !== null && <span className="cell-fault">{word}</span>}
    </button>
  );
}

function shownOf(cell: Cell, written: string, faulty: KeptCell | null): string {
  if (faulty) return faulty.draft || "(empty)";
  if (cell.toGive) return "to be given";
  return written === "" ? "–" : written;
}

/** `Body mass of EV1, kg: 80. Edit`. */
function spokenOf({ label, unit, toGive, shown, entry }: Cell): string {
  const value = toGive ? "to be given" : shown === "" ? "none" : shown;
  const act = entry.editor === "tick" ? "Change" : "Edit";
  return `${label}${unit === "" ? "" : `, ${unit}`}: ${value}. ${act}`;
}
