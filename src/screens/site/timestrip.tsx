import { type PointerEvent, useCallback, useRef } from "react";
import type { SiteCourse, SiteLeg } from "../../answers/index.ts";
import { timeScale } from "../../editor/index.ts";
import { afootAt } from "../../editor/map/index.ts";
import type { Plan } from "../../plan/index.ts";
import { useApp, useSession } from "../context.ts";
import type { Brush } from "../parts/canvas/brush.ts";
import { Canvas } from "../parts/canvas/canvas.tsx";
import { paintStrip, ROW_PX } from "./paintstrip.ts";

/** The day of each crew member in a row; a press sets the minute and selects the task under it. */
export function TimeStrip(props: {
  readonly plan: Plan;
  readonly courses: readonly SiteCourse[];
  readonly minuteS: number;
  readonly widthPx: number;
  readonly onMinute: (atS: number) => void;
}) {
  const { plan, courses, minuteS, widthPx, onMinute } = props;
  const { session } = useApp();
  const selection = useSession((state) => state.selection);
  const strip = useRef<HTMLDivElement>(null);
  const lengthS = plan.stay.lengthS;
  const heightPx = ROW_PX * Math.max(1, plan.crew.length) + 2;
  const paint = useCallback(
    (brush: Brush) => {
      const scale = timeScale({ startS: 0, endS: lengthS }, brush.widthPx);
      paintStrip(brush, { plan, courses, selection, minuteS, x: (atS) => scale.x(atS) });
    },
    [plan, courses, selection, lengthS, minuteS],
  );
  const under = (event: PointerEvent): { atS: number; leg: SiteLeg | null } => {
    const box = strip.current!.getBoundingClientRect();
    const atS = ((event.clientX - box.left) / box.width) * lengthS;
    const member = plan.crew[Math.floor((event.clientY - box.top) / ROW_PX)];
    const own = courses.filter((one) => one.crew === member?.id);
    return {
      atS,
      leg: own.map((one) => afootAt(one.legs, atS)?.leg).find((leg) => leg !== undefined) ?? null,
    };
  };
  return (
    <div
      ref={strip}
      className="site-strip"
      style={{ height: heightPx }}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        const { atS, leg } = under(event);
        onMinute(atS);
        if (leg?.task) session.select([leg.task]);
      }}
      onPointerMove={(event) => {
        if (event.buttons === 1) onMinute(under(event).atS);
      }}
    >
      <Canvas widthPx={widthPx} heightPx={heightPx} paint={paint} />
    </div>
  );
}
