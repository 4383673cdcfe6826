import type { PrintedDay } from "../answers/index.ts";
import type { Engine } from "../engine/calls.ts";
import type { Plan } from "../plan/index.ts";
import type { Clock } from "./ports.ts";

/** When to leave for what comes next, by crew member and task: moments that the judge has tested. */
export type Leaves = PrintedDay["leaves"];

/** Asks the judge when to leave on a day that goes on, and again whenever it goes on otherwise. */
export interface Leaving {
  /** What is known of the day as it goes on now; null where nothing is, which is then asked for. */
  of(now: Plan, nowS: number): Leaves | null;
  /** Forgets what is known and what is asked. */
  drop(): void;
}

/** A day that goes on the same for so long is worth asking about, ms: the judge takes longer than a tick of the clock. */
const SETTLED_MS = 400;

interface LeavingCall {
  readonly of: Plan;
  readonly give: () => void;
  leaves: Leaves | null;
}

/** `tell` is given the answer, unless the day goes on otherwise by then. Where there is none it stays unknown. */
export function leavingOf(
  ports: { readonly engine: Pick<Engine, "printed">; readonly clock: Clock },
  tell: (leaves: Leaves) => void,
): Leaving {
  let current: LeavingCall | null = null;

  const drop = (): void => {
    current?.give();
    current = null;
  };

  return {
    drop,
    of(now, nowS) {
      if (current && goesOnAlike(current.of, now)) return current.leaves;
      drop();
      const control = new AbortController();
      const stopWaiting = ports.clock.after(SETTLED_MS, () => {
        ports.engine
          .printed(now, { fromS: nowS }, { signal: control.signal })
          .then((day) => {
            if (current !== mine) return;
            mine.leaves = day.leaves;
            tell(day.leaves);
          })
          // Not worked out is what is shown, and asked again when the day goes on otherwise.
          .catch(() => undefined);
      });
      const give = (): void => {
        stopWaiting();
        control.abort();
      };
      const mine: LeavingCall = { of: now, give, leaves: null };
      current = mine;
      return null;
    },
  };
}

/** What a rehearsal changes of its plan. */
const CHANGED = ["site", "stay", "evas", "equipment", "suits", "tasks", "schedule"] as const;

function goesOnAlike(a: Plan, b: Plan): boolean {
  return CHANGED.every((key) => a[key] === b[key] || JSON.stringify(a[key]) === JSON.stringify(b[key]));
}
