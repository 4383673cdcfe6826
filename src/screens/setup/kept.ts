import type { Look } from "../look.ts";
import type { Faulty } from "./celleditor.tsx";

/** What was written in cells and the plan does not take. It stays until it is mended, on whatever page and screen the planner is. */

const NONE: ReadonlyMap<string, Faulty> = new Map();

/** The kept drafts of the plan in `slot`, by cell. Those of another plan are none of its. */
export function keptIn(
  kept: { readonly slot: string; readonly drafts: ReadonlyMap<string, Faulty> } | null,
  slot: string,
): ReadonlyMap<string, Faulty> {
  return kept?.slot === slot ? kept.drafts : NONE;
}

/** Keeps a draft of the cell `id`; forgets it for null. */
export function keepDraft(look: Look, slot: string, id: string, faulty: Faulty | null): void {
  const now = keptIn(look.getState().keptCells, slot);
  if (faulty === null && !now.has(id)) return;
  const drafts = new Map(now);
  if (faulty) drafts.set(id, faulty);
  else drafts.delete(id);
  look.setState({ keptCells: { slot, drafts } });
}

/** How many of the drafts stand in these tables. */
export function keptOn(
  drafts: ReadonlyMap<string, Faulty>,
  tables: readonly { readonly id: string }[],
): number {
  return [...drafts.keys()].filter((id) => tables.some((table) => id.startsWith(`${table.id}/`))).length;
}
