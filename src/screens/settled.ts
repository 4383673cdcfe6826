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

/** `value`; while something is in hand no oftener than ten times a second, the latest at the end. */
export function useCalm<Value>(value: Value): Value {
  const inHand = useLook((look) => look.inHand !== null);
  const [kept, keep] = useState(value);
  const keptMs = useRef(-Infinity);
  useLayoutEffect(() => {
    if (Object.is(value, kept)) return;
    const put = (): void => {
      keptMs.current = performance.now();
      keep(() => value);
    };
    const waitMs = CALM_MS - (performance.now() - keptMs.current);
    if (waitMs <= 0) {
      put();
      return;
    }
    const timer = setTimeout(put, waitMs);
    return () => clearTimeout(timer);
  }, [value, kept]);
  return inHand ? kept : value;
}
