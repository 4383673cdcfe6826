import type { Core } from "../core.ts";
import { planText } from "../files.ts";
import { type History, storedHistory } from "../history.ts";
import type { Plan } from "../../plan/index.ts";
import type { Clock } from "../ports.ts";
import type { Saving } from "../state.ts";
import { cardOf } from "./card.ts";
import type { StoredPlan } from "./records.ts";
import type { Keeping } from "./keeping.ts";
import { storeTrouble } from "./storewords.ts";

/** A change waits so long for others before all are saved, ms. However fast they come, the first is never held longer. */
const GATHER_MS = 150;
/** After a save that failed another is tried so much later, ms: there may be room again. */
const RETRY_MS = 5000;

interface Snapshot {
  readonly plan: Plan;
  readonly history: History;
}

/** The open plan in the browser's store. It is saved by itself at once after every change. */
export interface Saver {
  /** Saves what is waiting at once, for instance when the page is left; settles when it is saved or has failed. */
  saveNow(): Promise<void>;
  /** Opens a plan that lies in the store already as `record`; with null it is one that has to be saved. */
  opening(record: StoredPlan | null, open: () => void): void;
  /** Another window has taken the plan of `slot`: what was not saved here yet, which is saved by nobody now. */
  giveUp(slot: string): Plan | null;
}

export function saverOf(core: Core, keeping: Keeping): Saver {
  const { state, ports } = core;
  const { clock } = ports;
  const waiting: Waiting = { due: new Map(), expected: new Map() };
  const { due, expected } = waiting;
  const write = writingOf(core, keeping, waiting, () => alarm.set(RETRY_MS));
  let writing: Promise<void> = Promise.resolve();
  let opening = false;

  const saveNow = (): Promise<void> => {
    // One write after the other, so that an older plan never lands on a newer one.
    if (alarm.off())
      writing = writing.then(async () => {
        for (const [slot, snapshot] of [...due]) await write(slot, snapshot);
      });
    return writing;
  };
  const alarm = alarmOf(clock, () => void saveNow());

  state.subscribe((now, before) => {
    if (now.plan === before.plan && now.slot === before.slot) return;
    // What is left is saved as it was left.
    if (now.slot !== before.slot && due.has(before.slot)) {
      const left = { plan: before.plan, history: before.history };
      due.set(before.slot, () => left);
    }
    if (opening || now.writing === "elsewhere") return;
    due.set(now.slot, () => state.getState());
    note(core, { status: "waiting" });
    // A page that is busy with keys comes late to its timers.
    if (alarm.isOverdue()) void saveNow();
    else alarm.set(GATHER_MS);
  });

  return {
    saveNow,
    opening(record, open) {
      opening = record !== null;
      open();
      opening = false;
      if (!record) return;
      expected.set(state.getState().slot, record.writer);
      saved(core, waiting, record);
    },
    giveUp(slot) {
      const unsaved = due.get(slot)?.() ?? null;
      due.delete(slot);
      expected.delete(slot);
      return unsaved?.plan ?? null;
    },
  };
}

/** What is to be written, by slot. */
interface Waiting {
  /** What is not in the store yet. */
  readonly due: Map<string, () => Snapshot>;
  /** Whose record this window may replace without a word. */
  readonly expected: Map<string, string>;
}

function note({ state }: Core, part: Partial<Saving>): void {
  state.setState((now) => ({ saving: { ...now.saving, ...part } }));
}

function saved(core: Core, { due }: Waiting, { savedAtMs }: StoredPlan): void {
  note(core, { status: due.size === 0 ? "saved" : "waiting", savedAtMs, message: null });
}

/** Writes a plan into the store; where that fails it stays due, that is said, and `retry` is called. */
function writingOf(
  core: Core,
  keeping: Keeping,
  waiting: Waiting,
  retry: () => void,
): (slot: string, snapshot: () => Snapshot) => Promise<void> {
  const { state, ports } = core;
  const { due, expected } = waiting;
  const writer = ports.newId();

  return async (slot, snapshot) => {
    const { plan, history } = snapshot();
    const record: StoredPlan = {
      text: planText(plan),
      history: storedHistory(history),
      savedAtMs: ports.clock.nowMs(),
      writer,
    };
    due.delete(slot);
    note(core, { status: "saving" });
    try {
      const how = await ports.archive.writePlan(
        cardOf(slot, plan, record),
        record,
        expected.get(slot) ?? null,
      );
      if (how === "other set aside") {
        core.notice(
          "problem",
          "Another window had saved this plan in this browser; that one is kept aside, under Plans kept aside in the menu of the plan’s name.",
        );
      }
      // From now on only this window's own record may be replaced without a word; with the only pen there is no other.
      if (ports.windows?.exclusive) expected.set(slot, writer);
      else expected.delete(slot);
      saved(core, waiting, record);
      ports.windows?.tell({ what: slot, kind: "saved" });
      await keeping.hourly(slot, plan);
    } catch (error) {
      if (!due.has(slot)) due.set(slot, snapshot);
      const message = storeTrouble(error);
      // Said once for each run of failures; the status keeps saying it.
      if (state.getState().saving.message === null) {
        core.notice("problem", `The plan could not be saved in this browser: ${message}. Save it to a file.`);
      }
      note(core, { status: "failed", message });
      retry();
    }
  };
}

/** One alarm, of which the soonest time asked for counts. */
interface Alarm {
  /** Has it ring after `ms`, unless that will happen sooner. */
  set(ms: number): void;
  /** Takes it back; false where it was not set. */
  off(): boolean;
  /** True when it should have rung by now. */
  isOverdue(): boolean;
}

function alarmOf(clock: Clock, ring: () => void): Alarm {
  let callOff: (() => void) | null = null;
  let atMs = 0;
  return {
    set(ms) {
      const dueMs = clock.nowMs() + ms;
      if (callOff && dueMs >= atMs) return;
      callOff?.();
      atMs = dueMs;
      callOff = clock.after(ms, ring);
    },
    off() {
      const wasSet = callOff !== null;
      callOff?.();
      callOff = null;
      return wasSet;
    },
    isOverdue: () => callOff !== null && clock.nowMs() >= atMs,
  };
}
