import { type RefObject, useEffect, useRef, useState } from "react";
import { useApp, useSession, useView } from "../context.ts";
import { keepDraft, keptIn } from "../kept.ts";
import type { KeptCell } from "../viewstate.ts";
import { CellEditor } from "./celleditor.tsx";
import { firstDraft, putDraft } from "./draft.ts";
import type { Done } from "./editors.tsx";
import { FieldValue } from "./fieldvalue.tsx";
import { retryRow } from "./retry.ts";
import type { Cell, Table } from "./table.ts";

/** A field of a row: where it stands, and what it holds. */
interface FieldPlace {
  readonly table: Table;
  /** The id of the row that the cell is of. */
  readonly row: string;
  readonly cell: Cell;
}

/**
 * One field of a thing, edited in place beside its table or its block: its value is a button that opens the editor. Tab goes on to
 * the next field and opens it, so that a whole thing is filled in without another key.
 */
export function FormField(props: FieldPlace & { readonly label: string }) {
  const { cell, label } = props;
  const { session } = useApp();
  const box = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const { editing, faulty, press, done, cancel, refuse } = useFieldEditing(props, box, button);
  const plan = session.state.getState().plan;
  const long = cell.entry.editor === "area";

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
          onCancel={cancel}
          onFaulty={refuse}
        />
      ) : (
        <FieldValue
          cell={cell}
          written={long ? cell.entry.draft(cell.value, plan) : cell.shown}
          faulty={faulty}
          button={button}
          onPress={press}
        />
      )}
    </div>
  );
}

/** Whether a field is edited, what of it was refused, and where the keyboard goes when its editor is left. */
function useFieldEditing(
  { table, row, cell }: FieldPlace,
  box: RefObject<HTMLElement | null>,
  button: RefObject<HTMLElement | null>,
) {
  const { session, view, memory } = useApp();
  const [editing, setEditing] = useState(false);
  const slot = useSession((state) => state.slot);
  const faulty = useView((state) => keptIn(state.keptCells, slot).get(cell.id) ?? null);
  const returning = useRef(false);
  useEffect(() => {
    if (editing || !returning.current) return;
    returning.current = false;
    button.current?.focus();
  }, [editing, button]);

  const keep = (kept: KeptCell | null): void => keepDraft({ view, memory }, slot, cell.id, kept);
  const over = (how: Done): void => {
    setEditing(false);
    returning.current = how === "stay" || how === "down";
    if (how === "next" || how === "back") goBeside(box.current, how === "back");
  };
  return {
    editing,
    faulty,
    press() {
      if (cell.entry.editor !== "tick") return setEditing(true);
      putDraft(session, session.state.getState().plan, cell, cell.value === true ? "" : "yes");
    },
    done(how: Done) {
      keep(null);
      retryRow(session, { view, memory }, table, row);
      over(how);
    },
    cancel() {
      returning.current = true;
      keep(null);
      setEditing(false);
    },
    refuse(kept: KeptCell, how: Done) {
      keep(kept);
      over(how);
    },
  };
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
