import { failed, type Outcome } from "../../kernel/index.ts";
import { editBetween, type Fault, parse, type Plan } from "../../plan/index.ts";
import type { Core } from "../core.ts";
import type { EditCommands } from "../editing.ts";
import { fileNameOf, planText } from "../files.ts";
import { emptyHistory, recorded, storedHistory } from "../history.ts";
import { cardOf } from "./card.ts";
import type { Keeping } from "./keeping.ts";
import { historyIn } from "./olderrecord.ts";
import { type Opening, readRecord } from "./opening.ts";
import type { Archive, Card, KeptState } from "./records.ts";
import type { Saver } from "./saving.ts";

/** A plan of the shelf as it is, or a state of one. */
export type Which = { readonly slot: string } | { readonly state: number };

/** A plan as a file. */
interface PlanFile {
  readonly name: string;
  readonly text: string;
}

/** Commands on the shelf of plans in this browser. Promises reject with an Error when the store cannot be used. */
export interface ShelfCommands extends Pick<Opening, "openSlot"> {
  /** All plans, the one saved last first, those in the bin too. What is waiting is saved before. */
  shelf(): Promise<readonly Card[]>;
  /** Opens a copy of a plan or state as a plan of its own. False where it cannot be read. */
  openCopy(which: Which): Promise<boolean>;
  /** Gives a plan another title, as a step of its history. */
  renamePlan(slot: string, title: string): Promise<Outcome<null, readonly Fault[]>>;
  /** Puts a plan into the bin, or back. Why not, in words; null when it is done. */
  binPlan(slot: string, away: boolean): Promise<string | null>;
  /** Takes a plan in the bin off the shelf for good, with its states. */
  dropPlan(slot: string): Promise<void>;
  /** A plan or state as a file; what cannot be read as it was found. */
  fileOf(which: Which): Promise<PlanFile>;
  /** The states of a plan to go back to, the newest first. */
  statesOf(slot: string): Promise<readonly KeptState[]>;
  /** Makes a state the open plan, as one step that can be undone. False where it cannot be read. */
  goBackTo(state: number): Promise<boolean>;
  /** Calls the open plan a revision, as a step, and keeps it as such a state, with its author's words and name. */
  keepRevision(named: {
    readonly name: string;
    readonly note: string;
  }): Promise<Outcome<null, readonly Fault[]>>;
  /** The plan of a place on the shelf; null where it cannot be read. */
  planOf(which: Which): Promise<Plan | null>;
}

interface AppServices {
  readonly edits: EditCommands;
  readonly saver: Saver;
  readonly opening: Opening;
  readonly keeping: Keeping;
}

const IN_USE = "It is open in another window: close it there first.";

export function shelfCommands(core: Core, { edits, saver, opening, keeping }: AppServices): ShelfCommands {
  const { state, ports } = core;
  const { archive, clock, windows } = ports;
  const { foundAt, planOf } = reading(core);
  const isOpen = (slot: string): boolean => state.getState().slot === slot;
  const elsewhere = async (slot: string): Promise<boolean> =>
    !isOpen(slot) && ((await windows?.isTaken(slot)) ?? false);

  return {
    openSlot: opening.openSlot,
    planOf,
    async shelf() {
      await saver.saveNow();
      return (await archive.cards()).toSorted((a, b) => b.savedAtMs - a.savedAtMs);
    },
    async openCopy(which) {
      const plan = await planOf(which);
      if (!plan) return false;
      const copy = { ...plan, title: copyTitle(plan.title) };
      if (await core.makeReady(copy)) core.lay(copy, emptyHistory, ports.newId());
      return true;
    },
    async renamePlan(slot, title) {
      if (!isOpen(slot)) return renameClosed(archive, slot, title, () => elsewhere(slot));
      const made = edits.edit("Rename the plan", () => ({ title }));
      return made.ok ? { ok: true, value: null } : made;
    },
    async binPlan(slot, away) {
      if (away && isOpen(slot)) return "It is the open plan: open another one first.";
      if (await elsewhere(slot)) return IN_USE;
      const card = (await archive.cards()).find((one) => one.slot === slot);
      if (card) await archive.writeCard({ ...card, binnedAtMs: away ? clock.nowMs() : null });
      return null;
    },
    dropPlan: (slot) => archive.dropPlan(slot),
    async fileOf(which) {
      const plan = await planOf(which);
      if (plan) return { name: fileNameOf(plan.title), text: planText(plan) };
      const found = await foundAt(which);
      return { name: "unreadable-plan.json", text: textIn(found) };
    },
    statesOf: (slot) => archive.states(slot),
    async goBackTo(key) {
      const plan = await planOf({ state: key });
      if (plan) core.step(editBetween("Go back to a state", state.getState().plan, plan));
      return plan !== null;
    },
    async keepRevision(named) {
      const { name, note } = named;
      const made = edits.edit(`Revision ${name}`, () => ({ revision: { name, note } }));
      if (!made.ok) return made;
      const { slot, plan } = state.getState();
      await keeping.keepRevision(slot, plan);
      return { ok: true, value: null };
    },
  };
}

/** How a plan or state is read: as it was found, and as a plan. */
function reading({ state, ports: { archive } }: Core): {
  foundAt(which: Which): Promise<unknown>;
  planOf(which: Which): Promise<Plan | null>;
} {
  const foundAt = async (which: Which): Promise<unknown> => {
    if ("slot" in which) return archive.readPlan(which.slot);
    return { text: await archive.readState(which.state), savedAtMs: 0, writer: "" };
  };
  return {
    foundAt,
    async planOf(which) {
      const now = state.getState();
      if ("slot" in which && which.slot === now.slot) return now.plan;
      const read = readRecord(await foundAt(which));
      return read.ok ? read.plan : null;
    },
  };
}

/** Gives a plan that is not open another title, in the store itself, unless it is open elsewhere. */
async function renameClosed(
  archive: Archive,
  slot: string,
  title: string,
  elsewhere: () => Promise<boolean>,
): Promise<Outcome<null, readonly Fault[]>> {
  const read = readRecord(await archive.readPlan(slot));
  if (!read.ok) return failed([{ path: "", message: read.reason }]);
  if (await elsewhere()) return failed([{ path: "", message: IN_USE }]);
  const made = parse({ ...read.plan, title });
  if (!made.ok) return made;
  const history = recorded(historyIn(read.record), editBetween("Rename the plan", read.plan, made.value));
  const record = { ...read.record, text: planText(made.value), history: storedHistory(history) };
  await archive.writePlan(cardOf(slot, made.value, record), record, null);
  return { ok: true, value: null };
}

/** What an unreadable record holds, for a file. */
function textIn(found: unknown): string {
  if (typeof found === "object" && found !== null && "text" in found && typeof found.text === "string")
    return found.text;
  return JSON.stringify(found, null, 2) ?? "";
}

const LONGEST_TITLE = 120;

/** What a copy of a plan of this title is called. */
export function copyTitle(title: string): string {
  const tail = " (copy)";
  return `${title.slice(0, LONGEST_TITLE - tail.length)}${tail}`;
}
