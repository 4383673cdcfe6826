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
import { alone, type Pen } from "./windows.ts";

/** Another window that has the pen is given so long to turn out to be gone, as one that is just being loaded anew, ms. */
const SOON_MS = 400;
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

interface Held {
  readonly pen: Pen;
  has: boolean;
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
  const { archive, clock, windows } = ports;
  const pens = new Map<string, Held>();

  /** Asks for the pen of a plan; whether this window has it soon. */
  const hold = (slot: string): Promise<boolean> =>
    new Promise((resolve) => {
      const known = pens.get(slot);
      if (known) return resolve(known.has);
      let has = false;
      const claim = {
        has: () => {
          has = true;
          const mine = pens.get(slot);
          if (mine) mine.has = true;
          resolve(true);
          void gained(slot);
        },
        lost: () => {
          const mine = pens.get(slot);
          if (mine) mine.has = false;
          lost(slot);
        },
      };
      clock.after(SOON_MS, () => resolve(pens.get(slot)?.has ?? false));
      const pen = windows ? windows.claim(slot, claim) : alone(claim);
      pens.set(slot, { pen, has });
    });

  const letGo = (slot: string): void => {
    pens.get(slot)?.pen.letGo();
    pens.delete(slot);
  };

  /** Shows what another window has saved. */
  const follow = async (slot: string): Promise<void> => {
    const read = readRecord(await archive.readPlan(slot).catch(() => undefined));
    const now = state.getState();
    if (!read.ok || now.slot !== slot || now.writing === "here") return;
    saver.opening(read.record, () => core.show(read.plan, historyIn(read.record)));
  };

  async function gained(slot: string): Promise<void> {
    if (state.getState().slot !== slot || state.getState().writing === "here") return;
    await follow(slot);
    if (state.getState().slot !== slot || !pens.get(slot)?.has) return;
    state.setState({ writing: "here" });
    core.notice("news", "This window writes the plan now.");
  }

  function lost(slot: string): void {
    const unsaved = saver.giveUp(slot);
    if (state.getState().slot !== slot) return;
    state.setState({ writing: "elsewhere" });
    core.notice("news", "Another window writes this plan now; this one follows it.");
    if (unsaved) void keeping.keep(slot, "left", unsaved).catch(() => undefined);
  }

  state.subscribe((now, before) => {
    if (now.slot === before.slot) return;
    windows?.setLastOpen(now.slot);
    archive.setLastOpen(now.slot).catch(() => undefined);
    void hold(now.slot);
    void saver.saveNow().then(() => {
      for (const slot of [...pens.keys()]) if (slot !== state.getState().slot) letGo(slot);
    });
  });
  windows?.listen(({ what, kind }) => {
    if (kind === "saved") void follow(what);
    else if (pens.get(what)?.has) void saver.saveNow().then(() => pens.get(what)?.pen.pass());
  });

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

  /** Opens a plan of which this was found; rejects where the store cannot be used. */
  const open = async (slot: string, found: unknown): Promise<boolean> => {
    if (found === undefined) return false;
    const first = readRecord(found);
    // Broken off, it stays where it is.
    if (first.ok && !(await core.makeReady(first.plan))) return false;
    const has = await hold(slot);
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
    if (!back) letGo(slot);
    const instead = back ? " The last readable state of it is open in its place." : "";
    core.notice(
      "problem",
      `The plan saved in this browser cannot be read: ${read.reason}. It is kept aside, under Plan.${instead}`,
    );
    return back;
  };

  const restored = async (isLate: () => boolean, answers: () => void): Promise<boolean> => {
    const slot = windows?.lastOpen() ?? (await archive.lastOpen());
    const found = slot === null ? undefined : await archive.readPlan(slot);
    // Something else is on the desk by then.
    if (isLate()) return false;
    answers();
    if (slot !== null && (await open(slot, found))) return true;
    const others = (await archive.cards())
      .filter((one) => one.binnedAtMs === null && one.slot !== slot)
      .toSorted((a, b) => b.savedAtMs - a.savedAtMs);
    for (const one of others) if (await open(one.slot, await archive.readPlan(one.slot))) return true;
    return false;
  };

  const opening: Opening = {
    async restore() {
      let late = false;
      let answers = false;
      const silence = new Promise<never>((_, reject) => {
        clock.after(PATIENCE_MS, () => {
          // What takes long after that is not the store.
          if (answers) return;
          late = true;
          reject(new Error("it does not answer"));
        });
      });
      try {
        const made = restored(
          () => late,
          () => (answers = true),
        );
        return await Promise.race([made, silence]);
      } catch (error) {
        core.notice(
          "problem",
          `This browser's store cannot be used: ${storeTrouble(error)}. Save to a file.`,
        );
        return false;
      }
    },
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
    takeOver: () => pens.get(state.getState().slot)?.pen.take(),
  };
  void hold(state.getState().slot);
  return opening;
}
