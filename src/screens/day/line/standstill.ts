import { useEffect, useRef, useState } from "react";
import type { TimeScale } from "../../../editor/index.ts";

/** How long the window must stand still before what waits for it is laid out anew, ms. */
const SETTLE_MS = 150;
/** A wheel that turned so lately may turn on, ms. */
const WHEEL_MS = 300;

/** Pointers that are down, and when the wheel was turned last. */
interface Hand {
  readonly down: Set<number>;
  wheelMs: number;
}

/**
 * The scale at which the window stands, or stood last while it moves: for parts that need not follow every frame. A jump, by a key
 * or a click, is followed at once. A window that a hand moves stands once no pointer is down and it has not moved for a while; one
 * that moves on and on by itself, or by a key that is kept down, once it has not moved for a while.
 */
export function useStandstill(scale: TimeScale): TimeScale {
  const [kept, keep] = useState(scale);
  const hand = useHand();
  const last = useRef({ scale, atMs: -Infinity });
  useEffect(() => {
    if (scale === last.current.scale) return;
    const atMs = performance.now();
    const { down, wheelMs } = hand.current;
    const moves = down.size > 0 || atMs - wheelMs < WHEEL_MS || atMs - last.current.atMs < SETTLE_MS;
    last.current = { scale, atMs };
    const settle = (): void => {
      if (down.size > 0) timer = setTimeout(settle, SETTLE_MS);
      else keep(scale);
    };
    let timer = setTimeout(settle, moves ? SETTLE_MS : 0);
    return () => clearTimeout(timer);
  }, [scale, hand]);
  return kept;
}

/** What pointers and wheel do, anywhere on the page. */
function useHand(): { readonly current: Hand } {
  const hand = useRef<Hand>({ down: new Set(), wheelMs: -Infinity });
  useEffect(() => {
    const { down } = hand.current;
    const press = (event: PointerEvent): void => void down.add(event.pointerId);
    const lift = (event: PointerEvent): void => void down.delete(event.pointerId);
    const move = (event: PointerEvent): void => {
      // It was let go of where the page could not know.
      if (event.buttons === 0) down.delete(event.pointerId);
    };
    const turn = (): void => void (hand.current.wheelMs = performance.now());
    const listening = new AbortController();
    const options = { capture: true, passive: true, signal: listening.signal };
    window.addEventListener("pointerdown", press, options);
    window.addEventListener("pointermove", move, options);
    window.addEventListener("pointerup", lift, options);
    window.addEventListener("pointercancel", lift, options);
    window.addEventListener("wheel", turn, options);
    return () => listening.abort();
  }, []);
  return hand;
}
