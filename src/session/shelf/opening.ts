import type { Plan } from "../../plan/index.ts";
import type { Core } from "../core.ts";
import { planText } from "../files.ts";
import { emptyHistory } from "../history.ts";
import { bytesOf } from "./archive.ts";
import type { Keeping } from "./keeping.ts";
import { historyIn, planIn } from "./olderrecord.ts";
import { isStoredPlan, type StoredPlan } from "./records.ts";
import type { Saver } from "./saving.ts";
import { storeTrouble } from "./storewords.ts";
import { type Pens, pensOf } from "./pens.ts";

/** A store that has not answered for so long at the start is done without, ms. */
const PATIENCE_MS = 10_000;

/** Which plan of the shelf is open, and whether this window writes it. */
export interface Opening {
  /**
   * Brings back what was open when the page was left: true when there was something readable. A record that cannot be
   * read is kept aside and said, and its last readable state is opened in its place.
   */
  restore(): Promise<boolean>;
  /** Opens a plan of the shelf; the one that was open stays there as it is. True when it is open now. Never rejects. */
  openSlot(slot: string): Promise<boolean>;
  /** Opens the plan of the shelf that is the same as this one; false where there is none. */
  openSame(plan: Plan): Promise<boolean>;
  /** Takes over from the window that writes the open plan. */
  takeOver(): void;
}

type Read = { readonly ok: true; readonly plan: Plan; readonly record: StoredPlan } | Unread;
interface Unread {
  readonly ok: false;
  readonly reason: string;
}

/** A found record as a plan, or why it is none, in words. */
export function readRecord(found: unknown): Read {
  if (!isStoredPlan(found)) return { ok: false, reason: "it is no record of this program" };
  const read = planIn(found);
  if (read.ok) return { ok: true, plan: read.value, record: found };
  const [first] = read.error;
  const where = first && first.path !== "" ? ` at ${first.path}` : "";
  return { ok: false, reason: `${first?.message ?? "it has faults"}${where}` };
}

function isSameText(one: unknown, other: unknown): boolean {
  return (
    isStoredPlan(one) && isStoredPlan(other) && one.text === other.text && one.savedAtMs === other.savedAtMs
  );
}

export function openingOf(core: Core, saver: Saver, keeping: Keeping): Opening {
  const { state, ports } = core;
  const { archive, windows } = ports;
  const pens: Pens = pensOf(ports, {
    has: (slot) => void gained(slot),
    lost: (slot) => lost(slot),
  });
  const { follow, gained, lost } = followingOf(core, saver, keeping, pens);
  const open = readingOf(core, saver, keeping, pens);

  state.subscribe((now, before) => {
    if (now.slot === before.slot) return;
    windows?.setLastOpen(now.slot);
    archive.setLastOpen(now.slot).catch(() => undefined);
    void pens.hold(now.slot);
    void saver.saveNow().then(() => pens.keepOnly(state.getState().slot));
  });
  windows?.listen(({ what, kind }) => {
    if (kind === "saved") void follow(what);
    else if (pens.has(what)) void saver.saveNow().then(() => pens.pass(what));
  });

  const opening: Opening = {
    restore: () => restore(core, open),
    async openSlot(slot) {
      try {
        const found = await archive.readPlan(slot);
        if (found === undefined) core.notice("problem", "This plan is not on the shelf any more.");
        return await open(slot, found);
      } catch (error) {
        core.notice("problem", `The plan cannot be opened: ${storeTrouble(error)}.`);
        return false;
      }
    },
    async openSame(plan) {
      const text = planText(plan);
      const now = state.getState();
      if (now.writing === "here" && planText(now.plan) === text) return true;
      const bytes = bytesOf(text);
      try {
        for (const card of await archive.cards()) {
          if (card.slot === now.slot || card.binnedAtMs !== null) continue;
          if (card.bytes !== bytes || card.title !== plan.title) continue;
          const found = await archive.readPlan(card.slot);
          if (isStoredPlan(found) && found.text === text) return await open(card.slot, found);
        }
      } catch {
        // Without the store it is opened as a plan of its own; that it cannot be saved is said then.
      }
      return false;
    },
    takeOver: () => pens.take(state.getState().slot),
  };
  void pens.hold(state.getState().slot);
  return opening;
}

