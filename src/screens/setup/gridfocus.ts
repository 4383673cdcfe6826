import { type RefObject, useEffect } from "react";

/**
 * Brings the keyboard to the place of a grid: after a move of it (`follow`), never because something else was drawn, and whenever it
 * is sent there from outside (`called` counts how often). While a cell is edited its editor has the keyboard.
 */
export function useGridFocus(
  box: RefObject<HTMLTableElement | null>,
  follow: RefObject<boolean>,
  isEditing: boolean,
  called: number,
): void {
  useEffect(() => {
    if (!follow.current || isEditing) return;
    follow.current = false;
    focusPlace(box.current);
  });
  // A table that opens at one of its lines shows it.
  useEffect(() => {
    box.current?.querySelector("tr[data-here]")?.scrollIntoView({ block: "center" });
  }, [box]);
  useEffect(() => {
    if (called > 0) focusPlace(box.current);
  }, [box, called]);
}

function focusPlace(table: HTMLTableElement | null): void {
  table?.querySelector<HTMLElement>('[data-cell][tabindex="0"]')?.focus();
}
