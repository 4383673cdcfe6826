import { isRecord } from "../kernel/index.ts";
import type { Services } from "./services.ts";
import type { KeptCell, ViewStore } from "./viewstate.ts";

/**
 * What was written in cells of setup and the plan does not take. It stays until it is mended: on whatever page and screen the
 * planner is, and when the program is opened again. Drafts are no part of the plan and go into no file.
 */

/** Where drafts are held: the view for all who show them, the memory for the next time. */
export interface Keeping {
  readonly view: ViewStore;
  readonly memory: Services["memory"];
}

const MEMORY = "setup-refused";
const NONE: ReadonlyMap<string, KeptCell> = new Map();

/** The kept drafts of the plan in `slot`, by cell. Those of another plan are none of its. */
export function keptIn(
  kept: { readonly slot: string; readonly drafts: ReadonlyMap<string, KeptCell> } | null,
  slot: string,
): ReadonlyMap<string, KeptCell> {
  return kept?.slot === slot ? kept.drafts : NONE;
}

/** Keeps a draft of the cell `id`; forgets it for null. */
export function keepDraft({ view, memory }: Keeping, slot: string, id: string, cell: KeptCell | null): void {
  const now = keptIn(view.getState().keptCells, slot);
  if (cell === null && !now.has(id)) return;
  const drafts = new Map(now);
  if (cell) drafts.set(id, cell);
  else drafts.delete(id);
  view.setState({ keptCells: { slot, drafts } });
  memory.set(MEMORY, JSON.stringify({ slot, drafts: [...drafts] }));
}

/** Takes up the drafts of the last time; what is no such thing is passed over. */
export function takeUpDrafts({ view, memory }: Keeping): void {
  if (view.getState().keptCells !== null) return;
  try {
    const read: unknown = JSON.parse(memory.get(MEMORY) ?? "null");
    if (!isKept(read)) return;
    view.setState({ keptCells: { slot: read.slot, drafts: new Map(read.drafts) } });
  } catch {
    // A memory that cannot be read holds nothing.
  }
}

/** How many of the drafts stand in these tables. */
export function keptOn(
  drafts: ReadonlyMap<string, KeptCell>,
  tables: readonly { readonly id: string }[],
): number {
  return [...drafts.keys()].filter((id) => tables.some((table) => id.startsWith(`${table.id}/`))).length;
}

function isKept(read: unknown): read is { slot: string; drafts: readonly (readonly [string, KeptCell])[] } {
  if (!isRecord(read) || typeof read["slot"] !== "string" || !Array.isArray(read["drafts"])) return false;
  return read["drafts"].every((one: unknown) => {
    const [id, cell]: readonly unknown[] = Array.isArray(one) ? one : [];
    return (
      typeof id === "string" &&
      isRecord(cell) &&
      ["label", "draft", "fault"].every((name) => typeof cell[name] === "string")
    );
  });
}
