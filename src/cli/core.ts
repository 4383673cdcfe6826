import { type Core, makeCore } from "../engine/core.ts";
import type { Streams } from "./verb.ts";

/** A core on the machine's clock. */
export function core(): Core {
  return makeCore(() => performance.now() / 1000);
}

/** How a verb's call runs: a Ctrl-C gets in between two slices, and what was found until then is the answer. */
export function turnOf({ stop }: Streams): {
  readonly yieldToHost: () => Promise<void>;
  readonly enough: AbortSignal;
} {
  return { yieldToHost: () => new Promise((resolve) => setImmediate(resolve)), enough: stop };
}
