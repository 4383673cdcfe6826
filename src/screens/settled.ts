import { useEffect, useLayoutEffect, useRef, useState } from "react";
import { useLook } from "./context.ts";

/**
 * `value`, but of a stream of changes only the first and the one it comes to rest at: for parts that need not follow
 * every frame. A single change is followed at once; `restMs` without a change is rest.
 */
export function useSettled<Value>(value: Value, restMs: number): Value {
  const [kept, keep] = useState(value);
  const last = useRef({ value, atMs: -Infinity });
  useEffect(() => {
    if (Object.is(value, last.current.value)) return;
    const atMs = performance.now();
    const streams = atMs - last.current.atMs < restMs;
    last.current = { value, atMs };
    const timer = setTimeout(() => keep(() => value), streams ? restMs : 0);
    return () => clearTimeout(timer);
  }, [value, restMs]);
  return kept;
}

/** How often lists are made anew while something is in hand, ms: they are read, not watched. */
const CALM_MS = 100;
/** Made anew together they would make one long frame: each has its own, so far apart, ms. */
const SLOT_MS = 17;

/** When lists will be made anew, ms. */
let slots: readonly number[] = [];

/** The first free moment from `earliestMs` on, taken. */
function slotFrom(earliestMs: number): number {
  const coming = slots.filter((ms) => ms > performance.now() - SLOT_MS);
  const at = coming.reduce(
    (ms, other) => (Math.abs(other - ms) < SLOT_MS ? other + SLOT_MS : ms),
    earliestMs,
  );
  slots = [...coming, at].toSorted((a, b) => a - b);
  return at;
}

/** `value`; while something is in hand no oftener than ten times a second, the latest at the end. */
export function useCalm<Value>(value: Value): Value {
  const by = useLook((look) => look.inHand?.by ?? null);
  const inHand = by !== null;
  const [kept, keep] = useState(value);
  const keptMs = useRef(-Infinity);
  const dueMs = useRef<number | null>(null);
  useLayoutEffect(() => {
    if (Object.is(value, kept)) return;
    const put = (): void => {
      keptMs.current = performance.now();
      dueMs.current = null;
      keep(() => value);
    };
    const restedMs = keptMs.current + CALM_MS;
    // A key is one change and is answered at once; a pointer makes a stream of them.
    if (by === "keys" && performance.now() >= (dueMs.current ?? restedMs)) {
      put();
      return;
    }
    dueMs.current ??= slotFrom(Math.max(performance.now(), restedMs));
    const timer = setTimeout(put, dueMs.current - performance.now());
    return () => clearTimeout(timer);
  }, [value, kept, by]);
  // At rest it is followed at once, so that what is taken in hand next begins with what was shown.
  if (!inHand && !Object.is(value, kept)) keep(() => value);
  return inHand ? kept : value;
}
