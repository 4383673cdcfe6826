import type { TimeScale } from "../../editor/index.ts";
import { useSession, useView } from "../context.ts";
import { minuteOf } from "../minute.ts";
import { wholeMinute } from "../wholeminute.ts";
import { useMapBeside } from "./mapbeside.ts";

/** The time under the pointer, as it is shown: its column, the whole minute, and on which side of the column its words have room. */
export interface CursorAt {
  readonly x: number;
  readonly wholeS: number;
  readonly side: "before" | "after";
}

/** Nearer to the right edge than this there is no room for words, pixels. */
const WORDS_PX = 120;

/** The time under the pointer, beside the map the minute that the map shows; null where none is shown. */
export function useCursor(scale: TimeScale): CursorAt | null {
  const beside = useMapBeside();
  const outings = useSession((state) => state.verdict.outings);
  const cursorS = useView((view) =>
    view.cursorS === null && (!beside || view.minuteS === null) ? null : minuteOf(view, outings),
  );
  const inHand = useView((view) => view.inHand !== null);
  if (cursorS === null || inHand) return null;
  const x = scale.x(cursorS);
  if (x < 0 || x > scale.widthPx) return null;
  return {
    x,
    wholeS: wholeMinute(cursorS),
    side: x > scale.widthPx - WORDS_PX ? "before" : "after",
  };
}
