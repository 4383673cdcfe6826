import { isStoredPlan, type StoredPlan } from "./archive.ts";
import { type AsideCommands, asideCommands } from "./aside.ts";
import type { Core } from "./core.ts";
import { planText, wordsOf } from "./files.ts";
import { storedHistory } from "./history.ts";
import { historyIn, planIn } from "./olderrecord.ts";
import type { Saving } from "./state.ts";

/** A change waits so long for others before all are saved, ms. However fast they come, the first is never held longer. */
const GATHER_MS = 150;
/** After a save that failed another is tried so much later, ms: there may be room again. */
const RETRY_MS = 5000;

/** Commands on the document in the browser's store. It is saved by itself at once after every change. */
export interface SavingCommands extends AsideCommands {
  /**
   * Brings back what was open when the page was left: true when there was something readable. A record that cannot be
   * read is kept aside and said, and the last readable one is opened in its place.
   */
  restore(): Promise<boolean>;
  /** Saves what is waiting at once, for instance when the page is left; settles when it is saved or has failed. */
  saveNow(): Promise<void>;
}

export function savingCommands(core: Core): SavingCommands {
  const { state, ports } = core;
  const { archive, clock } = ports;
  const writer = ports.newId();
  let expected: string | null = null;
  let callOff: (() => void) | null = null;
  let savesAtMs = 0;
  let writing: Promise<void> = Promise.resolve();
  let restoring = false;

  const note = (part: Partial<Saving>): void =>
    state.setState((now) => ({ saving: { ...now.saving, ...part } }));

  const write = async (): Promise<void> => {
    const { plan, history } = state.getState();
    const record: StoredPlan = {
      text: planText(plan),
      history: storedHistory(history),
      savedAtMs: clock.nowMs(),
      writer,
    };
    note({ status: "saving" });
    try {
      const how = await archive.writeOpen(record, expected);
      if (how === "other set aside") {
        core.notice(
          "problem",
          "Another window had saved its plan in this browser; that one is kept aside, under Plan.",
        );
      }
      // From now on only this window's own record may be replaced without a word.
      expected = null;
      const current = state.getState().plan === plan;
      note({ status: current ? "saved" : "waiting", savedAtMs: record.savedAtMs, message: null });
    } catch (error) {
      const message = wordsOf(error);
      // Said once for each run of failures; the status keeps saying it.
      if (state.getState().saving.message === null) {
        core.notice("problem", `The plan could not be saved in this browser: ${message}. Save it to a file.`);
      }
      note({ status: "failed", message });
      waitFor(RETRY_MS);
    }
  };

  const saveNow = (): Promise<void> => {
    if (callOff) {
      callOff();
      callOff = null;
      // One write after the other, so that an older plan never lands on a newer one.
      writing = writing.then(write);
    }
    return writing;
  };

  /** Has the plan saved after `ms`, unless that will happen sooner. */
  const waitFor = (ms: number): void => {
    const dueMs = clock.nowMs() + ms;
    if (callOff && dueMs >= savesAtMs) return;
    callOff?.();
    savesAtMs = dueMs;
    callOff = clock.after(ms, () => void saveNow());
  };

  core.onPlan(() => {
    if (restoring) return;
    note({ status: "waiting" });
    waitFor(GATHER_MS);
  });

  /** Opens a found record; the reason in words when it cannot be. */
  const reopen = (found: unknown): { ok: true; record: StoredPlan } | { ok: false; reason: string } => {
    if (!isStoredPlan(found)) return { ok: false, reason: "it is no record of this program" };
    const read = planIn(found);
    if (!read.ok) {
      const first = read.error[0];
      const where = first && first.path !== "" ? ` at ${first.path}` : "";
      return { ok: false, reason: `${first?.message ?? "it has faults"}${where}` };
    }
    restoring = true;
    core.show(read.value, historyIn(found));
    restoring = false;
    note({ status: "saved", savedAtMs: found.savedAtMs, message: null });
    return { ok: true, record: found };
  };

  return {
    async restore() {
      try {
        const found = await archive.readOpen();
        if (found === undefined) return false;
        const opened = reopen(found);
        if (opened.ok) {
          expected = opened.record.writer;
          await archive.writeGood(opened.record);
          return true;
        }
        await archive.setOpenAside(opened.reason, clock.nowMs());
        const good = await archive.readGood();
        const back = good === undefined ? null : reopen(good);
        const instead = back?.ok ? " The last readable one is open in its place." : "";
        core.notice(
          "problem",
          `The plan saved in this browser cannot be read: ${opened.reason}. It is kept aside, under Plan.${instead}`,
        );
        return back?.ok ?? false;
      } catch (error) {
        core.notice("problem", `This browser's store cannot be used: ${wordsOf(error)}. Save to a file.`);
        return false;
      }
    },
    saveNow,
    ...asideCommands(core),
  };
}
