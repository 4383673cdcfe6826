import { met, type TimeScale, utc } from "../../dayline/index.ts";
import { useDesk, useLook } from "../context.ts";
import { touchdownMs } from "../words.ts";

/** The time under the pointer: one line through lanes and margins, with both clocks at its head. */
export function Cursor(props: { readonly scale: TimeScale; readonly gutterPx: number }) {
  const { scale } = props;
  const cursorS = useLook((look) => look.cursorS);
  const inHand = useLook((look) => look.inHand !== null);
  const epochMs = useDesk((state) => touchdownMs(state.plan));
  if (cursorS === null || inHand) return null;
  const whole = Math.round(cursorS / 60) * 60;
  const x = scale.x(cursorS);
  if (x < 0 || x > scale.widthPx) return null;
  return (
    <div className="cursor" style={{ transform: `translateX(${props.gutterPx + x}px)` }} aria-hidden="true">
      <span className={x > scale.widthPx - 120 ? "cursor-time before" : "cursor-time"}>
        <b>{met(whole)}</b> {utc(epochMs, whole)} UTC
      </span>
    </div>
  );
}
