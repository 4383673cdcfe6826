import { type RefObject, useEffect, useMemo, useRef } from "react";
import type { Line } from "../fields/table.ts";
import type { GridHands, Place } from "./gridhands.ts";
import type { RowMarks } from "./gridmarks.ts";
import { type CellRef, onward } from "./gridmoves.ts";
import { cellAt, type PlaceInGrid } from "./gridplace.ts";
import type { GridWriting } from "./gridwriting.ts";

/** What the hands of a grid work on. */
export interface HandsOn {
  readonly lines: readonly Line[];
  readonly standing: PlaceInGrid;
  readonly writing: GridWriting;
  readonly marks: RowMarks;
  /** True while the keyboard is to follow the place. */
  readonly follow: RefObject<boolean>;
  go(to: CellRef): void;
  onPlace(place: Place): void;
}

/** What rows tell their grid, and where the keyboard goes then; the same hands all along. */
export function useGridHands(on: HandsOn): GridHands {
  const { lines, standing, writing, marks, follow, go, onPlace } = on;
  const { cellRef, cell } = standing;
  return useSteadyHands({
    press(of, where, edits, how) {
      marks.byPress(where.line, how);
      follow.current = how !== "alone";
      onPlace(where);
      if (edits) writing.edit(of);
    },
    enter: onPlace,
    done(how) {
      if (cell) {
        writing.keep(cell, null);
        writing.retry(cell);
      }
      writing.close();
      if (!cellRef || how === "elsewhere") return;
      follow.current = true;
      if (how === "down") go({ row: Math.min(cellRef.row + 1, lines.length - 1), column: cellRef.column });
      else if (how === "next" || how === "back") editOnward(on, cellRef, how === "back");
    },
    cancel(of) {
      writing.keep(of, null);
      writing.close();
      follow.current = true;
    },
    faulty(of, faulty, how) {
      writing.keep(of, faulty);
      writing.retry(of);
      writing.close(of.id);
      if (!cellRef || (how !== "next" && how !== "back")) return;
      follow.current = true;
      editOnward(on, cellRef, how === "back");
    },
  });
}

/** Goes on from an edited cell by Tab: the next one that can be written in is edited as well. */
function editOnward({ lines, standing, writing, go }: HandsOn, from: CellRef, back: boolean): void {
  const written = { ...standing.extent, has: (one: CellRef) => cellAt(lines, one)?.fixed === null };
  const next = onward(from, back, written);
  const to = next && cellAt(lines, next);
  if (!next || !to) return;
  go(next);
  // A tick too: the next Tab must go on from it and not out of the table.
  writing.open(to);
}

/** The same hands all along, which do what the given ones do now. */
function useSteadyHands(hands: GridHands): GridHands {
  const latest = useRef(hands);
  useEffect(() => {
    latest.current = hands;
  });
  return useMemo<GridHands>(
    () => ({
      press: (...all) => latest.current.press(...all),
      enter: (where) => latest.current.enter(where),
      done: (how) => latest.current.done(how),
      cancel: (cell) => latest.current.cancel(cell),
      faulty: (cell, faulty, how) => latest.current.faulty(cell, faulty, how),
    }),
    [],
  );
}
