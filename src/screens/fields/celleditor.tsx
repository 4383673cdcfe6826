import { type ClipboardEvent, type FocusEvent, useEffect, useId, useMemo, useRef, useState } from "react";
import { tabbedRows } from "../../session/index.ts";
import { useApp, useSession } from "../context.ts";
import type { KeptCell } from "../viewstate.ts";
import { putDraft, readDraft } from "./draft.ts";
import { type Done, EDITORS } from "./editors.tsx";
import { isBlock } from "./entry.ts";
import { PaperLinesFit } from "./paperlines.tsx";
import type { Cell } from "./table.ts";

interface CellEditorProps {
  readonly cell: Cell;
  /** What the editor begins with. */
  readonly first: string;
  readonly typed?: boolean;
  readonly onDone: (how: Done) => void;
  readonly onCancel: () => void;
  readonly onFaulty: (kept: KeptCell, how: Done) => void;
  /** True where what surrounds the editor takes a block of cells: the editor is cancelled by one. */
  readonly yields?: boolean;
}

/**
 * Edits one cell. What is written is read at every key; it enters the plan as one step when the editor is left and it
 * is sound. A faulty draft keeps the editor open on Enter; where the planner goes on, by Tab or elsewhere, it is handed up, to be kept.
 */
export function CellEditor(props: CellEditorProps) {
  const { cell, first, typed = false, onDone, onCancel, onFaulty, yields = false } = props;
  const { session } = useApp();
  const plan = useSession((state) => state.plan);
  const [draft, setDraft] = useState(first);
  const latest = useRef(first);
  const over = useRef(false);
  const faultId = useId();
  const read = useMemo(() => readDraft(session, plan, cell, draft), [session, plan, cell, draft]);
  const box = useRef<HTMLDivElement>(null);
  // The editor may be taller than its cell was.
  useEffect(() => {
    void box.current?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }, []);
  const Editor = EDITORS[cell.entry.editor];

  const finish = (how: Done): void => {
    if (over.current) return;
    const put = putDraft(session, session.state.getState().plan, cell, latest.current);
    if (!put.ok && (how === "down" || how === "stay")) return;
    over.current = true;
    if (put.ok) onDone(how);
    else onFaulty({ label: cell.label, draft: latest.current, fault: put.error }, how);
  };
  const blurred = (event: FocusEvent<HTMLElement>): void => {
    if (!event.currentTarget.contains(event.relatedTarget)) finish("elsewhere");
  };

  const pasted = (event: ClipboardEvent): void => {
    if (!yields || cell.entry.editor === "area") return;
    if (!isBlock(tabbedRows(event.clipboardData.getData("text/plain")))) return;
    over.current = true;
    onCancel();
  };

  return (
    <div ref={box} className="cell-editor" onBlur={blurred} onPaste={pasted}>
      <Editor
        cell={cell}
        plan={plan}
        draft={draft}
        invalid={!read.ok}
        faultId={faultId}
        typed={typed}
        onDraft={(next) => {
          latest.current = next;
          setDraft(next);
        }}
        onLeave={(how) => {
          if (how !== "cancel") return finish(how);
          over.current = true;
          onCancel();
        }}
      />
      {cell.entry.onPaper && read.ok && <PaperLinesFit kind={cell.entry.onPaper} value={read.value} />}
      <p id={faultId} className="cell-fault" role="alert">
        {read.ok ? "" : read.error}
      </p>
    </div>
  );
}
