import type { StoreApi } from "zustand/vanilla";
import { instant } from "../kernel/index.ts";
import type { Plan } from "../plan/index.ts";
import { nextCall, played, type Rehearsal, type RehearsedWays } from "../rehearsal/index.ts";
import type { Clock } from "./ports.ts";
import { isOver, type Rehearsed, type RehearsalState } from "./rehearsalstate.ts";

/** The clock of a rehearsal, which a crew playing by itself calls along with. */
export interface RehearsalClock {
  run(): void;
  halt(): void;
  /** On by so many seconds, or to the next call of a crew playing by itself. */
  goOn(by: number | "next call"): void;
}

/** How often the clock is moved while it runs, ms. */
const TICK_MS = 250;

/** `put` takes the rehearsal as it goes on; `keeper` keeps it after calls and at the end, and else the clock only. */
export function rehearsalClock(
  ports: { readonly clock: Clock; readonly walksOf: (plan: Plan) => RehearsedWays },
  state: Pick<StoreApi<RehearsalState>, "getState" | "setState">,
  put: (rehearsal: Rehearsal) => void,
  keeper: { readonly keep: () => void; readonly keepClock: () => void },
): RehearsalClock {
  let stopTick: (() => void) | null = null;

  const halt = (): void => {
    stopTick?.();
    stopTick = null;
    state.setState({ running: false });
  };

  /** The clock at `nowS`, with all that a crew playing by itself has called until then. */
  const at = (day: Rehearsed, nowS: number): Rehearsal =>
    state.getState().caller === "crew"
      ? played(day.plan, day.rehearsal, nowS, ports.walksOf(day.plan))
      : { ...day.rehearsal, nowS: instant(Math.max(day.rehearsal.nowS, nowS)) };

  const tick = (sinceMs: number, carryS: number): void => {
    const { day, speed } = state.getState();
    if (!day) return;
    const nowMs = ports.clock.nowMs();
    const passedS = carryS + ((nowMs - sinceMs) / 1000) * speed;
    const wholeS = Math.floor(passedS);
    if (wholeS > 0) put(at(day, day.rehearsal.nowS + wholeS));
    const after = state.getState().day;
    if (after && after.rehearsal.calls.length !== day.rehearsal.calls.length) keeper.keep();
    else keeper.keepClock();
    if (after && isOver(after)) {
      halt();
      keeper.keep();
      return;
    }
    stopTick = ports.clock.after(TICK_MS, () => tick(nowMs, passedS - wholeS));
  };

  return {
    halt,
    run() {
      const { day, running } = state.getState();
      if (!day || running || isOver(day)) return;
      state.setState({ running: true });
      const nowMs = ports.clock.nowMs();
      stopTick = ports.clock.after(TICK_MS, () => tick(nowMs, 0));
    },
    goOn(by) {
      const { day } = state.getState();
      if (!day) return;
      const { rehearsal, plan } = day;
      if (by !== "next call") put(at(day, rehearsal.nowS + by));
      else {
        const next = nextCall(plan, rehearsal, ports.walksOf(plan));
        if (next) put(at(day, next.atS));
      }
    },
  };
}