/** What happens where a plan is written in another window: this one follows it, and goes on where it is passed the pen. */
function followingOf(core: Core, saver: Saver, keeping: Keeping, pens: Pick<Pens, "has">) {
  const { state, ports } = core;

  /** Shows what another window has saved. */
  const follow = async (slot: string): Promise<void> => {
    const read = readRecord(await ports.archive.readPlan(slot).catch(() => undefined));
    const now = state.getState();
    if (!read.ok || now.slot !== slot || now.writing === "here") return;
    saver.opening(read.record, () => core.show(read.plan, historyIn(read.record)));
  };

  return {
    follow,
    async gained(slot: string): Promise<void> {
      if (state.getState().slot !== slot || state.getState().writing === "here") return;
      await follow(slot);
      if (state.getState().slot !== slot || !pens.has(slot)) return;
      state.setState({ writing: "here" });
      core.notice("news", "This window writes the plan now.");
    },
    lost(slot: string): void {
      const unsaved = saver.giveUp(slot);
      if (state.getState().slot !== slot) return;
      state.setState({ writing: "elsewhere" });
      core.notice("news", "Another window writes this plan now; this one follows it.");
      if (unsaved) void keeping.keep(slot, "left", unsaved).catch(() => undefined);
    },
  };
}

/** Opens a plan of which this was found; true when it is open now. Rejects where the store cannot be used. */
type Open = (slot: string, found: unknown) => Promise<boolean>;

function readingOf(core: Core, saver: Saver, keeping: Keeping, pens: Pick<Pens, "hold" | "release">): Open {
  const { archive, clock } = core.ports;

  const lay = (plan: Plan, record: StoredPlan | null, slot: string, has: boolean): void =>
    saver.opening(record, () =>
      core.lay(plan, record ? historyIn(record) : emptyHistory, slot, has ? "here" : "elsewhere"),
    );

  /** Opens the newest state of a plan that can be read. */
  const openState = async (slot: string, has: boolean): Promise<boolean> => {
    for (const { key } of await archive.states(slot)) {
      const text = await archive.readState(key);
      const read = readRecord({ text, savedAtMs: 0, writer: "" });
      if (!read.ok) continue;
      if (!(await core.makeReady(read.plan))) return false;
      lay(read.plan, null, slot, has);
      return true;
    }
    return false;
  };

  return async (slot, found) => {
    if (found === undefined) return false;
    const first = readRecord(found);
    // Broken off, it stays where it is.
    if (first.ok && !(await core.makeReady(first.plan))) return false;
    const has = await pens.hold(slot);
    // What another window has written since then counts.
    const now = await archive.readPlan(slot);
    const read = isSameText(found, now) ? first : readRecord(now);
    if (read.ok) {
      lay(read.plan, read.record, slot, has);
      if (has) await keeping.keep(slot, "opened", read.plan);
      return true;
    }
    await archive.quarantinePlan(slot, read.reason, clock.nowMs());
    const back = await openState(slot, has);
    if (!back) pens.release(slot);
    const instead = back ? " The last readable state of it is open in its place." : "";
    core.notice(
      "problem",
      `The plan saved in this browser cannot be read: ${read.reason}. It is kept aside, under Plans kept aside in the menu of the plan’s name.${instead}`,
    );
    return back;
  };
}

/** Brings back what was open last, or the plan saved last; a store that does not answer is said and done without. */
async function restore(core: Core, open: Open): Promise<boolean> {
  let late = false;
  let answers = false;
  const silence = new Promise<never>((_, reject) => {
    core.ports.clock.after(PATIENCE_MS, () => {
      // What takes long after that is not the store.
      if (answers) return;
      late = true;
      reject(new Error("it does not answer"));
    });
  });
  try {
    const made = openLast(core, open, () => {
      answers = !late;
      return answers;
    });
    return await Promise.race([made, silence]);
  } catch (error) {
    core.notice("problem", `This browser's store cannot be used: ${storeTrouble(error)}. Save to a file.`);
    return false;
  }
}

/** `answers` is called once the store has answered; false where something else is open by then. */
async function openLast({ ports }: Core, open: Open, answers: () => boolean): Promise<boolean> {
  const { archive, windows } = ports;
  const slot = windows?.lastOpen() ?? (await archive.lastOpen());
  const found = slot === null ? undefined : await archive.readPlan(slot);
  if (!answers()) return false;
  if (slot !== null && (await open(slot, found))) return true;
  const others = (await archive.cards())
    .filter((one) => one.binnedAtMs === null && one.slot !== slot)
    .toSorted((a, b) => b.savedAtMs - a.savedAtMs);
  for (const one of others) if (await open(one.slot, await archive.readPlan(one.slot))) return true;
  return false;
}
