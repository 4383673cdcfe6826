import { useEffect, useRef, useState } from "react";
import { useAround, useDesk, useLook } from "../context.ts";
import { keepDraft, keptIn } from "../kept.ts";
import { CellEditor } from "./celleditor.tsx";
import { firstDraft, putDraft, untilGiven } from "./draft.ts";
import type { Done } from "./editors.tsx";
import { retryRow } from "./retry.ts";
import type { Cell, Table } from "./table.ts";

/**
 * One field of a thing, edited in place beside its table or its block: its value is a button that opens the editor. Tab goes on to
 * the next field and opens it, so that a whole thing is filled in without another key.
 */
export function FormField(props: {
  readonly table: Table;
  /** The id of the row that the cell is of. */
  readonly row: string;
  readonly cell: Cell;
  readonly label: string;
}) {
  const { table, row, cell, label } = props;
  const { desk, look, memory } = useAround();
  const [editing, setEditing] = useState(false);
  const slot = useDesk((state) => state.slot);
  const faulty = useLook((state) => keptIn(state.keptCells, slot).get(cell.id) ?? null);
  const box = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const returning = useRef(false);
  useEffect(() => {
    if (editing || !returning.current) return;
    returning.current = false;
    button.current?.focus();
  }, [editing]);

  const over = (how: Done): void => {
    setEditing(false);
    returning.current = how === "stay" || how === "down";
    if (how === "next" || how === "back") goBeside(box.current, how === "back");
  };
  const done = (how: Done): void => {
    keepDraft({ look, memory }, slot, cell.id, null);
    retryRow(desk, { look, memory }, table, row);
    over(how);
  };
  const press = (): void => {
    if (cell.entry.editor !== "tick") return setEditing(true);
    putDraft(desk, desk.state.getState().plan, cell, cell.value === true ? "" : "yes");
  };
  const plan = desk.state.getState().plan;
  const long = cell.entry.editor === "area";
  const stands = long ? cell.entry.draft(cell.value, plan) : cell.shown;
  const unit = cell.unit === "" ? "" : `, ${cell.unit}`;
  const word = faulty?.fault ?? (cell.toGive ? untilGiven(cell) : null);
  const said = cell.toGive ? "to be given" : cell.shown === "" ? "none" : cell.shown;

  return (
    <div ref={box} className="task-field" data-field data-long={long ? "" : undefined}>
      <span className="task-label">
        {label}
        {cell.unit !== "" && cell.unit !== "h:mm" && <span className="unit">{cell.unit}</span>}
      </span>
      {editing ? (
        <CellEditor
          cell={cell}
          first={faulty?.draft ?? firstDraft(cell, plan)}
          onDone={done}
          onCancel={() => {
            returning.current = true;
            keepDraft({ look, memory }, slot, cell.id, null);
            setEditing(false);
          }}
          onFaulty={(kept, how) => {
            keepDraft({ look, memory }, slot, cell.id, kept);
            over(how);
          }}
        />
      ) : (
        <button
          ref={button}
          type="button"
          className="task-value"
          data-faulty={faulty ? "" : undefined}
          data-to-give={!faulty && cell.toGive ? "" : undefined}
          disabled={cell.fixed !== null}
          title={cell.fixed ?? (cell.hint === "" ? undefined : cell.hint)}
          aria-label={`${cell.label}${unit}: ${said}. ${cell.entry.editor === "tick" ? "Change" : "Edit"}`}
          onClick={press}
        >
          {faulty ? faulty.draft || "(empty)" : cell.toGive ? "to be given" : stands === "" ? "–" : stands}
          {word !== null && <span className="cell-fault">{word}</span>}
        </button>
      )}
    </div>
  );
}

/** Goes to the field after the one that was left (before it with `back`) and opens it; a yes or no is only gone to. */
function goBeside(from: Element | null, back: boolean): void {
  const buttons = [
    ...document.querySelectorAll<HTMLButtonElement>("[data-field] .task-value:not(:disabled)"),
  ];
  const after = (button: Element): boolean =>
    from !== null && (from.compareDocumentPosition(button) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
  const others = buttons.filter((button) => !from?.contains(button));
  const next = back ? others.findLast((button) => !after(button)) : others.find(after);
  if (!next) return from?.querySelector<HTMLElement>("button")?.focus();
  next.focus();
  if (!next.getAttribute("aria-label")?.endsWith("Change")) next.click();
}
