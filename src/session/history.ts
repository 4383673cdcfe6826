import { isRecord } from "../kernel/index.ts";
import { type Edit, editSchema, invertEdit } from "../plan/index.ts";

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

/** Changes kept in a store at most, over all steps: so much that writing them is not felt. */
const MOST_STORED = 20_000;

/** The history as it is put into a store: the steps next to be taken back or done again, as far as there is room. */
export function storedHistory({ undo, redo }: History): History {
  let room = MOST_STORED;
  const newest = (edits: readonly Edit[]): readonly Edit[] => {
    const from = edits.findLastIndex(({ patch }) => (room -= patch.length) < 0);
    return edits.slice(from + 1);
  };
  return { undo: newest(undo), redo: newest(redo) };
}

/** A history as it lay in a store, of which anything may be true; steps that cannot be read end it. */
export function readHistory(found: unknown): History {
  const edits = (list: unknown): readonly Edit[] => {
    const read = (Array.isArray(list) ? list : []).map((one: unknown) => editSchema.safeParse(one));
    return read.slice(read.findLastIndex((one) => !one.success) + 1).flatMap((one) => one.data ?? []);
  };
  return isRecord(found) ? { undo: edits(found["undo"]), redo: edits(found["redo"]) } : emptyHistory;
}
