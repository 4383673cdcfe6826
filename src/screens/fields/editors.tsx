import { type ChangeEvent, type ComponentType, type KeyboardEvent, useRef } from "react";
import type { Plan } from "../../plan/index.ts";
import type { Editor } from "./entry.ts";
import type { Cell } from "./table.ts";

/** How an editor is left: done here, then down, onward or back; or cancelled. */
type Leave = "stay" | "down" | "next" | "back" | "cancel";

/** How an edit is over: left by one of these, or because the planner went elsewhere. */
export type Done = Exclude<Leave, "cancel"> | "elsewhere";

/** What every editor is given. The draft is held above, where it is read as it is written. */
export interface EditorProps {
  readonly cell: Cell;
  readonly plan: Plan;
  readonly draft: string;
  readonly invalid: boolean;
  /** Id of the words on what is wrong. */
  readonly faultId: string;
  /** True when the draft begins with what was just typed: the caret stands at its end, nothing is chosen. */
  readonly typed: boolean;
  readonly onDraft: (draft: string) => void;
  readonly onLeave: (how: Leave) => void;
}

/** One component for each way of editing; which cell uses which is said by its entry. */
export const EDITORS: Readonly<Record<Editor, ComponentType<EditorProps>>> = {
  line: LineEditor,
  area: AreaEditor,
  one: OneEditor,
  some: SomeEditor,
  tick: TickEditor,
};

function leaveBy(event: KeyboardEvent, enterLeaves: boolean): Leave | null {
  if (event.key === "Escape") return "cancel";
  if (event.key === "Tab") return event.shiftKey ? "back" : "next";
  if (event.key === "Enter" && (enterLeaves || event.ctrlKey || event.metaKey)) return "down";
  return null;
}

function onKeys(props: EditorProps, enterLeaves = true) {
  return (event: KeyboardEvent): void => {
    event.stopPropagation();
    const how = leaveBy(event, enterLeaves);
    if (how === null) return;
    event.preventDefault();
    props.onLeave(how);
  };
}

function face({ cell, invalid, faultId }: EditorProps) {
  return {
    "aria-label": cell.unit === "" ? cell.label : `${cell.label}, ${cell.unit}`,
    "aria-invalid": invalid || undefined,
    "aria-describedby": invalid ? faultId : undefined,
  };
}

/** Takes the keyboard once; the whole draft is chosen unless it was begun by typing. */
function useEntrance(typed: boolean) {
  const entered = useRef(false);
  return (field: HTMLInputElement | HTMLTextAreaElement | null): void => {
    if (!field || entered.current) return;
    entered.current = true;
    field.focus();
    if (!typed) field.select();
  };
}

function LineEditor(props: EditorProps) {
  const { cell, plan, draft, onDraft, typed, faultId } = props;
  const choices = cell.entry.choices?.(plan);
  const enter = useEntrance(typed);
  const listId = `${faultId}-choices`;
  return (
    <>
      <input
        {...face(props)}
        ref={enter}
        type="text"
        autoComplete="off"
        spellCheck={false}
        list={choices ? listId : undefined}
        data-align={cell.entry.align}
        value={draft}
        onChange={(event) => onDraft(event.target.value)}
        onKeyDown={onKeys(props)}
      />
      {choices && (
        <datalist id={listId}>
          {choices.map((choice) => (
            <option key={choice.value} value={choice.words} />
          ))}
        </datalist>
      )}
    </>
  );
}

function AreaEditor(props: EditorProps) {
  const { draft, onDraft, typed } = props;
  const enter = useEntrance(typed);
  return (
    <textarea
      {...face(props)}
      ref={enter}
      rows={Math.min(12, Math.max(3, draft.split("\n").length + 1))}
      value={draft}
      onChange={(event) => onDraft(event.target.value)}
      onKeyDown={onKeys(props, false)}
    />
  );
}

function OneEditor(props: EditorProps) {
  const { cell, plan, draft, onDraft, onLeave } = props;
  // Keys may step through the list on their way; a choice by pointer is meant.
  const byPointer = useRef(false);
  const change = (event: ChangeEvent<HTMLSelectElement>): void => {
    onDraft(event.target.value);
    if (byPointer.current) queueMicrotask(() => onLeave("stay"));
  };
  return (
    <select
      {...face(props)}
      ref={useFocusOnce()}
      value={draft}
      onPointerDown={() => (byPointer.current = true)}
      onChange={change}
      onKeyDown={(event) => {
        byPointer.current = false;
        onKeys(props)(event);
      }}
    >
      {(cell.entry.choices?.(plan) ?? []).map((choice) => (
        <option key={choice.value} value={choice.value}>
          {choice.words}
        </option>
      ))}
    </select>
  );
}

function SomeEditor(props: EditorProps) {
  const { cell, plan, draft, onDraft } = props;
  const chosen = draft.split(" ").filter((one) => one !== "");
  const choices = cell.entry.choices?.(plan) ?? [];
  const first = useFocusOnce();
  const toggle = (value: string): void => {
    const next = chosen.includes(value) ? chosen.filter((one) => one !== value) : [...chosen, value];
    onDraft(next.join(" "));
  };
  const keys = (event: KeyboardEvent<HTMLElement>): void => {
    const step = event.key === "ArrowDown" ? 1 : event.key === "ArrowUp" ? -1 : 0;
    if (step === 0) return onKeys(props)(event);
    event.preventDefault();
    event.stopPropagation();
    const boxes = [...event.currentTarget.querySelectorAll("input")];
    const here = boxes.findIndex((box) => box === document.activeElement);
    boxes[(here + step + boxes.length) % boxes.length]?.focus();
  };
  return (
    <fieldset {...face(props)} className="setup-some" onKeyDown={keys}>
      {choices.map((choice, index) => (
        <label key={choice.value}>
          <input
            ref={index === 0 ? first : undefined}
            type="checkbox"
            checked={chosen.includes(choice.value)}
            onChange={() => toggle(choice.value)}
          />
          {choice.words}
        </label>
      ))}
      {choices.length === 0 && <span className="note">There is none yet.</span>}
    </fieldset>
  );
}

function TickEditor(props: EditorProps) {
  const { draft, onDraft } = props;
  return (
    <input
      {...face(props)}
      ref={useFocusOnce()}
      type="checkbox"
      checked={draft === "yes"}
      onChange={(event) => onDraft(event.target.checked ? "yes" : "")}
      onKeyDown={onKeys(props)}
    />
  );
}

function useFocusOnce() {
  const entered = useRef(false);
  return (field: HTMLElement | null): void => {
    if (!field || entered.current) return;
    entered.current = true;
    field.focus();
  };
}
