import { type Edit, invertEdit } from "../plan/index.ts";

/** What was done and can be taken back, what was taken back and can be done again. The last of each is the next. */
export interface History {
  readonly undo: readonly Edit[];
  readonly redo: readonly Edit[];
}

/** Steps kept; older ones are forgotten. */
const LONGEST = 500;

export const emptyHistory: History = { undo: [], redo: [] };

/** The history after a new step: what had been taken back is gone. */
export function recorded(history: History, edit: Edit): History {
  return { undo: [...history.undo, edit].slice(-LONGEST), redo: [] };
}

/** The edit that takes the last step back and the history after it; null when there is none. */
export function undone(history: History): { edit: Edit; history: History } | null {
  const last = history.undo.at(-1);
  if (!last) return null;
  return {
    edit: invertEdit(last),
    history: { undo: history.undo.slice(0, -1), redo: [...history.redo, last] },
  };
}

/** The edit that does the last taken-back step again and the history after it; null when there is none. */
export function redone(history: History): { edit: Edit; history: History } | null {
  const last = history.redo.at(-1);
  if (!last) return null;
  return { edit: last, history: { undo: [...history.undo, last], redo: history.redo.slice(0, -1) } };
}
