import type { Lags } from "./lags.ts";
import { DONE as IS_DONE, IN_VAIN, VAIN } from "./outcome.ts";
import type { Today } from "./today.ts";

// Read in the innermost loops: local, as an import may cost a call there.
const DONE = IS_DONE;

/** O5: broken lags, then whatever needs what was not done, was done in vain. */
export function countVain(today: Today, lags: Lags): void {
  const { order } = today.script;
  const { state } = today;
  for (let p = 0; p < order.length; p += 1) {
    const a = order[p]!;
    if (state[a] === DONE && lags.isBroken(a)) today.conclude(a, IN_VAIN, VAIN);
  }
  for (let again = true; again;) {
    again = false;
    for (let p = 0; p < order.length; p += 1) {
      const a = order[p]!;
      if (state[a] !== DONE || !lacksNeed(today, a)) continue;
      today.conclude(a, IN_VAIN, VAIN);
      again = true;
    }
  }
}

/** True when something that `a` needs was not done. */
function lacksNeed({ script, state }: Today, a: number): boolean {
  const needs = script.problem.needs[a]!;
  for (let n = 0; n < needs.length; n += 1) if (state[needs[n]!] !== DONE) return true;
  return false;
}
