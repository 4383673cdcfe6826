import type { Task } from "./task.ts";

/** What tells whether an instrument is left behind. */
export type Leaving = Pick<Task, "kind"> & { readonly instrument?: boolean | undefined };

/**
 * True when `task` leaves an instrument at its end place (blast-keep-out): as it says, and where it does not say, every
 * deployment does and nothing else. The one place where this is decided.
 */
export function leavesInstrument({ kind, instrument }: Leaving): boolean {
  return instrument ?? kind === "deployment";
}

/** True for a deployment that is said to leave nothing: blast-keep-out does not look at it, which has to be seen. */
export function isSwitchedOff({ kind, instrument }: Leaving): boolean {
  return kind === "deployment" && instrument === false;
}
