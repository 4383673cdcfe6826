import type { Instant } from "../kernel/index.ts";

/**
 * How a day is played where that differs from "everybody leaves at once" (S4, S10): what the judge is told beside the
 * schedule. What is left out is as S3 and S4 have it.
 */
export interface Departures {
  /** By EVA: when its crew goes out. A moment later than S3 gives changes nothing. */
  readonly egressS?: ReadonlyMap<string, Instant>;
  /** By EVA: when ingress is complete. A moment earlier than S3 gives changes nothing. */
  readonly ingressS?: ReadonlyMap<string, Instant>;
  /**
   * By crew member and task: when they leave for it. It counts between the end of what they did before, which is "at
   * once", and the last moment from which the task still starts in time.
   */
  readonly leaveS?: ReadonlyMap<string, ReadonlyMap<string, Instant>>;
}

/** Everybody leaves at once. */
export const AT_ONCE: Departures = {};
