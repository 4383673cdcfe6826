import { useEffect, useRef, useState } from "react";
import { useAround, useDesk, useLook } from "../context.ts";
import { CellEditor, type Faulty } from "./celleditor.tsx";
import { keepDraft, keptIn } from "./kept.ts";
import { putDraft } from "./draft.ts";
import type { Done } from "./editors.tsx";
import type { Cell } from "./table.ts";

/** One field of a thing, edited in place beside its table or its block: its value is a button that opens the editor. */
export function FormField({ cell, label }: { readonly cell: Cell; readonly label: string }) {
  const { desk, look } = useAround();
  const [editing, setEditing] = useState(false);
  const slot = useDesk((state) => state.slot);
  const faulty = useLook((state) => keptIn(state.keptCells, slot).get(cell.id) ?? null);
  const setFaulty = (kept: Faulty | null): void => keepDraft(look, slot, cell.id, kept);
  const button = useRef<HTMLButtonElement>(null);
  const returning = useRef(false);
  useEffect(() => {
    if (editing || !returning.current) return;
    returning.current = false;
    button.current?.focus();
  }, [editing]);

  const done = (how: Done): void => {
    setFaulty(null);
    setEditing(false);
    returning.current = how === "stay" || how === "down";
    if (how === "next" || how === "back")
      openBeside(button.current ?? document.activeElement, how === "back");
  };
  const press = (): void => {
    if (cell.entry.editor !== "tick") return setEditing(true);
    putDraft(desk, desk.state.getState().plan, cell, cell.value === true ? "" : "yes");
  };
  const unit = cell.unit === "" ? "" : `, ${cell.unit}`;

  return (
    <div className="task-field" data-field>
      <span className="task-label">
        {label}
        {cell.unit !== "" && cell.unit !== "h:mm" && <span className="unit">{cell.unit}</span>}
      </span>
      {editing ? (
        <CellEditor
          cell={cell}
          first={faulty?.draft ?? cell.entry.draft(cell.value, desk.state.getState().plan)}
          onDone={done}
          onCancel={() => {
            returning.current = true;
            setFaulty(null);
            setEditing(false);
          }}
          onFaulty={(kept, how) => {
            done(how);
            setFaulty(kept);
          }}
        />
      ) : (
        <button
          ref={button}
          type="button"
          className="task-value"
          data-faulty={faulty ? "" : undefined}
          disabled={cell.fixed !== null}
          title={cell.fixed ?? (cell.hint === "" ? undefined : cell.hint)}
          aria-label={`${cell.label}${unit}: ${cell.shown === "" ? "none" : cell.shown}. ${cell.entry.editor === "tick" ? "Change" : "Edit"}`}
          onClick={press}
        >
          {faulty
            ? faulty.toGive !== undefined
              ? "to be given"
              : faulty.draft
            : cell.shown === ""
              ? "–"
              : cell.shown}
          {faulty && <span className="cell-fault">{faulty.fault}</span>}
        </button>
      )}
    </div>
  );
}

/** Opens the field after the one that was left, so that a whole task is filled in with Tab. */
function openBeside(from: Element | null, back: boolean): void {
  const here = from?.closest("[data-field]") ?? null;
  const fields = [...document.querySelectorAll("[data-field]")];
  const next = fields[fields.findIndex((field) => field === here) + (back ? -1 : 1)];
  const button = next?.querySelector<HTMLButtonElement>(".task-value:not(:disabled)");
  button?.focus();
}
