import { type RefObject, useEffect } from "react";
import { keysOf } from "../../session/index.ts";

/**
 * Ctrl+A anywhere on the page is for the table that has the keyboard, else for the first one: it marks all of its rows, or the text of the
 * cell in hand where there are none to mark; never the words of the whole page. A field keeps the key for its own text.
 */
export function useWholeTableKey(section: RefObject<HTMLElement | null>, markAll: (() => void) | null): void {
  useEffect(() => {
    const down = (event: KeyboardEvent): void => {
      const target = event.target instanceof Element ? event.target : null;
      if (event.defaultPrevented || keysOf(event) !== "Ctrl+A") return;
      if (target?.closest("input, textarea, select, dialog")) return;
      const table = target?.closest(".setup-table") ?? document.querySelector(".setup-table");
      if (table !== section.current) return;
      event.preventDefault();
      const cell = target?.closest("[data-cell]");
      if (markAll) markAll();
      else if (cell) getSelection()?.selectAllChildren(cell);
    };
    window.addEventListener("keydown", down);
    return () => window.removeEventListener("keydown", down);
  }, [section, markAll]);
}
