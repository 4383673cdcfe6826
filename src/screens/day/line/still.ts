import { useEffect, useState } from "react";
import { useView } from "../../context.ts";
import type { DayLayout } from "./geometry.ts";

/**
 * What stands on the line, as it was when something was taken in hand by the pointer, until it is set down. For parts
 * that are not looked at during a drag: they need not follow every frame.
 */
export function useStill(layout: DayLayout): DayLayout {
  const inHand = useView((view) => view.inHand?.by === "pointer");
  const [kept, keep] = useState(layout);
  useEffect(() => {
    if (!inHand) keep(layout);
  }, [layout, inHand]);
  return inHand ? kept : layout;
}
