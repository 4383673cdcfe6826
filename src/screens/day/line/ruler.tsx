import { memo, useCallback, useMemo } from "react";
import type { TimeScale } from "../../../editor/index.ts";
import { shownPlan } from "../../../session/index.ts";
import { clockText } from "../../../words/index.ts";
import { useApp, useSession, useView } from "../../context.ts";
import { useDial } from "../../dial.ts";
import type { Brush } from "../../parts/canvas/brush.ts";
import { Canvas } from "../../parts/canvas/canvas.tsx";
import { useCursor } from "../usecursor.ts";
import type { DayLayout } from "./geometry.ts";
import { marksUnder, type OnRuler, paintRuler } from "./paintruler.ts";

/** The ruler, without the words that would be seen in part under the times of what is in hand or of the pointer. */
export const Ruler = memo(function Ruler(props: {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  readonly heightPx: number;
}) {
  const { layout, scale, heightPx } = props;
  const { sunDeg } = useApp();
  const plan = useSession(shownPlan);
  const dial = useDial();
  const sun = useMemo(() => remembered((atS) => sunDeg(plan, atS)), [plan, sunDeg]);
  const marks = marksUnder(dial, scale, useOnRuler(layout, scale)).join();
  const under = useMemo(() => new Set(marks.split(",")), [marks]);
  const paint = useCallback(
    (brush: Brush) => paintRuler(brush, { plan, dial, sunDeg: sun }, scale, under),
    [plan, dial, scale, sun, under],
  );
  return <Canvas widthPx={scale.widthPx} heightPx={heightPx} paint={paint} />;
});

/** Letters of `12:34 UTC`, the longer one of the two lines at the pointer. */
const CURSOR_LETTERS = 9;

function useOnRuler({ blocks }: DayLayout, scale: TimeScale): readonly OnRuler[] {
  const task = useView((view) => view.inHand?.task ?? null);
  const cursor = useCursor(scale);
  const dial = useDial();
  const moved = task === null ? undefined : blocks.find((one) => one.task === task);
  if (moved) {
    const letters = (atS: number): number => clockText(dial, atS, moved.eva).length;
    return [
      { x: scale.x(moved.startS), side: "before", letters: letters(moved.startS), over: 1 },
      { x: scale.x(moved.endS), side: "after", letters: letters(moved.endS), over: 1 },
    ];
  }
  return cursor ? [{ x: cursor.x, side: cursor.side, letters: CURSOR_LETTERS, over: 2 }] : [];
}

/** Elevations by instant, each worked out once: every frame of a moving window asks for the same ones. */
function remembered(sunDeg: (atS: number) => number | null): (atS: number) => number | null {
  const known = new Map<number, number | null>();
  return (atS) => {
    let degrees = known.get(atS);
    if (degrees === undefined) {
      degrees = sunDeg(atS);
      known.set(atS, degrees);
    }
    return degrees;
  };
}
