import type { Plan } from "../../plan/index.ts";
import type { Core } from "../core.ts";
import { planText } from "../files.ts";
import { bytesOf } from "./archive.ts";
import type { StateKind } from "./records.ts";

const HOUR_MS = 3_600_000;

/** What a state is called by its author; all empty where it was kept by itself. */
interface Named {
  readonly name: string;
  readonly note: string;
  readonly author: string;
}

/** Keeps states to go back to. */
export interface Keeping {
  /** Keeps the plan as it is, unless the newest state is the same plan and this one has no name. */
  keep(slot: string, kind: StateKind, plan: Plan, named?: Named): Promise<void>;
  /** Keeps the plan as the revision that it calls itself, unless it is kept as that. */
  keepRevision(slot: string, plan: Plan): Promise<void>;
  /** Keeps it once an hour of work. */
  hourly(slot: string, plan: Plan): Promise<void>;
}

export function keepingOf(core: Core): Keeping {
  const { archive, clock } = core.ports;
  const keptMs = new Map<string, number>();
  /** One after the other, so that none is kept twice. */
  let revisions: Promise<void> = Promise.resolve();

  const keeping: Keeping = {
    async keep(slot, kind, plan, named) {
      const text = planText(plan);
      const by = { name: "", note: "", author: core.state.getState().author };
      keptMs.set(slot, clock.nowMs());
      const [newest] = await archive.states(slot);
      if (!named && newest && (await archive.readState(newest.key)) === text) return;
      await archive.addState(
        { slot, kind, atMs: clock.nowMs(), bytes: bytesOf(text), ...by, ...named },
        text,
      );
    },
    keepRevision(slot, plan) {
      const { name, note } = plan.revision;
      if (name === undefined) return Promise.resolve();
      const author = core.state.getState().author;
      revisions = revisions
        .catch(() => undefined)
        .then(async () => {
          const text = planText(plan);
          for (const one of await archive.states(slot))
            if (one.kind === "revision" && one.name === name && (await archive.readState(one.key)) === text)
              return;
          await keeping.keep(slot, "revision", plan, { name, note, author });
        });
      return revisions;
    },
    async hourly(slot, plan) {
      const sinceMs = keptMs.get(slot);
      if (sinceMs === undefined) keptMs.set(slot, clock.nowMs());
      else if (clock.nowMs() - sinceMs >= HOUR_MS) await keeping.keep(slot, "hour", plan);
    },
  };
  // The plan that a pack has made is there once its step is taken, which comes right behind.
  core.state.subscribe(({ run }, before) => {
    if (run?.kind !== "pack" || run.end !== "taken" || before.run?.end === "taken") return;
    queueMicrotask(() => {
      const { slot, plan, writing } = core.state.getState();
      // What cannot be kept is said where the plan itself cannot be saved.
      if (writing === "here") void keeping.keep(slot, "pack", plan).catch(() => undefined);
    });
  });
  // A revision is named wherever the plan is edited: by the shelf, in setup, by a merge. Nothing is named by a step taken back.
  core.state.subscribe(({ slot, plan, history, writing }, before) => {
    const { revision } = plan;
    const named = revision.name !== before.plan.revision.name || revision.note !== before.plan.revision.note;
    if (!named || slot !== before.slot || writing !== "here" || history.redo.length > 0) return;
    // What cannot be kept is said where the plan itself cannot be saved.
    keeping.keepRevision(slot, plan).catch(() => undefined);
  });
  return keeping;
}
