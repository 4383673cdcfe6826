import { useEffect, useLayoutEffect, useMemo, useState } from "react";
import { type Extent, fitted, type MapFrame } from "../../editor/map/index.ts";
import { useSite, useSiteView } from "./context.ts";
import { PAD_PX } from "./shown.ts";

/** The room that a map has, and its frame in it. */

/** The frame in the room there is: all of `extent` while none was chosen, also after the room has changed. */
export function useFrame(size: { readonly width: number; readonly height: number }, extent: Extent) {
  const { siteView } = useSite();
  const kept = useSiteView((state) => state.frame);
  const { width, height } = size;
  const [frame, keep] = useMemo(() => {
    const all = fitted(extent, width, height, PAD_PX);
    if (!kept) return [all, true];
    if (kept.widthPx === width && kept.heightPx === height) return [kept, false];
    // Nobody has moved or zoomed the map: it fills the new room as it filled the old one.
    const whole = sameView(kept, fitted(extent, kept.widthPx, kept.heightPx, PAD_PX));
    return whole ? [all, true] : [{ ...kept, widthPx: width, heightPx: height }, false];
  }, [kept, extent, width, height]);
  useEffect(() => {
    // Kept once it is shown, so that places moved later do not move the map under them.
    if (keep && width > 0) siteView.setState({ frame });
  }, [keep, width, frame, siteView]);
  return frame;
}

function sameView(one: MapFrame, other: MapFrame): boolean {
  return one.eastM === other.eastM && one.northM === other.northM && one.pxPerM === other.pxPerM;
}

/** The size of an element, kept up to date, pixels; none before it is measured. */
export function useSize(ref: React.RefObject<HTMLElement | null>) {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const measure = (): void =>
      setSize((now) =>
        now.width === element.clientWidth && now.height === element.clientHeight
          ? now
          : { width: element.clientWidth, height: element.clientHeight },
      );
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, [ref]);
  return size;
}
