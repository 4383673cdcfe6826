import { memo } from "react";
import { type TimeScale } from "../../editor/index.ts";
import { clock, clockText, utcClock } from "../../words/index.ts";
import { useSession, useView } from "../context.ts";
import { useDial } from "../dial.ts";
import { minuteOf } from "../minute.ts";
import { useMapBeside } from "./mapbeside.ts";

/**
 * The time under the pointer: one line through lanes and margins, with both clocks at its head. Beside the map it stays at the
 * minute that the map shows.
 */
export const Cursor = memo(function Cursor(props: { readonly scale: TimeScale; readonly gutterPx: number }) {
  const { scale } = props;
  const beside = useMapBeside();
  const outings = useSession((state) => state.verdict.outings);
  const cursorS = useView((view) =>
    view.cursorS === null && (!beside || view.minuteS === null) ? null : minuteOf(view, outings),
  );
  const inHand = useView((view) => view.inHand !== null);
  const dial = useDial();
  if (cursorS === null || inHand) return null;
  const whole = Math.round(cursorS / 60) * 60;
  const x = scale.x(cursorS);
  if (x < 0 || x > scale.widthPx) return null;
  return (
    <div className="cursor" style={{ transform: `translateX(${props.gutterPx + x}px)` }} aria-hidden="true">
      <span className={x > scale.widthPx - 120 ? "cursor-time before" : "cursor-time"}>
        <b>{clockText(dial, whole)}</b>
        {dial.kind === "utc"
          ? ` ${clock(whole)} MET`
          : dial.touchdownMs !== null && ` ${utcClock(dial.touchdownMs, whole)} UTC`}
      </span>
    </div>
  );
});
