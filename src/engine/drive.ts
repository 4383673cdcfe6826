import type { HandedDay } from "../answers/index.ts";
import type { Schedule } from "../plan/index.ts";
import type { CallName, Hearing, Meet } from "./calls.ts";

/** Gives way to waiting messages, a cancel among them. */
export type YieldToHost = () => Promise<void>;

/** How a call is heard, broken off, and gives way while it runs; without `yieldToHost` it runs through. */
export interface Turn<Name extends CallName> extends Hearing<Name> {
  readonly yieldToHost?: YieldToHost | undefined;
}

/** Something that is driven slice by slice; `step` is false when it is finished. */
interface Sliced<Now> {
  step(sliceS: number): boolean;
  progress(): Now;
  /** Ends the search, where something is left to be done with what it found. */
  finish?(): void;
  /** The day in hand where it is time to tell others of it, and how one of theirs is gone on from. */
  handOn?(): HandedDay | null;
  takeUp?(schedule: Schedule): void;
}

/** Progress is reported at most this often, s. */
const REPORT_EVERY_S = 0.1;

/**
 * Drives `run` in slices of `sliceS` to its end or until `signal` aborts, or `enough`, after which it may finish; gives way between slices
 * and tells how far it has come, when that is news, and at the end.
 */
export async function drive<Now>(
  clock: () => number,
  run: Sliced<Now>,
  sliceS: number,
  how: {
    readonly report?: ((progress: Now) => void) | undefined;
    readonly yieldToHost?: YieldToHost | undefined;
    readonly signal?: AbortSignal | undefined;
    readonly enough?: AbortSignal | undefined;
    readonly meet?: Meet | undefined;
  },
): Promise<void> {
  let reportedS = -Infinity;
  let reported: Now | null = null;
  const report = (): void => {
    const now = run.progress();
    if (now === reported) return;
    how.report?.(now);
    reported = now;
    reportedS = clock();
  };
  while (run.step(sliceS)) {
    if (how.signal?.aborted) break;
    if (how.enough?.aborted) {
      if (!run.finish) break;
      run.finish();
    }
    const handed = run.handOn?.();
    const better = handed && (await how.meet?.(handed));
    if (better) run.takeUp?.(better);
    if (clock() - reportedS >= REPORT_EVERY_S) report();
    await how.yieldToHost?.();
  }
  report();
}
