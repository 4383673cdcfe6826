import { type RefObject, useEffect } from "react";

/** Calls `leave` while `open` when one of `events` happens outside of `ref`; `leave` and `events` stay the same objects. */
export function useAway(
  ref: RefObject<HTMLElement | null>,
  open: boolean,
  leave: (open: false) => void,
  events: readonly string[],
): void {
  useEffect(() => {
    if (!open) return;
    const away = (event: Event): void => {
      if (event.target instanceof Node && !ref.current?.contains(event.target)) leave(false);
    };
    for (const name of events) document.addEventListener(name, away);
    return () => {
      for (const name of events) document.removeEventListener(name, away);
    };
  }, [ref, open, leave, events]);
}
