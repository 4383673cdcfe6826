import { useEffect } from "react";
import type { Finding } from "../../../answers/index.ts";
import { findingLanes } from "./paintfindings.ts";
import type { LineOnPage } from "./theline.ts";

/** Scrolls the lane of the finding that was gone to into sight, where not all lanes have room. */
export function useLaneInSight({ stage, latest }: LineOnPage, chosen: Finding | null): void {
  useEffect(() => {
    const scroller = stage.current?.parentElement;
    const layout = latest.current?.layout;
    if (!chosen || !scroller || !layout) return;
    const keys = findingLanes(layout, chosen);
    const lane = layout.lanes.find((one) => keys.includes(one.key));
    if (!lane) return;
    const top = Math.min(scroller.scrollTop, lane.topPx);
    scroller.scrollTop = Math.max(top, lane.topPx + lane.heightPx - scroller.clientHeight);
  }, [stage, latest, chosen]);
}
