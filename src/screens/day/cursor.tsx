import { memo } from "react";
import type { TimeScale } from "../../editor/index.ts";
import { clock, clockText, utcClock } from "../../words/index.ts";
import { useDial } from "../dial.ts";
import { useCursor } from "./usecursor.ts";

/**
 * The time under the pointer: one line through lanes and margins, with both clocks at its head. Beside the map it stays at the
 * minute that the map shows.
 */
export const Cursor = memo(function Cursor(props: { readonly scale: TimeScale; readonly gutterPx: number }) {
  const { scale } = props;
  const at = useCursor(scale);
  const dial = useDial();
  if (!at) return null;
  const { x, wholeS } = at;
  return (
    <div className="cursor" style={{ transform: `translateX(${props.gutterPx + x}px)` }} aria-hidden="true">
      <span className={`cursor-time ${at.side}`}>
        <b>{clockText(dial, wholeS)}</b>
        {dial.kind === "utc"
          ? `${clock(wholeS)} MET`
          : dial.touchdownMs !== null && `${utcClock(dial.touchdownMs, wholeS)} UTC`}
      </span>
    </div>
  );
});
