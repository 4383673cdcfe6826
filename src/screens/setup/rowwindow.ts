import { type RefObject, useEffect, useLayoutEffect, useState } from "react";
import { useMatching } from "../media.ts";

/** From so many rows on only those in sight are in the page. */
export const MANY_ROWS = 60;
/** Height of every row of such a table under a mouse and under a finger, CSS pixels, as the style sheet has it; its cells show one line. */
const ROW_PX = { fine: 37, coarse: 45 };
const AROUND = 8;

/** The rows that are in the page, and where the others would be. */
export interface RowWindow {
  readonly first: number;
  /** One past the last. */
  readonly end: number;
  /** Height of a row, CSS pixels. */
  readonly rowPx: number;
}

/** The rows of `count` that a scrolled box shows, with some around them; all of a table that is not long. */
export function rowsShown(count: number, scrollPx: number, heightPx: number, rowPx = ROW_PX.fine): RowWindow {
  if (count <= MANY_ROWS) return { first: 0, end: count, rowPx };
  const first = Math.max(0, Math.floor(scrollPx / rowPx) - AROUND);
  const end = Math.min(count, Math.ceil((scrollPx + heightPx) / rowPx) + AROUND);
  return {
    first: Math.min(first, Math.max(0, count - 1)),
    end: Math.max(end, Math.min(count, first + 1)),
    rowPx,
  };
}

/** Follows the scrolling of `box`, and brings row `goal` into the window when it lies outside of it. */
export function useRowWindow(box: RefObject<HTMLElement | null>, count: number, goal: number): RowWindow {
  const [seen, setSeen] = useState({ scrollPx: 0, heightPx: 800 });
  const long = count > MANY_ROWS;
  const rowPx = useMatching("(pointer: coarse)") ? ROW_PX.coarse : ROW_PX.fine;
  useEffect(() => {
    const element = box.current;
    if (!element || !long) return;
    const view = (): void =>
      setSeen((was) => {
        const next = { scrollPx: element.scrollTop, heightPx: element.clientHeight || 800 };
        const same = Math.abs(next.scrollPx - was.scrollPx) < rowPx && next.heightPx === was.heightPx;
        return same ? was : next;
      });
    view();
    element.addEventListener("scroll", view, { passive: true });
    return () => element.removeEventListener("scroll", view);
  }, [box, long, rowPx]);
  const shown = rowsShown(count, seen.scrollPx, seen.heightPx, rowPx);
  const outside = long && goal >= 0 && (goal < shown.first || goal >= shown.end);
  useLayoutEffect(() => {
    const element = box.current;
    if (!outside || !element) return;
    element.scrollTop = Math.max(0, goal * rowPx - element.clientHeight / 3);
  }, [outside, goal, box, rowPx]);
  // Until the box has followed, the goal and its neighbours are in the page already.
  return outside ? rowsShown(count, goal * rowPx - 200, seen.heightPx, rowPx) : shown;
}
