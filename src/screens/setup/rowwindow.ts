import { type RefObject, useEffect, useLayoutEffect, useState } from "react";

/** From so many rows on only those in sight are in the page. */
export const MANY_ROWS = 60;
/** Height of every row of such a table, CSS pixels; its cells show one line. */
export const ROW_PX = 37;
const AROUND = 8;

/** The rows that are in the page, and where the others would be. */
export interface RowWindow {
  readonly first: number;
  /** One past the last. */
  readonly end: number;
}

/** The rows of `count` that a scrolled box shows, with some around them; all of a table that is not long. */
export function rowsShown(count: number, scrollPx: number, heightPx: number): RowWindow {
  if (count <= MANY_ROWS) return { first: 0, end: count };
  const first = Math.max(0, Math.floor(scrollPx / ROW_PX) - AROUND);
  const end = Math.min(count, Math.ceil((scrollPx + heightPx) / ROW_PX) + AROUND);
  return { first: Math.min(first, Math.max(0, count - 1)), end: Math.max(end, Math.min(count, first + 1)) };
}

/** Follows the scrolling of `box`, and brings row `goal` into the window when it lies outside of it. */
export function useRowWindow(box: RefObject<HTMLElement | null>, count: number, goal: number): RowWindow {
  const [seen, setSeen] = useState({ scrollPx: 0, heightPx: 800 });
  const long = count > MANY_ROWS;
  useEffect(() => {
    const element = box.current;
    if (!element || !long) return;
    const view = (): void =>
      setSeen((was) => {
        const next = { scrollPx: element.scrollTop, heightPx: element.clientHeight || 800 };
        const same = Math.abs(next.scrollPx - was.scrollPx) < ROW_PX && next.heightPx === was.heightPx;
        return same ? was : next;
      });
    view();
    element.addEventListener("scroll", view, { passive: true });
    return () => element.removeEventListener("scroll", view);
  }, [box, long]);
  const shown = rowsShown(count, seen.scrollPx, seen.heightPx);
  const outside = long && goal >= 0 && (goal < shown.first || goal >= shown.end);
  useLayoutEffect(() => {
    const element = box.current;
    if (!outside || !element) return;
    element.scrollTop = Math.max(0, goal * ROW_PX - element.clientHeight / 3);
  }, [outside, goal, box]);
  // Until the box has followed, the goal and its neighbours are in the page already.
  return outside ? rowsShown(count, goal * ROW_PX - 200, seen.heightPx) : shown;
}
